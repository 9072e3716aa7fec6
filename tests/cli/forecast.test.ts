// `bayboard forecast`: what comes due, in every format, from the real program; wrong usage is one sentence.
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import ICAL from 'ical.js'
import { beforeAll, describe, expect, test } from 'vitest'
import { forecastShape } from '../../src/exports/forecast/forecast-shape.ts'
import { bayboard, fileWith, journalOf, lines, newPlace } from './run.ts'
import { fitStation } from './two-seats.ts'

let station = ''
beforeAll(() => {
  station = fitStation()
})
const asked = (...args: string[]) => bayboard(['forecast', ...args], { station })

test('as text plots the months and names the gear; in a locale that is not UTF-8 in ASCII', () => {
  const { status, stdout, stderr } = asked()
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
  expect(stdout).toMatch(/^Forecast for Station 6/)
  expect(stdout).toContain('▒')
  expect(stdout).toContain('Coat shell C-1')
  expect(bayboard(['forecast'], { station, env: { LANG: 'C', LC_ALL: 'C' } }).stdout).toMatch(/^[ -~\n]*$/)
})

test('as JSON has the shape that `schema forecast` publishes', () => {
  const report: unknown = JSON.parse(asked('--format', 'json', '--days', '200').stdout)
  expect(forecastShape.parse(report)).toEqual(report)
  expect(JSON.parse(bayboard(['schema', 'forecast']).stdout)).toMatchObject({
    type: 'object',
    properties: { ahead: { type: 'array' }, budget: { type: 'object' } },
  })
})

test('as a calendar in a file is read by another program, and the journal is not touched', () => {
  const before = journalOf(station)
  const out = join(newPlace(), 'deadlines.ics')
  expect(asked('--format', 'ics', '--out', out)).toEqual({ status: 0, stdout: `Wrote ${out}\n`, stderr: '' })
  const calendar = new ICAL.Component(ICAL.parse(readFileSync(out, 'utf8')) as unknown[])
  const events = calendar.getAllSubcomponents('vevent')
  expect(events.length).toBeGreaterThan(10)
  expect(events[0]!.getFirstPropertyValue('sequence')).toBe(lines(before).length)
  expect(journalOf(station)).toBe(before)
})

test('an existing file is not overwritten unasked', () => {
  const out = join(newPlace(), 'there.csv')
  writeFileSync(out, 'mine')
  const { status, stderr } = asked('--format', 'csv', '--out', out)
  expect([status, readFileSync(out, 'utf8')]).toEqual([3, 'mine'])
  expect(stderr).toContain('is already there. Nothing was written. Add --force to replace it.')
  expect(asked('--format', 'csv', '--out', out, '--force').status).toBe(0)
  expect(readFileSync(out, 'utf8')).toMatch(/^when,on,last-good,/)
})

describe('the budget', () => {
  test('has money where a price list is named', () => {
    const prices = fileWith('{"currency":"USD","prices":{"helmet":350.5}}')
    expect(asked('--by', 'year', '--prices', prices).stdout).toMatch(/helmet: \d+ at USD \d/)
  })

  test.each([
    ['{"currency":"USD","prices":{"cape":1}}', 1, 'is not a price list: prices'],
    ['not json', 1, 'is not JSON. A price list is written as {"currency":"USD"'],
  ])('a list %s is refused in one sentence', (text, status, words) => {
    const ran = asked('--by', 'year', '--prices', fileWith(text))
    expect([ran.status, ran.stdout]).toEqual([status, ''])
    expect(ran.stderr).toContain(words)
  })

  test('a list that is not there is said so', () => {
    const ran = asked('--prices', join(newPlace(), 'none.json'))
    expect(ran.status).toBe(3)
    expect(ran.stderr).toContain('cannot be read: it is not there (ENOENT)')
  })
})

test.each([
  [['--days', 'soon'], '--days soon is not a number of days from 0 to 36525.'],
  [['--days', '-1'], '--days -1 is not a number of days from 0 to 36525.'],
  [['--days', '36526'], '--days 36526 is not a number of days from 0 to 36525.'],
  [['--by', 'week'], 'not grouped by week. Choose one of: day, month, kind, member, year.'],
  [['--format', 'pdf'], 'not made as pdf. Choose one of: text, csv, json, ics.'],
])('%j is wrong usage', (args, words) => {
  const out = join(newPlace(), 'out')
  const { status, stdout, stderr } = asked(...args, '--out', out)
  expect([status, stdout, existsSync(out)]).toEqual([2, '', false])
  expect(stderr).toContain(words)
})
