// The forecast as text, CSV and JSON: each says the same, and each is opened by a reader that did not write it.
import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { GROUPINGS } from '../../../src/domain/forecast/groups.ts'
import {
  budgetCsv,
  BUDGET_COLUMNS,
  forecastCsv,
  FORECAST_COLUMNS,
} from '../../../src/exports/forecast/forecast-csv.ts'
import { forecastShape } from '../../../src/exports/forecast/forecast-shape.ts'
import { forecastText } from '../../../src/exports/forecast/forecast-text.ts'
import { widthOf } from '../../../src/exports/wrap.ts'
import { reported } from './reported.ts'

const PRICES = { currency: 'USD', prices: { 'coat-shell': 1500, helmet: 350.5 } }
const rowsOf = (text: string): Record<string, string>[] => {
  const { data, errors } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true })
  expect(errors).toEqual([])
  return data
}

describe('CSV', () => {
  const report = reported()
  const rows = rowsOf(forecastCsv(report))

  test('has a row for the mark and one for every deadline, with the words of the text', () => {
    expect(Object.keys(rows[0]!)).toEqual([...FORECAST_COLUMNS])
    const count = (when: string): number => rows.filter((each) => each['when'] === when).length
    expect(['mark', 'past', 'ahead', 'undated'].map(count)).toEqual([
      1,
      report.past.length,
      report.ahead.length,
      report.undated.length,
    ])
    const [first] = report.past
    expect(rows[1]).toMatchObject({ element: first!.element, on: first!.on, words: first!.says })
  })

  test('of the budget has a row for each year and kind, and what has no year', () => {
    const budget = rowsOf(budgetCsv(reported(3_653, 'month', PRICES)))
    expect(Object.keys(budget[0]!)).toEqual([...BUDGET_COLUMNS])
    expect(budget[0]).toEqual({ year: 'past', kind: 'coat-shell', count: '1', cost: '1500', currency: 'USD' })
    expect(budget.at(-1)).toMatchObject({ year: 'undated', count: '1' })
  })

  test('lets no cell act as a formula', () => {
    const [each] = report.ahead
    const hostile = { ...report, ahead: [{ ...each!, holderName: '=cmd|calc', says: '\uff0bfull' }] }
    expect(rowsOf(forecastCsv(hostile)).at(-2)).toMatchObject({
      'holder-name': "'=cmd|calc",
      words: "'\uff0bfull",
    })
  })
})

test.each(GROUPINGS)('JSON by %s has the published shape and comes through JSON unchanged', (by) => {
  const report = reported(365, by, PRICES)
  const back: unknown = JSON.parse(JSON.stringify(report))
  expect(forecastShape.parse(back)).toEqual(back)
  expect(report.groups.reduce((sum, each) => sum + each.ahead, 0)).toBe(report.ahead.length)
})

describe.each([...GROUPINGS, 'year'] as const)('text by %s', (by) => {
  const report = reported(by === 'year' ? 3_653 : 365, by === 'year' ? 'month' : by, PRICES)

  test('names every element that has a deadline', () => {
    const text = forecastText(report, by, true)
    const wanted = [...report.past, ...report.ahead, ...report.undated].filter(
      (each) => by !== 'year' || each.need === 'replacement',
    )
    expect(wanted.filter((each) => !text.includes(each.element ?? each.holderName))).toEqual([])
  })

  test('is at most 78 columns wide, and ASCII where the locale is not UTF-8', () => {
    const lines = [true, false].map((unicode) => forecastText(report, by, unicode).split('\n'))
    for (const line of lines.flat()) expect(widthOf(line)).toBeLessThanOrEqual(78)
    expect(lines[1]!.join('')).toMatch(/^[ -~]*$/)
  })
})

// More than a call takes arguments, as of a department of a hundred thousand elements.
test.each(['month', 'year'] as const)('text by %s tells any number of deadlines', (by) => {
  const report = reported()
  const [one] = report.past.filter((each) => each.need === 'replacement')
  const past = Array.from({ length: 150_000 }, () => ({ ...one!, element: 'Z-1' }))
  const text = forecastText({ ...report, past }, by, false)
  expect(text.split('Z-1,')).toHaveLength(150_001)
})

test('a group with anything in it is never drawn as nothing', () => {
  const text = forecastText(reported(), 'month', false)
  const plot = text.split('\n').filter((line) => /^ {2}[A-Z][a-z]{2} 20\d\d +\d/.test(line))
  expect(plot).toHaveLength(13)
  for (const line of plot) expect(/[#=]/.test(line)).toBe(!line.endsWith(' 0'))
})

test('the text as a chief reads it', async () => {
  await expect(forecastText(reported(30), 'month', true)).toMatchFileSnapshot('forecast-30-days.txt')
})
test('the budget as a chief reads it', async () => {
  const text = forecastText(reported(3_653, 'month', PRICES), 'year', true)
  await expect(text.slice(0, text.indexOf('\nAhead'))).toMatchFileSnapshot('budget.txt')
})
