// Whose own gear is back and may be worn while a spare stands in, worked out once for a state and a minute.
import { nameOf } from '../domain/decide/decision.ts'
import { ownsBack, type OwnBack } from '../domain/fit/own-back.ts'
import { policyOf } from '../domain/policy/in-force.ts'
import type { State } from '../domain/state.ts'
import type { View } from './view.ts'

const known = new WeakMap<State, { at: string; back: OwnBack[] }>()

export function ownGearBack({ state, at }: View): OwnBack[] {
  const minute = at.slice(0, 16)
  const kept = known.get(state)
  if (kept?.at === minute) return kept.back
  const back = ownsBack(state, policyOf(state), at)
  known.set(state, { at: minute, back })
  return back
}

/** `Back and fit: hood K-9281 of Ludmila Penhallion. b on their row swaps it back.` */
export function sayBack(view: View): string | undefined {
  const back = ownGearBack(view)
  const [first] = back
  if (!first) return undefined
  const name = view.rows.find((row) => row.seat === first.seat)?.name || first.seat
  const more = back.length > 1 ? ` and ${back.length - 1} more` : ''
  return `Back and fit: ${nameOf(first.own)} of ${name}${more}. b on that row swaps it back.`
}
