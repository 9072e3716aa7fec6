// Checks a plan against its model in whole numbers, knowing nothing of how it was found; it must never mend one.
import type { Choice, Goal, PlanModel } from './model.ts'

/** What is wrong with a choice, in words for whoever mends the program; none when it can be carried out. */
export function faultsOf(model: PlanModel, choice: Choice): string[] {
  const faults: string[] = []
  if (choice.length !== model.gaps.length)
    faults.push(`${choice.length} answers to ${model.gaps.length} gaps`)
  const used = new Set<number>()
  choice.forEach((option, gap) => {
    if (option === null) return
    if (!model.gaps[gap]?.options.includes(option)) faults.push(`option ${option} does not mend gap ${gap}`)
    for (const spare of model.options[option]?.uses ?? []) {
      if (used.has(spare)) faults.push(`spare ${model.spares[spare]} is used twice`)
      used.add(spare)
    }
  })
  model.seats.forEach(({ gaps }, seat) => {
    const mended = gaps.filter((gap) => choice[gap] !== null).length
    if (mended !== 0 && mended !== gaps.length) faults.push(`seat ${seat} is mended only in part`)
  })
  return faults
}

export const isServed = ({ seats }: PlanModel, choice: Choice, seat: number): boolean =>
  seats[seat]!.gaps.every((gap) => choice[gap] !== null)

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0)

/** The places of those that are so, added up: the earlier they stand, the less. */
const places = (are: readonly boolean[]): number => sum(are.map((is, index) => (is ? index : 0)))

/**
 * What each goal comes to. More is better of rigs, critical positions, seats and days; less of the rest. The order prefers
 * rigs and then riding positions that stand earlier in the station's own list.
 */
export function valuesOf(model: PlanModel, choice: Choice): Record<Goal, number> {
  const served = model.seats.map((_, seat) => isServed(model, choice, seat))
  const rides = model.rigs.map(
    ({ needs, critical, seats }) =>
      critical.every((seat) => served[seat]) && seats.filter((seat) => served[seat]).length >= needs,
  )
  const taken = choice.flatMap((option) => (option === null ? [] : model.options[option]!))
  const count = (are: readonly boolean[]): number => are.filter(Boolean).length
  return {
    rigs: count(rides),
    critical: count(served.map((is, seat) => is && model.seats[seat]!.critical)),
    seats: count(served),
    inexact: sum(taken.map((each) => each.inexact)),
    swaps: sum(taken.map((each) => each.swaps)),
    days: sum(taken.map((each) => each.days)),
    rarity: sum(taken.map((each) => each.rarity)),
    order: places(rides) * rigWeight(model) + places(served),
  }
}

/** So that a rig earlier in the list outweighs every order of riding positions. */
export const rigWeight = ({ seats }: PlanModel): number => (seats.length * (seats.length + 1)) / 2 + 1

export const MORE_IS_BETTER: ReadonlySet<Goal> = new Set(['rigs', 'critical', 'seats', 'days'])
