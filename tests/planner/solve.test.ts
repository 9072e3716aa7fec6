// The planner against the search through every plan: the same value of every goal, each proven.
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { faultsOf, isServed, valuesOf } from '../../src/domain/plan/check.ts'
import { sayGoals } from '../../src/domain/plan/goals.ts'
import { canMendAll, shortageOf } from '../../src/domain/plan/shortage.ts'
import { solve } from '../../src/planner/solve.ts'
import { anyModel, anyModelOfKinds, bestOf } from './any-model.ts'
import { assignmentOf, randomCosts } from './assignments.ts'

const LONG = 60

test('no plan is better than the one it finds, and it proves so', async () => {
  await fc.assert(
    fc.asyncProperty(anyModel, async (model) => {
      const { choice, stages } = await solve(model, LONG)
      expect(faultsOf(model, choice)).toEqual([])
      expect(valuesOf(model, choice)).toEqual(bestOf(model))
      expect(stages.filter((each) => !each.isProven)).toEqual([])
    }),
    { numRuns: Number(process.env['PLAN_RUNS'] ?? 200), seed: 5 },
  )
})

test('whoever is left out is short of spares with others: these can never all be served, however they share', async () => {
  await fc.assert(
    fc.asyncProperty(anyModelOfKinds, async (model) => {
      const { choice } = await solve(model, LONG)
      for (const seat of model.seats.keys()) {
        if (isServed(model, choice, seat)) continue
        const short = shortageOf(model, choice, seat)!
        expect(canMendAll(model, short.gaps)).toBe(false)
        const wanted = short.gaps.flatMap((gap) =>
          model.gaps[gap]!.options.flatMap((one) => model.options[one]!.uses),
        )
        expect(new Set(wanted)).toEqual(new Set(short.spares))
        if (short.mends !== null) expect(short.mends).toBeLessThan(short.gaps.length)
      }
    }),
    { numRuns: 100, seed: 9 },
  )
})

describe('when the time is up', () => {
  const hard = assignmentOf(randomCosts(30, 7))

  test('it gives the best it has, which can be carried out, and says that nothing is proven', async () => {
    const { choice, stages } = await solve(hard, 0)
    expect(faultsOf(hard, choice)).toEqual([])
    expect(stages.map((each) => each.isProven)).toEqual(stages.map(() => false))
    const said = sayGoals(hard, stages)
    expect(said.find((each) => each.goal === 'seats')!.words).toBe(
      '0 riding positions made fit, of 30 that spares could mend; not proven, not compared',
    )
    expect(said.every((each) => each.bound === null)).toBe(true)
  })

  test('a gap that is known is said as what is still possible', () => {
    const stage = { goal: 'seats', value: 28, bound: 30, isProven: false } as const
    expect(sayGoals(hard, [stage])[0]!.words).toBe(
      '28 riding positions made fit, of 30 that spares could mend; not proven, at most 30 is possible',
    )
  })
})

test('the same model gives the same plan, not only an equal one', async () => {
  await fc.assert(
    fc.asyncProperty(anyModel, async (model) => {
      expect((await solve(model, LONG)).choice).toEqual((await solve(structuredClone(model), LONG)).choice)
    }),
    { numRuns: 50, seed: 2 },
  )
})
