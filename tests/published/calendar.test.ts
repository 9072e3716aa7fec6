// Our dates against Temporal, a calendar written by others, on many thousands of cases drawn at random.
import { assert, integer, property, record } from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import { addDays, addDuration, daysBetween, isLocalDate } from '../../src/domain/time.ts'
import { dates, PATIENCE_MS, two, year } from './calendar-dates.ts'

const { PlainDate } = Temporal

const durations = record({
  years: integer({ min: 0, max: 30 }),
  months: integer({ min: 0, max: 60 }),
  weeks: integer({ min: 0, max: 60 }),
  days: integer({ min: 0, max: 800 }),
})
const later = (date: string, sum: Temporal.DurationLike) =>
  PlainDate.from(date).add(sum, { overflow: 'constrain' }).toString()

describe('adding a duration', () => {
  it(
    'of years, months, weeks and days clips and counts as Temporal does',
    () => {
      assert(
        property(dates, durations, (date, { years, months, weeks, days }) => {
          const sum = addDuration(date, `P${years}Y${months}M${weeks}W${days}D`)
          expect(sum).toBe(later(date, { years, months, weeks, days }))
        }),
        { numRuns: 8000 },
      )
    },
    PATIENCE_MS,
  )

  it.each(['years', 'months', 'weeks', 'days'] as const)(
    'of %s alone does too',
    (unit) => {
      const letter = unit.charAt(0).toUpperCase()
      assert(
        property(dates, integer({ min: 0, max: 400 }), (date, count) => {
          expect(addDuration(date, `P${count}${letter}`)).toBe(later(date, { [unit]: count }))
        }),
        { numRuns: 3000 },
      )
    },
    PATIENCE_MS,
  )

  it(
    'of days goes back as well, and the days between two dates are as many',
    () => {
      assert(
        property(dates, integer({ min: -60_000, max: 60_000 }), dates, (date, days, other) => {
          expect(addDays(date, days)).toBe(later(date, { days }))
          expect(daysBetween(date, other)).toBe(
            PlainDate.from(date).until(other, { largestUnit: 'day' }).days,
          )
        }),
        { numRuns: 6000 },
      )
    },
    PATIENCE_MS,
  )

  it(
    'knows the same days of the calendar',
    () => {
      assert(
        property(year, integer({ min: 0, max: 13 }), integer({ min: 0, max: 32 }), (year, month, day) => {
          const text = `${year}-${two(month)}-${two(day)}`
          let isDate = true
          try {
            PlainDate.from(text)
          } catch {
            isDate = false
          }
          expect(isLocalDate(text)).toBe(isDate)
        }),
        { numRuns: 4000 },
      )
    },
    PATIENCE_MS,
  )
})
