// The calendar file, opened by a reader that did not write it: RFC 5545 as ical.js understands it.
import { assert, constantFrom, property, string } from 'fast-check'
import ICAL from 'ical.js'
import { describe, expect, test } from 'vitest'
import { calendarFile } from '../../../src/exports/calendar.ts'
import { forecastCalendar } from '../../../src/exports/forecast/forecast-calendar.ts'
import type { Deadline } from '../../../src/domain/forecast/deadlines.ts'
import { reported } from './reported.ts'

const MADE_AT = '2025-08-22T08:00:00.000-04:00'
const report = reported(90)
const file = calendarFile(forecastCalendar(report, MADE_AT, 3226))

const eventsIn = (text: string) =>
  new ICAL.Component(ICAL.parse(text) as unknown[]).getAllSubcomponents('vevent').map((each) => ({
    uid: String(each.getFirstPropertyValue('uid')),
    start: String(each.getFirstPropertyValue('dtstart')),
    type: each.getFirstProperty('dtstart')!.type,
    summary: String(each.getFirstPropertyValue('summary')),
    description: String(each.getFirstPropertyValue('description')),
    stamp: String(each.getFirstPropertyValue('dtstamp')),
    sequence: each.getFirstPropertyValue('sequence'),
    transparency: each.getFirstPropertyValue('transp'),
  }))

describe("each deadline is one all-day event that takes up nobody's time", () => {
  const events = eventsIn(file)

  test('on the day its limit falls', () => {
    const all = [...report.past, ...report.ahead]
    expect(events.map((each) => each.start)).toEqual(all.map((each) => each.on))
    expect(new Set(events.map((each) => `${each.type} ${each.transparency}`))).toEqual(
      new Set(['date TRANSPARENT']),
    )
  })

  test('known by an id that no other has', () => {
    expect(new Set(events.map((each) => each.uid)).size).toBe(events.length)
    expect(events.length).toBeGreaterThan(100)
  })

  test('that names the element, the need and who has it, and marks invented data', () => {
    const helmet = events.find((each) => each.uid.startsWith('H-9081.structural-service-life@'))!
    expect(helmet.summary).toBe('Past: Helmet H-9081: end of life (Rafiq Dellamoor (M-908))')
    expect(helmet.description.split('\n')).toEqual([
      '10 years from manufacture ended on 30 Jun 2026. Last good day: 30 Jun 2026.',
      'Rule: structural service life (compliance).',
      'Bayboard records and flags. It does not certify gear.',
      'DEMONSTRATION: every person, place and piece of gear here is invented.',
    ])
  })

  test('stamped with the instant of the forecast and the length of the journal', () => {
    expect(events[0]).toMatchObject({ stamp: '2026-11-25T12:45:00Z', sequence: 3226 })
  })
})

describe('read a second time', () => {
  test('the same forecast is the same file, byte for byte', () => {
    expect(calendarFile(forecastCalendar(reported(90), MADE_AT, 3226))).toBe(file)
  })

  test('a deadline that moved keeps its id and has a higher sequence, so that it is moved and not doubled', () => {
    const [first] = report.ahead
    const moved = { ...report, past: [], ahead: [{ ...first!, on: '2027-12-24' }] }
    const [before] = eventsIn(calendarFile(forecastCalendar({ ...report, past: [] }, MADE_AT, 3226)))
    const [after] = eventsIn(calendarFile(forecastCalendar(moved, MADE_AT, 3227)))
    expect(after).toMatchObject({ uid: before!.uid, start: '2027-12-24', sequence: 3227 })
  })

  test("another facepiece of a member's does not double the fit test", () => {
    const fit = report.ahead.find((each) => each.need === 'fit-test')!
    const uid = (each: Deadline): string =>
      forecastCalendar({ ...report, past: [], ahead: [each] }, MADE_AT, 1).entries[0]!.uid
    expect(uid({ ...fit, element: 'F-other' })).toBe(uid(fit))
  })

  test('another station has other ids for the same elements', () => {
    const other = eventsIn(calendarFile(forecastCalendar(report, '2025-08-22T08:00:00.001-04:00', 3226)))
    const known = new Set(eventsIn(file).map((each) => each.uid))
    expect(other.filter((each) => known.has(each.uid))).toEqual([])
  })
})

// RFC 5545, 3.1: lines are delimited by CRLF and should not be longer than 75 octets, the break left out.
const unfoldable = (text: string): string[] =>
  text
    .split('\r\n')
    .filter(
      (line) => Buffer.byteLength(line) > 75 || /[\r\n]/.test(line) || line !== Buffer.from(line).toString(),
    )

test('lines are at most 75 octets, end in CR LF and are folded between letters', () => {
  expect(file.endsWith('END:VCALENDAR\r\n')).toBe(true)
  expect(unfoldable(file)).toEqual([])
})

test('whatever a name is written in, it is read back as it was', () => {
  const word = string({ unit: 'grapheme', minLength: 1, maxLength: 60 }).map((text) =>
    text.replaceAll(/[\p{C}\p{Z}]+/gu, 'é'),
  )
  assert(
    property(word, constantFrom('東京消防', '🚒🧯👨‍🚒', 'é;,\\n"', ''), (name, more) => {
      const summary = (name + more).repeat(3)
      const entry = { uid: 'a.b@c', on: '2028-02-29', summary, description: `${name}\n${more}` }
      const text = calendarFile({ name, at: '2026-11-25T12:45:00Z', sequence: 1, entries: [entry] })
      expect(unfoldable(text)).toEqual([])
      const [event] = eventsIn(text)
      expect([event!.summary, event!.description]).toEqual([summary, `${name}\n${more}`])
    }),
    { numRuns: 300 },
  )
})

test('the name of a station keeps its commas and semicolons (RFC 5545, 3.3.11: in a text they are escaped)', () => {
  const named = calendarFile({ name: 'Deadlines, East; West\\2', at: report.at, sequence: 1, entries: [] })
  expect(named).toContain('\r\nX-WR-CALNAME:Deadlines\\, East\\; West\\\\2\r\n')
  expect(named).toContain('\r\nNAME:Deadlines\\, East\\; West\\\\2\r\n')
})
