// On small stations the plan is as good as the best of all there are, found by swapping and assessing every way there is.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { assessNow } from '../../../src/domain/assess.ts'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { problemOf } from '../../../src/domain/plan/model.ts'
import { planOf } from '../../../src/domain/plan/plan.ts'
import { solve } from '../../../src/planner/solve.ts'
import { NOW } from '../given.ts'
import { anyStation, bestByTrying } from './small-stations.ts'
import { swapped } from './swapped.ts'

test('no way to use the rack is better, and what is planned comes about', async () => {
  await fc.assert(
    fc.asyncProperty(anyStation, async (state) => {
      const problem = problemOf(state, policyOf(state), NOW)
      const solved = await solve(problem.model, 60)
      const plan = planOf(state, policyOf(state), NOW, problem, solved)
      const [rigs, critical, seats, inexact, swaps, days] = solved.stages.map((each) => each.value)
      expect(plan.isProven).toBe(true)
      expect([rigs, critical, seats, inexact, swaps, days]).toEqual(bestByTrying(state).map(Math.abs))
      // Given one after another as ordinary swaps, they do what was promised and nothing else.
      const after = swapped(state, plan)
      const fit = new Map(
        assessNow(after, NOW).rigs.flatMap((rig) => rig.seats.map((each) => [each.seat.id, each.fit])),
      )
      for (const { seat, becomesFit, shortages } of plan.seats) {
        expect(fit.get(seat)).toBe(becomesFit)
        expect(shortages.length > 0).toBe(!becomesFit)
      }
    }),
    { numRuns: Number(process.env['PLAN_RUNS'] ?? 60), seed: 11 },
  )
})
