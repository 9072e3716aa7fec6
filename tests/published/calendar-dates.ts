// Dates at which sums clip and leap, drawn at random through Temporal; for checks against it, and never of our own making.
import { constantFrom, integer, oneof, record } from 'fast-check'
import { Temporal } from 'temporal-polyfill'

export const two = (count: number) => String(count).padStart(2, '0')
/** Many thousands of sums take a while on a slow machine; nothing looks at how long. */
export const PATIENCE_MS = 120_000

export const year = integer({ min: 1950, max: 2130 })
const anyDay = record({ year, month: integer({ min: 1, max: 12 }), day: integer({ min: 1, max: 31 }) })
/** The last two days of a month and the first of the next, and 29 February: where sums clip and leap. */
const edge = record({ year, month: integer({ min: 1, max: 12 }), day: constantFrom(1, 28, 29, 30, 31) })
const leap = record({ year: integer({ min: 488, max: 532 }).map((four) => four * 4) }).map((each) => ({
  ...each,
  month: 2,
  day: 29,
}))
export const dates = oneof(anyDay, edge, leap).map((parts) =>
  Temporal.PlainDate.from(parts, { overflow: 'constrain' }).toString(),
)
