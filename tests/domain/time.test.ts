// Calendar dates: month ends, leap days, what is no date, and sums checked against an independent count.
import { assert, integer, property, record } from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  addDays,
  addDuration,
  daysBetween,
  DURATION,
  firstDay,
  isLocalDate,
  isMonth,
  isTimeZone,
  sayDate,
  sayDuration,
} from '../../src/domain/time.ts'

/**
 * An independent count of days, in whole numbers alone: the days of the years, months and days before a date in the
 * Gregorian calendar, from the rule of leap years (every fourth, not every hundredth, but every four-hundredth).
 */
const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
const isLeap = (year: number) => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
const lengthOf = (year: number, month: number) =>
  MONTH_DAYS[month - 1]! + (month === 2 && isLeap(year) ? 1 : 0)
const write = (year: number, month: number, day: number) =>
  `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`
const read = (date: string): [number, number, number] =>
  date.split('-').map(Number) as [number, number, number]

function dayNumber(date: string): number {
  const [year, month, day] = read(date)
  const past = year - 1
  let days = past * 365 + Math.floor(past / 4) - Math.floor(past / 100) + Math.floor(past / 400) + day
  for (let before = 1; before < month; before++) days += lengthOf(year, before)
  return days
}

/** The same sum one step at a time: months by counting on and clipping, then days by counting on. */
function addByCounting(date: string, years: number, months: number, days: number): string {
  let [year, month, day] = read(date)
  for (let count = 0; count < years * 12 + months; count++) {
    month += 1
    if (month > 12) [year, month] = [year + 1, 1]
  }
  day = Math.min(day, lengthOf(year, month))
  for (let count = 0; count < days; count++) {
    day += 1
    if (day > lengthOf(year, month)) [month, day] = [month + 1, 1]
    if (month > 12) [year, month] = [year + 1, 1]
  }
  return write(year, month, day)
}

const dates = record({
  year: integer({ min: 1990, max: 2110 }),
  month: integer({ min: 1, max: 12 }),
  place: integer({ min: 0, max: 30 }),
}).map(({ year, month, place }) => write(year, month, (place % lengthOf(year, month)) + 1))

describe('adding a duration', () => {
  it.each([
    ['2026-01-31', 'P1M', '2026-02-28'],
    ['2028-01-31', 'P1M', '2028-02-29'],
    ['2026-08-31', 'P6M', '2027-02-28'],
    ['2027-08-31', 'P6M', '2028-02-29'],
    ['2026-05-31', 'P1M', '2026-06-30'],
    ['2024-02-29', 'P12M', '2025-02-28'],
    ['2024-02-29', 'P4Y', '2028-02-29'],
    ['2096-02-29', 'P4Y', '2100-02-28'],
    ['2016-03-01', 'P10Y', '2026-03-01'],
    ['2026-12-31', 'P1D', '2027-01-01'],
    ['2026-02-28', 'P1D', '2026-03-01'],
    ['2028-02-28', 'P1D', '2028-02-29'],
    ['2026-01-31', 'P1M1D', '2026-03-01'],
    ['2026-11-24', 'P2W', '2026-12-08'],
    ['2026-11-24', 'P60D', '2027-01-23'],
  ])('%s and %s is %s', (date, duration, sum) => {
    expect(addDuration(date, duration)).toBe(sum)
  })

  it('agrees with counting month by month and day by day', () => {
    assert(
      property(
        dates,
        integer({ min: 0, max: 16 }),
        integer({ min: 0, max: 40 }),
        integer({ min: 0, max: 400 }),
        (date, years, months, days) => {
          expect(addDuration(date, `P${years}Y${months}M${days}D`)).toBe(
            addByCounting(date, years, months, days),
          )
        },
      ),
      { numRuns: 4000 },
    )
  })

  it('of days, and the days between, agree with the independent day count', () => {
    assert(
      property(dates, integer({ min: -4000, max: 4000 }), (date, days) => {
        const later = addDays(date, days)
        expect(dayNumber(later) - dayNumber(date)).toBe(days)
        expect(daysBetween(date, later)).toBe(days)
      }),
      { numRuns: 4000 },
    )
  })

  it('the first day of a label month is where it counts from', () => {
    expect(firstDay('2016-03')).toBe('2016-03-01')
  })
})

describe('a calendar date', () => {
  it.each(['2024-02-29', '2000-02-29', '2026-12-31', '1999-01-01', '1900-01-01'])('%s is one', (text) => {
    expect(isLocalDate(text)).toBe(true)
  })
  it.each([
    '2023-02-30',
    '2023-02-29',
    '2100-02-29',
    '2026-04-31',
    '2026-13-01',
    '2026-00-10',
    '2026-01-00',
    '1899-12-31',
    '0026-01-01',
    '2026-1-1',
    '12026-11-24',
    'on 2026-11-24',
    '2026-11-24T00:00',
    '',
  ])('%j is none', (text) => {
    expect(isLocalDate(text)).toBe(false)
  })

  it('is true for exactly the days of the calendar', () => {
    for (const year of [2023, 2024, 2100]) {
      for (let month = 1; month <= 12; month++) {
        const good = Array.from({ length: 32 }, (_, day) => day).filter((day) =>
          isLocalDate(write(year, month, day)),
        )
        expect(good).toEqual(Array.from({ length: lengthOf(year, month) }, (_, index) => index + 1))
      }
    }
  })
})

describe('months, durations and zones', () => {
  it.each([
    ['2016-03', true],
    ['2016-13', false],
    ['2016-00', false],
    ['1816-03', false],
    ['2016-3', false],
    ['2016-03-01', false],
    ['12016-03', false],
  ])('%s as a month: %s', (text, answer) => expect(isMonth(text)).toBe(answer))

  it.each([
    ['P10Y', true],
    ['P1Y6M', true],
    ['P60D', true],
    ['P2W', true],
    ['P104W', true],
    ['xP1Y', false],
    ['P', false],
    ['PT1H', false],
    ['P1D1M', false],
    ['P-1D', false],
    ['10Y', false],
    ['P1.5Y', false],
  ])('%s as a duration: %s', (text, answer) => expect(DURATION.test(text)).toBe(answer))

  it.each([
    ['America/New_York', true],
    ['UTC', true],
    ['Atlantis/Capital', false],
    ['', false],
  ])('%j as a time zone: %s', (text, answer) => expect(isTimeZone(text)).toBe(answer))

  it('are said in words that no reader can take for another', () => {
    expect(sayDate('2026-12-03')).toBe('3 Dec 2026')
    expect(['P10Y', 'P1M', 'P1Y6M', 'P2W', 'P60D', 'P1D'].map(sayDuration)).toEqual([
      '10 years',
      '1 month',
      '1 year 6 months',
      '2 weeks',
      '60 days',
      '1 day',
    ])
  })
})
