// The plan of a station in memory, made by the real planner in this very process.
import { policyOf } from '../../src/domain/policy/in-force.ts'
import { problemOf } from '../../src/domain/plan/model.ts'
import { nothingToPlan, planOf, unplanned, type Plan } from '../../src/domain/plan/plan.ts'
import type { State } from '../../src/domain/state.ts'
import { solve } from '../../src/planner/solve.ts'

const LONG = 60

export async function planNow(state: State, at: string): Promise<Plan> {
  const policy = policyOf(state)
  const problem = problemOf(state, policy, at)
  const nothing = nothingToPlan(state, problem)
  if (nothing) return unplanned(state, policy, at, nothing.words)
  return planOf(state, policy, at, problem, await solve(problem.model, LONG))
}
