// Assignment problems put to the planner: each member wants one coat of so many, and a pair costs what it is written to cost.
import type { PlanModel } from '../../src/domain/plan/model.ts'

/** Rows are members, columns are spares; the cost of a pair is counted as rare sizes taken, of which the plan takes the least. */
export function assignmentOf(costs: readonly (readonly number[])[]): PlanModel {
  const width = costs[0]!.length
  return {
    rigs: [],
    seats: costs.map((_, row) => ({ critical: false, gaps: [row] })),
    gaps: costs.map((_, row) => ({
      seat: row,
      options: Array.from({ length: width }, (_, at) => row * width + at),
    })),
    options: costs.flatMap((row, gap) =>
      row.map((rarity, at) => ({ gap, uses: [at], inexact: 0 as const, swaps: 1, days: 0, rarity })),
    ),
    spares: Array.from({ length: width }, (_, at) => `S-${at}`),
  }
}

/** The same with the worth of a pair counted as days in date, of which the plan takes the most. */
export function mostOf(worths: readonly (readonly number[])[]): PlanModel {
  const model = assignmentOf(worths)
  return { ...model, options: model.options.map((each) => ({ ...each, days: each.rarity, rarity: 0 })) }
}

/** `cost(i,j)` of the OR-Library's generator of assignment problems: whole numbers from 1 to 100. */
export function randomCosts(size: number, seed: number): number[][] {
  let state = seed
  const next = (): number => {
    // The minimal standard generator. Source: Park and Miller, Communications of the ACM 31 (1988), from memory.
    state = Number((BigInt(state) * 16807n) % 2147483647n)
    return state
  }
  return Array.from({ length: size }, () => Array.from({ length: size }, () => 1 + (next() % 100)))
}
