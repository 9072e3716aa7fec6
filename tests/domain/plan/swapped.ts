// The books after a plan's swaps, given one after another as ordinary ones; a plan that cannot be given is an error.
import { imagine } from '../../../src/domain/imagine.ts'
import type { Plan } from '../../../src/domain/plan/plan.ts'
import type { State } from '../../../src/domain/state.ts'
import { NOW } from '../given.ts'

export function swapped(state: State, plan: Plan): State {
  const commands = plan.seats.flatMap((seat) => seat.swaps.flatMap((swap) => swap.commands))
  const after = imagine(
    state,
    commands.map((each) => ({ ...each, by: 'M-104' })),
    NOW,
  )
  if ('refused' in after) throw new Error(after.refused)
  return after.state
}
