// Tests that text, CSV and JSON all tell the whole of a tour, safely.
import { parse } from 'csv-parse/sync'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { EVENT_TYPES } from '../../src/domain/events.ts'
import { CAUTIONS, INVENTED } from '../../src/domain/signs.ts'
import { asCsv, CSV_COLUMNS } from '../../src/exports/csv.ts'
import { asJson } from '../../src/exports/json.ts'
import { readinessLogShape, type ReadinessLog } from '../../src/exports/readiness-log.ts'
import { asText } from '../../src/exports/text.ts'
import { madeOf, UNSAFE, unwrapped } from './made.ts'
import { fullTour, house, smallTour } from './tours.ts'

type Row = Record<(typeof CSV_COLUMNS)[number], string>
const rowsOf = (log: ReadinessLog): Row[] =>
  parse<Row>(asCsv(log), { columns: true, record_delimiter: '\r\n' })
const textOf = (log: ReadinessLog): string => unwrapped(asText(log, { unicode: true }))

describe('every event of a tour is visible', () => {
  const recorder = fullTour()
  const log = madeOf(recorder)
  const opened = recorder.events.findIndex((each) => each.type === 'tour-opened')
  const during = recorder.events.slice(opened)

  test('the tour of this test holds every event that a tour can hold', () => {
    const made = new Set(during.map((each) => each.type))
    const left = EVENT_TYPES.filter((type) => !made.has(type))
    expect(left).toEqual(['station-made', 'key-made', 'journal-recovered'])
  })

  test('in JSON, in the order of the journal', () => {
    const { entries } = JSON.parse(asJson(log)) as ReadinessLog
    expect(entries.map(({ seq, at, by, type }) => ({ seq, at, by, type }))).toEqual(
      during.map(({ seq, at, by, type }) => ({ seq, at, by, type })),
    )
  })

  test('in CSV, each with its time, its member and its words', () => {
    const rows = rowsOf(log)
    for (const { seq, at, by, words, section } of log.entries) {
      expect(rows).toContainEqual(expect.objectContaining({ seq: `${seq}`, at, by, words, section }))
    }
  })

  test('in text, each with its number and its words', () => {
    const text = textOf(log)
    for (const { seq, by, byName, words } of log.entries)
      expect(text).toContain(`#${seq} by ${byName} (${by}) ${words}`)
  })

  test('and so are the findings, what was done, the reasons, the open items, the policy and the cautions', () => {
    const text = textOf(log)
    const rows = rowsOf(log).map((each) => each.words)
    const seats = log.board.rigs.flatMap((rig) => rig.seats)
    const said = [
      ...log.findings.flatMap((each) => [each.words, ...each.done.map((one) => one.words)]),
      ...seats.flatMap((seat) => seat.reasons.map((each) => each.text)),
      ...log.seatings.map((each) => each.words),
      ...log.openItems.map((each) => each.words),
      ...log.entries.flatMap((each) => each.details),
      ...log.policy.looser,
      log.policy.provisional!,
      log.board.headline,
      log.rollCall.words,
      log.journal.head,
      log.journal.tourHead!,
      ...CAUTIONS,
    ]
    expect(said.length).toBeGreaterThan(40)
    for (const words of said) {
      expect(text).toContain(words)
      expect(rows.filter((each) => each.includes(words))).not.toEqual([])
    }
  })

  test('an element among many is found in its own row, and paper names them all', () => {
    const exposed = rowsOf(log).filter((each) => each.section === 'exposures' && each.element === 'Y-1')
    expect(exposed.map((each) => each.kind)).toEqual(['cylinder'])
    expect(textOf(log)).toContain(
      'All elements: C-1, L-1, D-1, T-1, R-1, H-1, N-1, G-1, S-900, F-1, P-1, Y-1.',
    )
  })
})

describe('the mark of a demonstration', () => {
  test('is in all three formats', () => {
    const log = madeOf(smallTour())
    expect(asText(log, { unicode: false }).split('\n')[2]).toBe(INVENTED)
    expect(rowsOf(log)[1]).toMatchObject({ section: 'mark', words: INVENTED })
    expect(JSON.parse(asJson(log))).toMatchObject({ mark: INVENTED, station: { invented: true } })
  })

  test('is in none of them for a real station', () => {
    const log = madeOf(smallTour({ invented: false }))
    for (const out of [asText(log, { unicode: true }), asCsv(log)]) expect(out).not.toContain('DEMONSTRATION')
    expect(JSON.parse(asJson(log))).toMatchObject({ mark: null, station: { invented: false } })
  })
})

describe('CSV', () => {
  test('has one header row, CRLF after every row and as many cells in each (RFC 4180, from memory)', () => {
    const csv = asCsv(madeOf(smallTour()))
    const [header, ...rows] = parse(csv, { record_delimiter: '\r\n' })
    expect(header).toEqual([...CSV_COLUMNS])
    expect(new Set(rows.map((each) => each.length))).toEqual(new Set([CSV_COLUMNS.length]))
    expect(csv.endsWith('\r\n')).toBe(true)
    expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  })

  test('gives each riding position and reason of the Board a row', () => {
    const log = madeOf(fullTour())
    const rows = rowsOf(log)
    const seats = log.board.rigs.flatMap((rig) => rig.seats)
    expect(rows.filter((each) => each.section === 'seat').map((each) => [each.seat, each.state])).toEqual(
      seats.map((each) => [each.id, each.state]),
    )
    expect(
      rows
        .filter((each) => each.section === 'reason')
        .map(({ element, state, matter, rule, words }) => ({ element, state, matter, rule, text: words })),
    ).toEqual(
      seats.flatMap((seat) =>
        seat.reasons.map(({ element, state, matter, rule, text }) => ({
          element,
          state,
          matter,
          rule,
          text,
        })),
      ),
    )
  })

  test.each([
    '=',
    '+',
    '-',
    '@',
    '\uff1d',
    '\uff0b',
    '\uff0d',
    '\uff20',
    '\ufe66',
    '\ufe62',
    '\ufe63',
    '\ufe6b',
  ])('a cell that begins with %s cannot act as a formula', (sign) => {
    const log = madeOf(smallTour())
    log.cautions = [`${sign}1+1`]
    const cells = rowsOf(log).filter((each) => each.section === 'cautions')
    expect(cells.map((each) => each.words)).toEqual([`'${sign}1+1`])
  })

  test('a tab or a line break before a sign is gone before it reaches a cell', () => {
    const log = house()
    log.record('24 07:00', 'M-104', {
      do: 'open-tour',
      tour: 'T-1',
      platoon: 'B',
      officer: 'M-104',
      on: '2026-11-24',
    })
    log.record('24 07:05', 'M-104', { do: 'note', text: 'a' })
    const dirty = log.events.map((each) =>
      each.type === 'note-made' ? { ...each, by: '\t=cmd', data: { text: '\r\n=cmd' } } : each,
    )
    const rows = rowsOf(madeOf({ ...log, events: dirty, head: log.head }))
    const note = rows.find((each) => each.section === 'notes')
    expect([note!.by, note!.words]).toEqual(["'=cmd", 'Note: =cmd'])
  })

  test('a cell with a quote, a comma or an apostrophe comes back as it was', () => {
    const log = madeOf(smallTour())
    log.cautions = ['He said "no", twice', "'quoted'", '7 - 2']
    const cells = rowsOf(log).filter((each) => each.section === 'cautions')
    expect(cells.map((each) => each.words)).toEqual(log.cautions)
  })
})

describe('JSON', () => {
  test.each([
    ['small', smallTour],
    ['full', fullTour],
  ])('of the %s tour conforms to its published shape and ends with a newline', (_, tour) => {
    const json = asJson(madeOf(tour()))
    expect(readinessLogShape.safeParse(JSON.parse(json)).error).toBeUndefined()
    expect(json.endsWith('\n}\n')).toBe(true)
    expect(json).toContain('\n  "log": "readiness"')
  })

  test('is the same bytes each time', () => {
    expect(asJson(madeOf(fullTour()))).toBe(asJson(madeOf(fullTour())))
  })

  test('a field that the shape does not know is an error, so the shape cannot fall behind', () => {
    const log = { ...madeOf(smallTour()), more: 1 }
    expect(readinessLogShape.safeParse(log).success).toBe(false)
  })

  test('its shape can be printed as JSON Schema', () => {
    expect(z.toJSONSchema(readinessLogShape, { io: 'input' })).toMatchObject({
      type: 'object',
      additionalProperties: false,
    })
  })
})

test('controls and bidirectional marks cannot reach any format, even from a journal that holds them', () => {
  const tour = smallTour({ name: 'Larch\u202e Hill\u001b[2J' })
  const dirty = tour.events.map((each) =>
    each.type === 'seat-answered'
      ? {
          ...each,
          data: {
            ...each.data,
            findings: [{ ...each.data.findings[0]!, point: 'so\u2066le\u0007\u009b31m' }],
          },
        }
      : each,
  )
  const log = madeOf({ ...tour, events: dirty, head: tour.head })
  for (const out of [asText(log, { unicode: true }), asCsv(log).replaceAll('\r\n', '\n'), asJson(log)]) {
    expect(out).not.toMatch(UNSAFE)
    expect(out).not.toMatch(/\\u00[01]|\\u20|\\u009/)
    expect(out).toContain('Larch Hill')
    expect(out).toContain('sole')
  }
})
