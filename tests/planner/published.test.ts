// The planner where its problem is one that others have solved: worked assignment examples, and a library of another make.
import munkres from 'munkres-js'
import { describe, expect, test } from 'vitest'
import { faultsOf, valuesOf } from '../../src/domain/plan/check.ts'
import type { PlanModel } from '../../src/domain/plan/model.ts'
import { solve } from '../../src/planner/solve.ts'
import { assignmentOf, mostOf, randomCosts } from './assignments.ts'

const LONG = 60

async function solved(model: PlanModel) {
  const { choice, stages } = await solve(model, LONG)
  expect(faultsOf(model, choice)).toEqual([])
  expect(stages.every((each) => each.isProven)).toBe(true)
  return { values: valuesOf(model, choice), columns: choice.map((each) => model.options[each!]!.uses[0]) }
}

describe('worked examples', () => {
  // Sources, all from memory: each is a worked example whose optimum is stated with it.
  test.each<[string, number[][], number]>([
    [
      'the first example of the munkres-js documentation',
      [
        [1, 2, 3],
        [2, 4, 6],
        [3, 6, 9],
      ],
      10,
    ],
    [
      'the example of the documentation of SciPy linear_sum_assignment',
      [
        [4, 1, 3],
        [2, 0, 5],
        [3, 2, 2],
      ],
      5,
    ],
    [
      'the example of Pilgrim, Munkres Assignment Algorithm',
      [
        [5, 9, 1],
        [10, 3, 2],
        [8, 7, 4],
      ],
      12,
    ],
    [
      'Wikipedia, Hungarian algorithm: cleaning, sweeping, washing',
      [
        [8, 4, 7],
        [5, 2, 3],
        [9, 4, 8],
      ],
      15,
    ],
    [
      'hungarianalgorithm.com, the four by four example of its explanation',
      [
        [82, 83, 69, 92],
        [77, 37, 49, 92],
        [11, 69, 5, 86],
        [8, 9, 98, 23],
      ],
      140,
    ],
    [
      'Project Euler 345 in its small example, as the least of the negatives',
      [
        [7, 53, 183, 439, 863],
        [497, 383, 563, 79, 973],
        [287, 63, 343, 169, 583],
        [627, 343, 773, 959, 943],
        [767, 473, 103, 699, 303],
      ].map((row) => row.map((each) => 1000 - each)),
      5000 - 3315,
    ],
  ])('%s', async (_source, costs, optimum) => {
    const { values } = await solved(assignmentOf(costs))
    expect([values.seats, values.rarity]).toEqual([costs.length, optimum])
  })

  // Source: Google OR-Tools, "Solving an assignment problem": its printed answer is a total cost of 265.
  test('five workers and four tasks: one of them goes without', async () => {
    const model = assignmentOf([
      [90, 80, 75, 70],
      [35, 85, 55, 65],
      [125, 95, 90, 95],
      [45, 110, 95, 115],
      [50, 100, 90, 100],
    ])
    const { choice, stages } = await solve(model, LONG)
    const values = valuesOf(model, choice)
    expect([values.seats, values.rarity, stages.every((each) => each.isProven)]).toEqual([4, 265, true])
  })

  test('the most is found as the least is: Project Euler 345 in its small example', async () => {
    const matrix = [
      [7, 53, 183, 439, 863],
      [497, 383, 563, 79, 973],
      [287, 63, 343, 169, 583],
      [627, 343, 773, 959, 943],
      [767, 473, 103, 699, 303],
    ]
    expect((await solved(mostOf(matrix))).values.days).toBe(3315)
  })
})

describe('against munkres-js, on whole costs from 1 to 100 as in the assignment problems of the OR-Library', () => {
  test.each([
    [5, 1],
    [10, 2],
    [20, 3],
    [40, 4],
  ])('%i by %i', async (size, seed) => {
    const costs = randomCosts(size, seed)
    const least = munkres(costs.map((row) => [...row])).reduce(
      (sum, [row, column]) => sum + costs[row!]![column!]!,
      0,
    )
    const { values, columns } = await solved(assignmentOf(costs))
    expect(values.rarity).toBe(least)
    expect(new Set(columns).size).toBe(size)
  })

  test('with fewer spares than members the cheapest of all who can be served are', async () => {
    const costs = randomCosts(12, 5).map((row) => row.slice(0, 7))
    const turned = costs[0]!.map((_, column) => costs.map((row) => row[column]!))
    const least = munkres(turned).reduce((sum, [column, row]) => sum + turned[column!]![row!]!, 0)
    const { choice, stages } = await solve(assignmentOf(costs), LONG)
    const values = valuesOf(assignmentOf(costs), choice)
    expect([values.seats, values.rarity, stages.every((each) => each.isProven)]).toEqual([7, least, true])
  })
})

test('the minimal standard generator is the one that was published', () => {
  // Source: Park and Miller 1988: from 1, the value after 10,000 steps is 1043618065.
  let state = 1n
  for (let step = 0; step < 10_000; step += 1) state = (state * 16807n) % 2147483647n
  expect(state).toBe(1043618065n)
})
