// Finds the best use of the rack, goal after goal, with a mixed-integer solver; every goal reached binds those that follow.
// What it answers is checked in whole numbers against the model: a rounding error must never become a plan.
import { setFlagsFromString } from 'node:v8'
import loadHighs, { type Highs, type Model } from 'highs'
import { faultsOf, MORE_IS_BETTER, valuesOf } from '../domain/plan/check.ts'
import { GOALS, type Choice, type PlanModel, type Solved, type Stage } from '../domain/plan/model.ts'
import { programOf, type Program } from './program.ts'

let loading: Promise<Highs> | undefined

/**
 * A plan is over long before optimised machine code pays: compiling it took three quarters of the time of a first plan. The
 * switch is of the whole process, so the board plans in a process of its own.
 */
function load(): Promise<Highs> {
  setFlagsFromString('--liftoff-only')
  return loadHighs()
}

/** @param seconds how long it may take in all; what is proven by then is said, and the best plan found is given. */
export async function solve(model: PlanModel, seconds: number): Promise<Solved> {
  const nothing: Choice = model.gaps.map(() => null)
  if (!model.seats.length) return { choice: nothing, stages: stagesOf(model, nothing) }
  const highs = await (loading ??= load())
  return highs.withModel((solver) => inStages(model, solver, highs, seconds))
}

/** Where there is nothing to choose, every goal is reached as it stands. */
function stagesOf(model: PlanModel, choice: Choice): Stage[] {
  const values = valuesOf(model, choice)
  return GOALS.map((goal) => ({ goal, value: values[goal], bound: values[goal], isProven: true }))
}

function inStages(model: PlanModel, solver: Model, highs: Highs, seconds: number): Solved {
  const program = programOf(model)
  pass(program, solver, highs)
  const count = program.columns.length
  let choice: Choice = model.gaps.map(() => null)
  let solution: readonly number[] = program.columns.map(() => 0)
  const stages: Stage[] = []
  for (const goal of GOALS) {
    const sign = MORE_IS_BETTER.has(goal) ? -1 : 1
    const costs = program.columns.map(({ counts }) => sign * (counts[goal] ?? 0))
    const left = seconds - solver.getRunTime()
    const before = valuesOf(model, choice)[goal]
    if (left <= 0) {
      // Nothing is known of how much better it could be; it says so by a bound without end.
      stages.push({ goal, value: before, bound: -sign * Infinity, isProven: false })
      continue
    }
    solver.changeColsCost({ kind: 'range', from: 0, to: count - 1 }, costs)
    solver.setSolution({ colValue: solution })
    solver.options.set('time_limit', solver.getRunTime() + left)
    solver.run()
    const found = Array.from(solver.getSolution().colValue, Math.round)
    const chosen = program.choiceOf(found)
    const value = valuesOf(model, chosen)[goal]
    const isSound = !faultsOf(model, chosen).length && keepsTo(stages, valuesOf(model, chosen))
    if (isSound && sign * value <= sign * before) [choice, solution] = [chosen, found]
    const reached = valuesOf(model, choice)[goal]
    const limit = Math.ceil(Number(solver.info.get('mip_dual_bound')) - TOLERANCE)
    stages.push({ goal, value: reached, bound: sign * limit + 0, isProven: sign * reached <= limit })
    bind(solver, costs, sign * reached)
  }
  return { choice, stages }
}

/** Every count is a whole number, so a bound this near to one has reached it. */
const TOLERANCE = 1e-4

const keepsTo = (stages: readonly Stage[], values: Readonly<Record<string, number>>): boolean =>
  stages.every(({ goal, value }) =>
    MORE_IS_BETTER.has(goal) ? values[goal]! >= value : values[goal]! <= value,
  )

/** What follows must not be worse in what was just reached. */
function bind(solver: Model, costs: readonly number[], most: number): void {
  const indices = costs.flatMap((cost, index) => (cost === 0 ? [] : index))
  if (indices.length) solver.addRow(-Infinity, most, { indices, values: indices.map((each) => costs[each]!) })
}

function pass({ columns, rows }: Program, solver: Model, highs: Highs): void {
  const starts = [0]
  for (const { terms } of rows) starts.push(starts.at(-1)! + terms.length)
  const { objectiveSense, variableType } = highs.constants
  solver.passModel({
    numCols: columns.length,
    numRows: rows.length,
    sense: objectiveSense.minimize,
    colCost: columns.map(() => 0),
    colLower: columns.map(() => 0),
    colUpper: columns.map((each) => each.most),
    rowLower: rows.map((each) => each.least),
    rowUpper: rows.map((each) => each.most),
    matrix: {
      format: 'csr',
      numRows: rows.length,
      numCols: columns.length,
      starts,
      indices: rows.flatMap(({ terms }) => terms.map(([column]) => column)),
      values: rows.flatMap(({ terms }) => terms.map(([, factor]) => factor)),
    },
    integrality: columns.map(() => variableType.integer),
  })
  // One thread and one seed: the same books give the same plan.
  solver.options.set({ output_flag: false, random_seed: 0, mip_rel_gap: 0, mip_abs_gap: 0.9 })
}
