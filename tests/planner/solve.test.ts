// The planner against the search through every plan: the same value of every goal, each proven.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { faultsOf, valuesOf } from '../../src/domain/plan/check.ts'
import { solve } from '../../src/planner/solve.ts'
import { anyModel, bestOf } from './any-model.ts'

const LONG = 60

test('no plan is better than the one it finds, and it proves so', async () => {
  await fc.assert(
    fc.asyncProperty(anyModel, async (model) => {
      const { choice, stages } = await solve(model, LONG)
      expect(faultsOf(model, choice)).toEqual([])
      expect(valuesOf(model, choice)).toEqual(bestOf(model))
      expect(stages.filter((each) => !each.isProven)).toEqual([])
    }),
    { numRuns: Number(process.env['PLAN_RUNS'] ?? 300), seed: 5 },
  )
})
