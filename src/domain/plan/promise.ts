// Holds what a plan promises against the books after it; what does not come true is dropped, and nothing is called proven then.
import { assess, type Assessment } from '../assess.ts'
import { SETUP } from '../commands.ts'
import type { Id } from '../gear.ts'
import { imagine } from '../imagine.ts'
import type { Policy } from '../policy/shape.ts'
import { sayVerdict } from '../rules/verdict.ts'
import type { State } from '../state.ts'
import type { Instant } from '../time.ts'
import { MORE_IS_BETTER, valuesOf } from './check.ts'
import { GOALS, type Problem, type Solved } from './model.ts'
import type { PlannedSeat } from './plan.ts'

/** The books once all of it is done; a plan that the books would refuse is a mistake of this program and is not shown. */
export function carryOut(
  state: State,
  policy: Policy,
  at: Instant,
  seats: readonly PlannedSeat[],
): { after: State; assessment: Assessment } {
  const by = state.tour?.officer ?? SETUP
  const commands = seats.flatMap((seat) => seat.swaps.flatMap((swap) => swap.commands))
  const after = imagine(
    state,
    commands.map((command) => ({ ...command, by })),
    at,
  )
  if ('refused' in after) throw new Error(`the plan would be refused: ${after.refused}`)
  return { after: after.state, assessment: assess(after.state, policy, at) }
}

/** The riding positions that stay unfit with their swaps given, and why: each mends its own place and they do not go together. */
export function brokenPromises({ rigs }: Assessment, seats: readonly PlannedSeat[]): Map<Id, string> {
  const promised = new Set(seats.flatMap((each) => (each.becomesFit ? each.seat : [])))
  return new Map(
    rigs.flatMap((rig) =>
      rig.seats.flatMap(({ seat, fit, reasons }): [Id, string][] => {
        if (fit || !promised.has(seat.id)) return []
        const [reason] = reasons
        const says = `What is on the rack mends each piece but not all at once. ${sayVerdict(reason!)}`
        return [[seat.id, `${says} Swap by hand with s and look at each.`]]
      }),
    ),
  )
}

/** The same without what is broken; of what is left nobody knows how much better it could be. */
export function unproven(
  { model, modelGaps }: Problem,
  { choice }: Solved,
  broken: ReadonlyMap<Id, string>,
): Solved {
  const kept = choice.map((option, gap) => (broken.has(modelGaps[gap]!.seat.seat.id) ? null : option))
  const values = valuesOf(model, kept)
  return {
    choice: kept,
    stages: GOALS.map((goal) => ({
      goal,
      value: values[goal],
      bound: MORE_IS_BETTER.has(goal) ? Infinity : -Infinity,
      isProven: false,
    })),
  }
}
