// What the lists export, the import reads again without loss: the law that lets a department edit its gear in a spreadsheet.
import {
  assert,
  array,
  constantFrom,
  oneof,
  option,
  property,
  record,
  string,
  stringMatching,
  uniqueArray,
} from 'fast-check'
import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { LIST_COLUMNS, listCsv, LISTS, type List } from '../../../src/exports/gear-list.ts'
import { asText, plainText } from '../../../src/exports/csv-text.ts'
import { cleanCell } from '../../../src/store/imports/cells.ts'
import { differenceOf } from '../../../src/domain/import-diff.ts'
import { apply, fork } from '../../../src/domain/evolve.ts'
import type { Event } from '../../../src/domain/events.ts'
import type { State } from '../../../src/domain/state.ts'
import { readGear } from '../../../src/store/imports/read-gear.ts'
import { emptyState } from '../../../src/domain/state.ts'
import { usual } from '../../demo-station.ts'
import { taken } from './sheets.ts'

const readBack = (state: State, list: List) =>
  taken(readGear(Buffer.from(listCsv(state, list)), { file: `${list}.csv` }))

describe.each(LISTS)('the list of %s of a whole station', (list) => {
  const { state } = usual()
  const text = listCsv(state, list)

  test('is RFC 4180, as a reader sees it that did not write it', () => {
    const { data, errors, meta } = Papa.parse<Record<string, string>>(text, {
      header: true,
      skipEmptyLines: true,
    })
    expect(errors).toEqual([])
    expect([meta.fields, meta.linebreak]).toEqual([LIST_COLUMNS[list], '\r\n'])
    expect(data.length).toBeGreaterThan(10)
  })

  test('read again tells nothing new, and is taken for what it is', () => {
    const read = readBack(state, list)
    const { known, ...found } = differenceOf(read, state)
    expect(found).toEqual({
      members: [],
      elements: [],
      cares: [],
      fitTests: [],
      changes: [],
      laterIssues: [],
    })
    expect(known).toBeGreaterThan(10)
    expect(read.sort).toBe(list === 'members' ? 'gear' : list)
  })
})

test('a new station made of the four lists holds the same members, labels, holders and past', () => {
  const { state } = usual()
  const made = fork({ ...emptyState(), rigs: state.rigs, seats: state.seats, station: state.station })
  for (const list of ['members', 'gear', 'cares', 'fit-tests'] as const) {
    const { members, elements, cares, fitTests } = readBack(state, list)
    const data = { file: list, members, elements, cares, fitTests, changes: [] }
    apply(made, {
      seq: made.seq + 1,
      at: '2026-11-25T08:00:00.000-05:00',
      by: 'setup',
      type: 'records-imported',
      data,
    } as Event)
  }
  for (const list of LISTS) expect(listCsv(made, list)).toBe(listCsv(state, list))
})

/** What lures a spreadsheet or a reader into taking a text for something else. */
const LURES = [
  '=1+1',
  '+4',
  '-',
  '@x',
  "'",
  "''=x",
  'none',
  "'None",
  '00123',
  '1.5E05',
  '4E+11',
  'Mar-05',
  '5-Mar',
  'A Shift',
  'spare',
  'a,b',
  'a"b',
  ';',
  '\uff0bx',
  '2019-03-01',
  'TRUE',
  'null',
  '#N/A',
]
const words = oneof(constantFrom(...LURES), string({ minLength: 1, maxLength: 12 }))
  .map(cleanCell)
  .filter((text) => text !== '')

test('any cell comes back as it was', () => {
  assert(
    property(words, (text) => {
      expect(plainText(asText(text))).toBe(text)
    }),
    { numRuns: 2_000 },
  )
})

test('any gear and members come back as they were', () => {
  const id = oneof(
    constantFrom('00123', '1.5E05', 'Mar-05', '-1', 'none', 'spare'),
    stringMatching(/^[A-Za-z0-9_.-]{1,8}$/),
  )
  const label = record(
    {
      maker: words,
      model: words,
      serial: words,
      size: words,
      edition: words,
      assembly: words,
      made: constantFrom('2019-03', '2020-12'),
      inService: constantFrom('2021-02-28', '2024-02-29'),
    },
    { requiredKeys: [] },
  )
  const elements = uniqueArray(
    record({ id, label, issuedOn: option(constantFrom('2022-01-31'), { nil: null }) }),
    { selector: (each) => each.id, minLength: 1, maxLength: 4 },
  )
  const members = array(
    record({
      name: words,
      rank: words,
      platoon: words,
      sizes: record({ coat: words, gloves: words }, { requiredKeys: [] }),
    }),
    { minLength: 1, maxLength: 3 },
  )
  assert(
    property(elements, members, (gear, people) => {
      const state = emptyState()
      for (const { id, label, issuedOn } of gear) {
        state.elements.set(id, {
          id,
          kind: 'helmet',
          ...label,
          seq: 1,
          issuedTo: null,
          issuedOn,
          custody: { where: 'rack' },
          tags: [],
          cares: [],
          exposures: [],
          readings: [],
        })
      }
      for (const [index, person] of people.entries()) {
        const sizes = Object.keys(person.sizes).length ? { sizes: person.sizes } : {}
        state.members.set(`0${index}`, {
          id: `0${index}`,
          seq: 1,
          seat: null,
          fitTests: [],
          name: person.name,
          rank: person.rank,
          platoon: person.platoon,
          ...sizes,
        })
      }
      const read = readBack(state, 'gear')
      const byId = new Map(read.elements.map((each) => [each.id, each]))
      for (const { id, label, issuedOn } of gear) {
        expect(byId.get(id)).toEqual({ id, kind: 'helmet', ...label, ...(issuedOn && { issuedOn }) })
      }
      const back = readBack(state, 'members').members
      expect(back).toEqual(
        [...state.members.values()].map(({ seq: _, seat: __, fitTests: ___, ...facts }) => facts),
      )
    }),
    { numRuns: 300 },
  )
})
