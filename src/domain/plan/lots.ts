// Folds what is alike in a plan's model into one: wearers of one size, spares of one size. A solver then sees a few dozen
// classes where there are thousands of pairs. It must lose no plan that could be the best.
import { grouped } from '../grouped.ts'
import type { ModelOption, PlanModel } from './model.ts'

/** Spares that can only go in together: at most one gap can take any of them. */
interface Lot {
  /** For each gap that can take it, the best way. */
  best: Map<number, number>
  days: number
  rarity: number
}
/** Lots that serve the same gaps equally well. */
interface LotClass {
  lots: Lot[]
}
/** Gaps that the same lots mend equally well. */
interface GapClass {
  gaps: number[]
}
interface Arc {
  from: GapClass
  to: LotClass
  inexact: number
  swaps: number
  /** Against the best that the lot can do. */
  days: number
  rarity: number
}
interface Folded {
  gapClasses: GapClass[]
  lotClasses: LotClass[]
  arcs: Arc[]
  /** Options among spares that can be shared out in more than one way: each stands for itself. */
  loose: number[]
}

/** Better for its gap, whatever else is chosen. */
const compareOptions = (a: ModelOption, b: ModelOption): number =>
  a.inexact - b.inexact || a.swaps - b.swaps || b.days - a.days || a.rarity - b.rarity

/** The options by the spares they share, directly or through others; in the order of their first spare. */
export function byShared({ options, spares }: PlanModel): number[][] {
  const parent = spares.map((_, index) => index)
  const root = (spare: number): number => {
    let at = spare
    while (parent[at] !== at) at = parent[at] = parent[parent[at]!]!
    return at
  }
  for (const { uses } of options) {
    for (const spare of uses) {
      const [a, b] = [root(spare), root(uses[0]!)]
      parent[Math.max(a, b)] = Math.min(a, b)
    }
  }
  const groups = new Map<number, number[]>()
  options.forEach(({ uses }, option) => {
    const key = root(uses[0]!)
    const group = groups.get(key)
    if (group) group.push(option)
    else groups.set(key, [option])
  })
  return [...groups].toSorted(([a], [b]) => a - b).map(([, group]) => group)
}

/** Do any two of these options want a spare in common, so that only one of them can be taken? */
export function isOneLot({ options }: PlanModel, group: readonly number[]): boolean {
  const sets = [
    ...new Map(group.map((option) => [options[option]!.uses.join(), options[option]!.uses])).values(),
  ]
  return sets.every((a, index) => sets.slice(index + 1).every((b) => a.some((spare) => b.includes(spare))))
}

function lotOf({ options }: PlanModel, group: readonly number[]): Lot {
  const best = new Map<number, number>()
  for (const option of group) {
    const { gap } = options[option]!
    const kept = best.get(gap)
    if (kept === undefined || compareOptions(options[option]!, options[kept]!) < 0) best.set(gap, option)
  }
  const all = [...best.values()].map((option) => options[option]!)
  return {
    best,
    days: Math.max(...all.map((each) => each.days)),
    rarity: Math.min(...all.map((each) => each.rarity)),
  }
}

export function fold(model: PlanModel): Folded {
  const { options, gaps } = model
  const lots: Lot[] = []
  const loose: number[] = []
  for (const group of byShared(model)) {
    if (isOneLot(model, group)) lots.push(lotOf(model, group))
    // A group may hold more than a call takes arguments.
    else for (const option of group) loose.push(option)
  }
  const isLoose = new Set(loose.map((option) => options[option]!.gap))
  const offers = gaps.map((): string[] => [])
  lots.forEach((lot, index) => {
    for (const [gap, option] of lot.best) {
      const { inexact, swaps, days, rarity } = options[option]!
      offers[gap]!.push([index, inexact, swaps, days, rarity].join())
    }
  })
  const gapClasses = grouped([...gaps.keys()], (gap) =>
    isLoose.has(gap) ? `gap ${gap}` : offers[gap]!.join(' '),
  ).map((each): GapClass => ({ gaps: each }))
  const lotClasses = grouped(lots, (lot) => {
    const serves = gapClasses.flatMap(({ gaps: [first] }, index) => {
      const option = lot.best.get(first!)
      if (option === undefined) return []
      const { inexact, swaps, days, rarity } = options[option]!
      return [[index, inexact, swaps, days - lot.days, rarity - lot.rarity].join()]
    })
    return serves.join(' ')
  }).map((each): LotClass => {
    const bestFirst = each.toSorted((a, b) => b.days - a.days || a.rarity - b.rarity)
    // All serve the same gaps, so beyond one for each of these none is ever taken.
    return { lots: bestFirst.slice(0, bestFirst[0]!.best.size) }
  })
  const arcs = gapClasses.flatMap((from) =>
    lotClasses.flatMap((to): Arc[] => {
      const [lot] = to.lots
      const option = lot!.best.get(from.gaps[0]!)
      if (option === undefined) return []
      const { inexact, swaps, days, rarity } = options[option]!
      return [{ from, to, inexact, swaps, days: days - lot!.days, rarity: rarity - lot!.rarity }]
    }),
  )
  return { gapClasses, lotClasses, arcs, loose }
}

/**
 * Which option each gap takes, when so many of each arc and these loose options are taken. Among what is alike, the first gap
 * takes the lot that lasts longest; `isMended` says which gaps of a class are mended at all.
 */
export function unfold(
  model: PlanModel,
  { gapClasses, arcs }: Folded,
  taken: { arcs: readonly number[]; loose: readonly number[]; isMended: (gap: number) => boolean },
): (number | null)[] {
  const choice: (number | null)[] = model.gaps.map(() => null)
  for (const option of taken.loose) choice[model.options[option]!.gap] = option
  const used = new Map<LotClass, number>()
  for (const from of gapClasses) {
    const waiting = from.gaps.filter((gap) => taken.isMended(gap) && choice[gap] === null)
    arcs.forEach((arc, index) => {
      if (arc.from !== from) return
      for (const gap of waiting.splice(0, taken.arcs[index])) {
        const next = used.get(arc.to) ?? 0
        used.set(arc.to, next + 1)
        choice[gap] = arc.to.lots[next]!.best.get(gap)!
      }
    })
  }
  return choice
}
