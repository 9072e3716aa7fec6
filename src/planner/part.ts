// The planner as a part of the build of its own: for a subcommand to call, or as a process of its own so that the board stays alive.
import type { PlanModel } from '../domain/plan/model.ts'
import { solve } from './solve.ts'

export { solve } from './solve.ts'

/** What a process that is to plan is sent, once; it sends the answer back and ends. */
export interface Task {
  plan: PlanModel
  seconds: number
}

// Only one that was started to plan has somebody to answer to.
if (process.send) {
  process.once('message', ({ plan, seconds }: Task) => {
    void solve(plan, seconds).then((solved) => process.send!(solved, () => process.disconnect()))
  })
}
