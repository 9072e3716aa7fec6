// What must be replaced in each year, and what that costs where prices are given; it must never make up a price.
import * as z from 'zod'
import { wordsShape } from '../gear.ts'
import { KINDS, type Kind } from '../kinds.ts'
import type { Deadline, Forecast } from './deadlines.ts'

/** A price list as a file holds it: whole or broken units of one currency, for each kind that has a price. */
export const pricesShape = z.strictObject({
  currency: wordsShape.refine((text) => text.length <= 12, 'is longer than 12 characters'),
  prices: z.partialRecord(z.enum(KINDS), z.number().nonnegative('cannot be negative').max(1_000_000)),
})
export type Prices = z.infer<typeof pricesShape>

interface BudgetLine {
  kind: Kind
  count: number
  /** Undefined where the list has no price for the kind. */
  cost?: number
}
interface BudgetYear {
  /** `2027`; or `past` for what should have been replaced already. */
  year: string
  lines: BudgetLine[]
  count: number
  /** Of the kinds that have a price; none where no kind of that year has one. */
  cost?: number
}
interface Budget {
  currency?: string
  years: BudgetYear[]
  count: number
  cost?: number
  /** Kinds that end their life in these years and have no price in the list. */
  unpriced: Kind[]
  /** Elements whose end of life cannot be told, so they are in no year. */
  undated: number
}

/** An element that two rules end is replaced once, at the sooner. */
function soonest(deadlines: readonly Deadline[]): Deadline[] {
  const first = new Map<Deadline['element'], Deadline>()
  for (const each of deadlines) {
    if (each.need === 'replacement' && !first.has(each.element)) first.set(each.element, each)
  }
  return [...first.values()]
}

/** Sums are kept in hundredths, so that prices add up to the cent. */
const cents = (price: number): number => Math.round(price * 100)

export function budgetOf(forecast: Forecast, prices?: Prices): Budget {
  const { past, ahead, from, until, undated } = forecast
  const isPast = new Set(past)
  const years = new Map<string, Map<Kind, number>>([['past', new Map()]])
  for (let year = Number(from.slice(0, 4)); year <= Number(until.slice(0, 4)); year++) {
    years.set(String(year), new Map())
  }
  for (const each of soonest([...past, ...ahead])) {
    const counts = years.get(isPast.has(each) ? 'past' : each.on.slice(0, 4))!
    counts.set(each.kind, (counts.get(each.kind) ?? 0) + 1)
  }
  const told = [...years].map(([year, counts]) => yearOf(year, counts, prices))
  const kinds = KINDS.filter((kind) => told.some(({ lines }) => lines.some((each) => each.kind === kind)))
  return {
    ...(prices && { currency: prices.currency }),
    years: told,
    count: sum(told.map((each) => each.count)),
    ...costOf(
      told.flatMap((each) => each.lines),
      prices,
    ),
    unpriced: prices ? kinds.filter((kind) => prices.prices[kind] === undefined) : [],
    undated: new Set(undated.flatMap((each) => (each.need === 'replacement' ? each.element : []))).size,
  }
}

function yearOf(year: string, counts: ReadonlyMap<Kind, number>, prices: Prices | undefined): BudgetYear {
  const lines = KINDS.flatMap((kind): BudgetLine[] => {
    const count = counts.get(kind)
    if (count === undefined) return []
    const price = prices?.prices[kind]
    return [{ kind, count, ...(price !== undefined && { cost: (cents(price) * count) / 100 }) }]
  })
  return {
    year,
    lines,
    count: sum(lines.map((each) => each.count)),
    ...costOf(lines, prices),
  }
}

const sum = (numbers: readonly number[]): number => numbers.reduce((all, each) => all + each, 0)

/** Of what has a price; no sum at all where nothing of it has one, which would read as costing nothing. */
function costOf(lines: readonly BudgetLine[], prices: Prices | undefined): { cost?: number } {
  const costs = lines.flatMap((each) => each.cost ?? [])
  if (!prices || (lines.length && !costs.length)) return {}
  return { cost: sum(costs.map(cents)) / 100 }
}
