// A folded plan as a linear program in whole numbers: columns, rows and what each goal counts. It must hold no solver.
import { rigWeight } from '../domain/plan/check.ts'
import { type Choice, type Goal, type PlanModel } from '../domain/plan/model.ts'
import { fold, unfold } from '../domain/plan/lots.ts'

interface Column {
  most: number
  counts: Partial<Record<Goal, number>>
}
interface Row {
  least: number
  most: number
  terms: [column: number, factor: number][]
}
export interface Program {
  columns: Column[]
  rows: Row[]
  /** The choice that a solution stands for. */
  choiceOf: (solution: readonly number[]) => Choice
}

export function programOf(model: PlanModel): Program {
  const columns: Column[] = []
  const rows: Row[] = []
  const column = (most: number, counts: Column['counts']): number => columns.push({ most, counts }) - 1
  const row = (least: number, most: number, terms: Row['terms']): void => {
    // Two gaps that are alike may be of one riding position.
    const factors = new Map<number, number>()
    for (const [at, factor] of terms) factors.set(at, (factors.get(at) ?? 0) + factor)
    rows.push({ least, most, terms: [...factors] })
  }

  const weight = rigWeight(model)
  const rigs = model.rigs.map((_, index) => column(1, { rigs: 1, order: index * weight }))
  const seats = model.seats.map(({ critical }, index) =>
    column(1, { critical: critical ? 1 : 0, seats: 1, order: index }),
  )
  model.rigs.forEach(({ needs, critical, seats: its }, rig) => {
    row(-Infinity, 0, [[rigs[rig]!, needs], ...its.map((seat): [number, number] => [seats[seat]!, -1])])
    for (const seat of critical) {
      row(-Infinity, 0, [
        [rigs[rig]!, 1],
        [seats[seat]!, -1],
      ])
    }
  })

  const folded = fold(model)
  const arcs = folded.arcs.map(({ from, to, ...counts }) =>
    column(Math.min(from.gaps.length, to.lots.length), counts),
  )
  const lots = folded.lotClasses.map((each) =>
    each.lots.map(({ days, rarity }) => column(1, { days, rarity })),
  )
  const loose = folded.loose.map((option) => {
    const { inexact, swaps, days, rarity } = model.options[option]!
    return column(1, { inexact, swaps, days, rarity })
  })
  for (const from of folded.gapClasses) {
    const ways: Row['terms'] = folded.arcs.flatMap((arc, index): Row['terms'] =>
      arc.from === from ? [[arcs[index]!, 1]] : [],
    )
    const loosely: Row['terms'] = folded.loose.flatMap((option, index): Row['terms'] =>
      from.gaps.includes(model.options[option]!.gap) ? [[loose[index]!, 1]] : [],
    )
    const wanted = from.gaps.map((gap): [number, number] => [seats[model.gaps[gap]!.seat]!, -1])
    row(0, 0, [...ways, ...loosely, ...wanted])
  }
  folded.lotClasses.forEach((to, at) => {
    const ways = folded.arcs.flatMap((arc, index): Row['terms'] => (arc.to === to ? [[arcs[index]!, 1]] : []))
    row(0, 0, [...ways, ...lots[at]!.map((lot): [number, number] => [lot, -1])])
  })
  for (const spare of new Set(folded.loose.flatMap((option) => model.options[option]!.uses))) {
    const ways = folded.loose.flatMap((option, index): Row['terms'] =>
      model.options[option]!.uses.includes(spare) ? [[loose[index]!, 1]] : [],
    )
    row(-Infinity, 1, ways)
  }

  return {
    columns,
    rows,
    choiceOf: (solution) =>
      unfold(model, folded, {
        arcs: arcs.map((each) => Math.round(solution[each]!)),
        loose: folded.loose.filter((_, index) => Math.round(solution[loose[index]!]!) === 1),
        isMended: (gap) => Math.round(solution[seats[model.gaps[gap]!.seat]!]!) === 1,
      }),
  }
}
