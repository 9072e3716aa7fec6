// Timed planning: from the books to a plan that is proven, the solver's own loading included.
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { problemOf } from '../../../src/domain/plan/model.ts'
import { planOf } from '../../../src/domain/plan/plan.ts'
import { solve } from '../../../src/planner/solve.ts'
import type { Task } from '../inside.ts'
import { afterFire, FIRE } from '../stations/after-fire.ts'

const SIZE = { seats: 60, spares: 50 }
const LONG = 60

export const planTasks: Readonly<Record<string, Task>> = {
  async plan(seed = '1') {
    const state = afterFire({ ...SIZE, seed: Number(seed) })
    const policy = policyOf(state)
    const from = performance.now()
    const problem = problemOf(state, policy, FIRE.at)
    const modelled = performance.now()
    const solved = await solve(problem.model, LONG)
    const solvedAt = performance.now()
    const plan = planOf(state, policy, FIRE.at, problem, solved)
    const taken = performance.now() - from
    if (!plan.isProven || plan.seats.length !== SIZE.seats)
      throw new Error(`It did not prove it: ${plan.words}`)
    if (process.env['PLAN_SAYS']) {
      const { model } = problem
      process.stderr.write(
        `${plan.words}\n${model.options.length} options, ${model.spares.length} spares; model ${Math.round(modelled - from)} ms, solve ${Math.round(solvedAt - modelled)} ms, words ${Math.round(performance.now() - solvedAt)} ms\n`,
      )
    }
    return [taken]
  },
}
