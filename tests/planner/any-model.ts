// Small random plans and the search through every plan there is; it must know nothing of how the planner works.
import * as fc from 'fast-check'
import { faultsOf, MORE_IS_BETTER, valuesOf } from '../../src/domain/plan/check.ts'
import {
  GOALS,
  type Choice,
  type Goal,
  type ModelOption,
  type PlanModel,
} from '../../src/domain/plan/model.ts'

interface Drawn {
  seats: { critical: boolean; gaps: Omit<ModelOption, 'gap' | 'swaps'>[][] }[]
  rigs: { needs: number; critical: number[]; seats: number[] }[]
  spares: number
}

const optionAmong = (spares: number) =>
  fc.record({
    uses: fc.uniqueArray(fc.nat(spares - 1), { minLength: 1, maxLength: 3 }),
    inexact: fc.constantFrom<0 | 1>(0, 1),
    days: fc.nat(3),
    rarity: fc.nat(2),
  })

/** Riding positions that want few spares in many ways, alone or together. */
export const anyModel: fc.Arbitrary<PlanModel> = fc
  .record({ spares: fc.integer({ min: 1, max: 5 }), seats: fc.integer({ min: 1, max: 4 }) })
  .chain(({ spares, seats }) =>
    fc.record({
      spares: fc.constant(spares),
      seats: fc.array(
        fc.record({
          critical: fc.boolean(),
          gaps: fc.array(fc.array(optionAmong(spares), { minLength: 1, maxLength: 3 }), {
            minLength: 1,
            maxLength: 2,
          }),
        }),
        { minLength: seats, maxLength: seats },
      ),
      rigs: fc.array(
        fc.record({
          needs: fc.nat(2),
          critical: fc.uniqueArray(fc.nat(seats - 1), { maxLength: 2 }),
          seats: fc.uniqueArray(fc.nat(seats - 1), { minLength: 1, maxLength: 3 }),
        }),
        { maxLength: 2 },
      ),
    }),
  )
  .map(modelOf)

function modelOf({ seats, rigs, spares }: Drawn): PlanModel {
  const model: PlanModel = {
    rigs,
    seats: [],
    gaps: [],
    options: [],
    spares: Array.from({ length: spares }, (_, index) => `S-${index}`),
  }
  seats.forEach(({ critical, gaps }, seat) => {
    const its = gaps.map((options) => {
      const gap = model.gaps.length
      const first = model.options.length
      model.options.push(...options.map((each) => ({ ...each, gap, swaps: each.uses.length })))
      model.gaps.push({ seat, options: options.map((_, index) => first + index) })
      return gap
    })
    model.seats.push({ critical, gaps: its })
  })
  return model
}

/** Every choice there is, sound or not. */
function* everyChoice({ gaps }: PlanModel, made: (number | null)[] = []): Generator<Choice> {
  const gap = gaps[made.length]
  if (!gap) yield made
  else
    for (const option of [null, ...gap.options]) yield* everyChoice({ gaps } as PlanModel, [...made, option])
}

/** Negative when `a` is the better plan, goal by goal; 0 when they differ in nothing that counts. */
function compareValues(a: Record<Goal, number>, b: Record<Goal, number>): number {
  for (const goal of GOALS) {
    const more = MORE_IS_BETTER.has(goal) ? b[goal] - a[goal] : a[goal] - b[goal]
    if (more !== 0) return more
  }
  return 0
}

/** The values of the best plan, found by looking at all of them. */
export function bestOf(model: PlanModel): ReturnType<typeof valuesOf> {
  let best = valuesOf(
    model,
    model.gaps.map(() => null),
  )
  for (const choice of everyChoice(model)) {
    if (faultsOf(model, choice).length) continue
    const values = valuesOf(model, choice)
    if (compareValues(values, best) < 0) best = values
  }
  return best
}

/** The same where no spare is wanted for two kinds of gap: a coat never mends what boots do. */
export const anyModelOfKinds: fc.Arbitrary<PlanModel> = anyModel.map((model) => ({
  ...model,
  spares: [...model.spares, ...model.spares.map((each) => `${each}b`)],
  options: model.options.map((option) => {
    const { gaps } = model.seats[model.gaps[option.gap]!.seat]!
    const kind = gaps.indexOf(option.gap)
    return { ...option, uses: option.uses.map((each) => each + kind * model.spares.length) }
  }),
}))
