// What a file says that the books do not: an empty cell says nothing, and what is there already is no news.
import { describe, expect, test } from 'vitest'
import { differenceOf, isAddition, type ImportedRows } from '../../src/domain/import-diff.ts'
import { cared, house } from './alder-hollow.ts'
import { stateOf } from './given.ts'

const MASK = { model: 'Clear Two', size: 'M' }
const state = stateOf(house, cared('2026-09-01'), {
  do: 'record-fit-test',
  member: 'M-105',
  facepiece: MASK,
  on: '2026-02-01',
  result: 'pass',
})
const difference = (rows: Partial<ImportedRows>) =>
  differenceOf({ members: [], elements: [], cares: [], fitTests: [], ...rows }, state)

describe('an element of the books', () => {
  test.each([
    ['another size', { size: '46x34' }, { size: '44x32' }, { size: '46x34' }],
    ['a serial nobody knew', { serial: '00123' }, { serial: null }, { serial: '00123' }],
    ['another holder', { issuedTo: 'M-105' }, { issuedTo: 'M-104' }, { issuedTo: 'M-105' }],
  ])('with %s is a change that names both', (_, said, was, next) => {
    const found = difference({ elements: [{ id: 'C-1041', kind: 'coat-shell', ...said }] })
    expect(found).toMatchObject({ elements: [], known: 0, changes: [{ id: 'C-1041', was, with: next }] })
  })

  test('told as it is, or with cells left empty, is known already', () => {
    const rows = [
      { id: 'C-1041', kind: 'coat-shell', size: '44x32', made: '2019-03', issuedTo: 'M-104' },
      { id: 'C-1900', kind: 'coat-shell' },
    ] as const
    expect(difference({ elements: [...rows] })).toMatchObject({ changes: [], elements: [], known: 2 })
  })

  test('keeps the day it was first issued and tells of a later one; an earlier one, or a first, is taken', () => {
    const row = (id: string, issuedOn = '2024-05-05') => ({ id, kind: 'coat-shell', issuedOn }) as const
    const first = '2020-06-01'
    const laterIssues = [{ id: 'C-1041', on: '2024-05-05', first }]
    expect(difference({ elements: [row('C-1041')] })).toMatchObject({ changes: [], known: 1, laterIssues })
    const same = { changes: [], known: 1, laterIssues: [] }
    expect(difference({ elements: [row('C-1041', first)] })).toMatchObject(same)
    expect(difference({ elements: [row('C-1041', '2020-05-31')] })).toMatchObject({
      changes: [{ id: 'C-1041', was: { issuedOn: first }, with: { issuedOn: '2020-05-31' } }],
      laterIssues: [],
    })
    expect(difference({ elements: [row('C-1900')] })).toMatchObject({
      changes: [{ id: 'C-1900', was: { issuedOn: null }, with: { issuedOn: '2024-05-05' } }],
      laterIssues: [],
    })
  })

  test('of another kind under its id stays new, to be refused', () => {
    expect(difference({ elements: [{ id: 'C-1041', kind: 'hood' }] })).toMatchObject({
      changes: [],
      elements: [{ id: 'C-1041' }],
    })
  })
})

test('a member with one measure changed keeps the others', () => {
  const row = { id: 'M-104', name: 'A. Varga', sizes: { gloves: '78W' } }
  expect(difference({ members: [row] }).changes).toEqual([
    {
      id: 'M-104',
      was: { sizes: { coat: '44x32', gloves: '76W' } },
      with: { sizes: { coat: '44x32', gloves: '78W' } },
    },
  ])
})

test('a care or a fit test that is on record is not recorded twice', () => {
  const care = {
    element: 'C-1041',
    care: 'advanced-cleaning',
    on: '2026-09-01',
    result: 'serviceable',
  } as const
  const fit = { member: 'M-105', facepiece: MASK, on: '2026-02-01', result: 'pass' } as const
  expect(difference({ cares: [care], fitTests: [fit] })).toMatchObject({ cares: [], fitTests: [], known: 2 })
  const others = difference({
    cares: [{ ...care, on: '2026-09-02' }],
    fitTests: [{ ...fit, facepiece: { ...MASK, size: 'L' } }],
  })
  expect([others.cares.length, others.fitTests.length, others.known]).toEqual([1, 1, 0])
})

test.each([
  ['new gear', { elements: [{ id: 'C-7', kind: 'hood' }] } as const, true],
  [
    'a spare somebody had before',
    { elements: [{ id: 'C-7', kind: 'hood', issuedOn: '2024-05-05' }] } as const,
    false,
  ],
  [
    'a care',
    { cares: [{ element: 'C-1900', care: 'repair', on: '2024-05-05', result: 'serviceable' }] } as const,
    false,
  ],
  ['a change', { elements: [{ id: 'C-1900', kind: 'coat-shell', size: '50x36' }] } as const, false],
])('%s only adds to the books: %s', (_, rows, adds) => {
  expect(isAddition(difference(rows as unknown as Partial<ImportedRows>))).toBe(adds)
})
