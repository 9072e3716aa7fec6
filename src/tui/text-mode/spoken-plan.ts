// The plan told in plain lines: what goes in where, what stays unfit and why, each by its number; it must never hide a position.
import type { Plan } from '../../domain/plan/plan.ts'
import { sayRigChange } from '../../domain/plan/words.ts'
import { itemsOf, saidOf } from '../panels/plan.ts'
import { BACK, type Choice, type Spoken } from './choice.ts'

/** Every swap by a number that takes it in hand, and under its position; what stays unfit says why. */
export function spokenPlan(made: Plan): Spoken {
  const items = itemsOf(made)
  return {
    lines: [made.words, ...made.rigs.map(sayRigChange)],
    choices: items.map((item, at): Choice => {
      const { seat } = item
      const isFirst = seat !== null && items[at - 1]?.seat !== seat
      const under =
        seat &&
        `${seat.seat} ${seat.position}, ${seat.name}: ${seat.becomesFit ? 'becomes fit' : 'stays unfit'}.`
      return { value: String(at), label: saidOf(made, item).join('. '), ...(isFirst && { under: under! }) }
    }),
    hint: `A number takes a swap in hand, then s takes only that one. a takes all. ${BACK}`,
  }
}
