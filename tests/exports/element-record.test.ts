// The record of an element: the eleven items an auditor asks for, from the whole journal, with nothing skipped and nothing blank.
import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { aboutOf } from '../../src/domain/about.ts'
import { followElements } from '../../src/exports/element-record.ts'
import { elementRecordRows } from '../../src/exports/record-rows.ts'
import {
  elementRecordsShape,
  ITEMS,
  NOT_ON_RECORD,
  type ElementRecord,
  type ElementRecords,
} from '../../src/exports/record-shape.ts'
import { UNSAFE } from './made.ts'
import { instant, type Recorder } from './recorder.ts'
import { fullTour, house } from './tours.ts'

function recordsOf(log: Recorder, ...ids: string[]): ElementRecords {
  const walk = followElements(ids)
  log.events.forEach(walk.see)
  return walk.end(log.state, { at: instant('26 08:00'), head: { seq: log.events.length, hash: log.head } })
}
const recordOf = (log: Recorder, id: string): ElementRecord => recordsOf(log, id).elements[0]!
/** The words of an item, or that it says it has none. */
const item = ({ items }: ElementRecord, number: number): string[] => {
  const { onRecord, lines } = items[number - 1]!
  expect(onRecord).toBe(lines.length > 0)
  return lines.map((each) => each.words)
}
const care = (element: string, sort: string, on: string, more: object = {}) => ({
  do: 'record-care',
  element,
  care: sort,
  on,
  result: 'serviceable',
  ...more,
})

/** A coat that was looked at, issued, burnt, washed, mended and retired, with a slip of the pen on the way. */
function lifeOfACoat(): Recorder {
  const log = house()
  const act = (when: string, command: object) => log.record(when, 'M-104', command as Record<string, unknown>)
  log.record('02 08:00', 'setup', {
    do: 'add-element',
    element: {
      id: 'C-9',
      kind: 'coat-shell',
      maker: 'Larchworks',
      model: 'L1',
      serial: 'S-77',
      made: '2024-06',
      size: '44x32',
    },
  })
  act('03 08:00', care('C-9', 'advanced-inspection', '2026-11-02', { who: 'Bench', note: 'collar worn' }))
  act('04 08:00', { do: 'issue', element: 'C-9', to: 'M-105', on: '2026-11-04' })
  act('05 09:00', {
    do: 'record-exposure',
    exposure: 'products-of-combustion',
    elements: ['C-9'],
    incident: '26-01',
  })
  const washed = act('06 09:00', care('C-9', 'advanced-cleaning', '2026-11-06', { who: 'North Wash' }))
  act('06 10:00', { do: 'amend', seq: washed.seq, why: 'read again', with: { result: 'unserviceable' } })
  act('07 09:00', care('C-9', 'repair', '2026-11-07', { who: 'Brook Works', note: 'cuff sewn' }))
  act('07 09:30', { do: 'lift-tag', element: 'C-9', basis: 'sewn' })
  const wrong = act('08 09:00', care('C-9', 'specialised-cleaning', '2026-11-08'))
  act('08 10:00', { do: 'amend', seq: wrong.seq, why: 'another coat', with: { withdrawn: true } })
  act('08 11:00', { do: 'return-to-rack', element: 'C-9' })
  act('09 09:00', { do: 'retire', element: 'C-9', reason: 'shell thin', disposal: 'cut up' })
  return log
}

describe('the eleven items', () => {
  const record = recordOf(lifeOfACoat(), 'C-9')

  test('stand in their published order, each with its title', () => {
    expect(record.items.map((each) => [each.item, each.title])).toEqual(
      ITEMS.map((title, at) => [at + 1, title]),
    )
  })

  test.each([
    [1, ['Issued coat shell C-9 to B. Okoro (M-105) on 4 Nov 2026.', 'Returned coat shell C-9 to the rack.']],
    [2, ['Issued 4 Nov 2026. Condition: advanced inspection of 2 Nov 2026: serviceable (collar worn).']],
    [3, ['Larchworks, L1']],
    [4, ['S-77']],
    [5, ['2024-06']],
    [6, ['advanced inspection: serviceable, collar worn; by Bench.']],
    [7, ['advanced cleaning: unserviceable; by North Wash.', 'specialised cleaning: serviceable.']],
    [
      8,
      [
        'advanced cleaning: after products of combustion at 26-01 on 5 Nov 2026; by North Wash.',
        'specialised cleaning: why is not on record; by whom is not on record.',
      ],
    ],
    [9, ['cuff sewn; by Brook Works; serviceable.']],
    [10, ['Retired: shell thin.']],
    [11, ['cut up']],
  ])('item %i', (number, words) => {
    expect(item(record, number)).toEqual(words)
  })

  test('an amendment stands beside what it amends, and what it said before is there to read', () => {
    const [washed] = record.items[6]!.lines
    expect(washed).toMatchObject({ on: '2026-11-06', withdrawn: false, byName: 'A. Varga' })
    expect(washed!.amended.map((each) => each.words)).toEqual([
      expect.stringContaining('result unserviceable, was serviceable. read again.'),
    ])
  })

  test('what was withdrawn stays, marked as withdrawn, and is no reason for anything', () => {
    expect(record.items[6]!.lines[1]).toMatchObject({
      withdrawn: true,
      amended: [{ words: expect.stringContaining('another coat') }],
    })
  })
})

describe('what is not on record', () => {
  test('is said item by item, never left blank', () => {
    const record = recordOf(house(), 'S-900')
    expect(record.items.filter((each) => !each.onRecord).map((each) => each.item)).toEqual([
      1, 2, 3, 4, 6, 7, 8, 9, 10, 11,
    ])
    const { data: rows } = Papa.parse<Record<string, string>>(
      elementRecordRows(recordsOf(house(), 'S-900')),
      {
        header: true,
        skipEmptyLines: true,
        dynamicTyping: false,
      },
    )
    const items = rows.filter((each) => each['item'] !== '')
    expect(items).toHaveLength(11)
    expect(items.filter((each) => each['words'] === NOT_ON_RECORD)).toHaveLength(10)
    for (const row of rows) expect(row['words']).not.toBe('')
  })

  test('the condition at issue is not on record where nobody looked at it by then', () => {
    const log = house()
    log.record('03 08:00', 'M-104', care('B-1', 'advanced-inspection', '2026-11-02'))
    expect(item(recordOf(log, 'B-1'), 2)).toEqual(['Issued 1 Oct 2026. Condition: not on record.'])
  })
})

describe('the whole journal', () => {
  const log = fullTour()
  const ids = [...log.state.elements.keys()]
  const records = recordsOf(log, ...ids)

  test.each(ids)('every event about %s is in its record, amendments among them', (id) => {
    const record = records.elements.find((each) => each.id === id)!
    const lines = [...record.items.flatMap((each) => each.lines), ...record.also]
    const shown = new Set(lines.flatMap((each) => [each.seq, ...each.amended.map((one) => one.seq)]))
    const about = log.events.filter((event) => aboutOf(event).includes(id)).map((each) => each.seq)
    expect(about.length).toBeGreaterThan(0)
    expect(about.filter((seq) => !shown.has(seq))).toEqual([])
  })

  test('a care that came back by a slip is there with its finding', () => {
    const record = records.elements.find((each) => each.id === 'R-1')!
    expect(item(record, 7)).toEqual(['advanced cleaning: unserviceable, lining loose; by North Wash.'])
  })

  test('a care and a label that an import brought are there, with what the label said before', () => {
    const own = house()
    own.record('03 08:00', 'M-104', {
      do: 'import-records',
      file: 'past.csv',
      members: [],
      elements: [],
      cares: [
        {
          element: 'B-1',
          care: 'advanced-cleaning',
          on: '2026-03-02',
          result: 'serviceable',
          who: 'North Wash',
        },
      ],
      fitTests: [],
      changes: [
        {
          id: 'B-1',
          was: { made: '2024-05', issuedTo: 'M-104' },
          with: { made: '2023-05', issuedTo: 'M-105' },
        },
      ],
    })
    const record = recordOf(own, 'B-1')
    expect(item(record, 7)).toEqual(['advanced cleaning: serviceable; by North Wash.'])
    expect(item(record, 1)).toHaveLength(2)
    expect(item(record, 2)[1]).toBe('Issued; since when is not on record.')
    expect(record.items[4]!.lines[0]).toMatchObject({
      words: '2023-05',
      amended: [{ words: expect.stringContaining('made 2023-05, was 2024-05') }],
    })
  })

  test('it has the published shape, in the order asked for', () => {
    expect(elementRecordsShape.safeParse(records).error).toBeUndefined()
    expect(records.elements.map((each) => each.id)).toEqual(ids)
    expect(recordsOf(log, 'B-1', 'C-1').elements.map((each) => each.id)).toEqual(['B-1', 'C-1'])
  })

  test('years of events about other gear change nothing in it', () => {
    const before = recordOf(log, 'B-1')
    log.record('26 07:00', 'M-104', { do: 'tag', element: 'T-1', reason: 'soiled', matter: 'safety' })
    expect(recordOf(log, 'B-1')).toEqual(before)
  })
})

test('no hostile name or note drives a terminal or a spreadsheet', () => {
  const log = house()
  log.record(
    '03 08:00',
    'M-104',
    care('B-1', 'repair', '2026-11-02', { who: '=HYPERLINK("x")', note: '\u202ebad\u001b[2J' }),
  )
  const records = recordsOf(log, 'B-1')
  expect(JSON.stringify(records)).not.toMatch(UNSAFE)
  for (const row of Papa.parse<string[]>(elementRecordRows(records)).data)
    for (const cell of row) expect(cell).not.toMatch(/^[=+@]/)
})
