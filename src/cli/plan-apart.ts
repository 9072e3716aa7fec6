// Works a plan out in a process of its own, from the books as they stand; it must never touch the station.
import { policyOf } from '../domain/policy/in-force.ts'
import { problemOf } from '../domain/plan/model.ts'
import { nothingToPlan, planOf, unplanned } from '../domain/plan/plan.ts'
import { beginPlanning } from '../planner/begin.ts'
import type { Session } from '../session.ts'
import type { Planning } from '../tui/planning.ts'

const SECONDS = 10

export function planApart({ state, now }: Session): Planning {
  const at = now()
  const policy = policyOf(state)
  const problem = problemOf(state, policy, at)
  const nothing = nothingToPlan(state, problem)
  if (nothing)
    return { answer: Promise.resolve(unplanned(state, policy, at, nothing.words)), giveUp: () => undefined }
  // The build puts the planner beside the program.
  const { answer, giveUp } = beginPlanning(new URL('./planner.js', import.meta.url), problem.model, SECONDS)
  return { answer: answer.then((solved) => planOf(state, policy, at, problem, solved)), giveUp }
}
