// A file that changes what is known or brings its past along: all of it or none, one event, and both versions stay visible.
import { describe, expect, test } from 'vitest'
import { historyLines } from '../../../src/exports/history.ts'
import { aboutOf } from '../../../src/domain/about.ts'
import { cared, coat, held, house, retired, sentAway } from '../alder-hollow.ts'
import { elementIn, given, journalOf, memberIn, stateOf, TOMORROW, type Told } from '../given.ts'
import type { EventData } from '../../../src/domain/events.ts'
import { replay } from '../../../src/domain/evolve.ts'
import { emptyState } from '../../../src/domain/state.ts'

type Records = Omit<EventData['records-imported'], 'file'>
const NOTHING: Records = { members: [], elements: [], cares: [], fitTests: [], changes: [] }
const file = (records: Partial<Records>): Told => ({
  do: 'import-records',
  file: 'past.csv',
  ...NOTHING,
  ...records,
})
const change = (id: string, was: object, next: object): Partial<Records> => ({
  changes: [{ id, was: { ...was }, with: { ...next } }],
})
const done = (on: string, more: object = {}) => ({
  element: 'C-1900',
  care: 'advanced-cleaning' as const,
  on,
  result: 'serviceable' as const,
  ...more,
})
const failedOn = (on: string) => done(on, { result: 'unserviceable' })

describe('import-records', () => {
  test('replaces what it names, and the event holds both', () => {
    const data = { file: 'past.csv', ...NOTHING, ...change('C-1041', { size: '44x32' }, { size: '46x34' }) }
    const after = given(house).when(file(data)).records('records-imported', data)
    expect(elementIn(after, 'C-1041')).toMatchObject({ size: '46x34', made: '2019-03', issuedTo: 'M-104' })
  })

  test('is told in the history of what it changed, from what to what', () => {
    const events = journalOf(house, file(change('C-1041', { issuedTo: 'M-104' }, { issuedTo: 'M-105' })))
    const state = replay(emptyState(), events)
    const told = (id: string) =>
      historyLines(
        events.filter((each) => aboutOf(each).includes(id)),
        state,
        id,
      ).at(-1)?.words
    for (const id of ['C-1041', 'M-104', 'M-105']) {
      expect(told(id)).toContain('C-1041: issued to M-105, was M-104')
    }
  })

  test('of the holder takes it from the one and gives it to the other, its first issue kept', () => {
    const state = stateOf(house, file(change('C-1041', { issuedTo: 'M-104' }, { issuedTo: 'M-105' })))
    expect(elementIn(state, 'C-1041')).toMatchObject({ issuedTo: 'M-105', issuedOn: '2020-06-01' })
    expect([state.issued.get('M-104 coat-shell'), state.issued.get('M-105 coat-shell')]).toEqual([
      undefined,
      ['C-1041'],
    ])
  })

  test('of a member changes the member', () => {
    const state = stateOf(house, file(change('M-105', { rank: null }, { rank: 'Driver' })))
    expect(memberIn(state, 'M-105')).toMatchObject({ name: 'B. Okoro', rank: 'Driver' })
  })

  test.each([
    [
      'what has changed meanwhile',
      [house],
      change('C-1041', { size: '40x30' }, { size: '46x34' }),
      'C-1041: it has changed since it was looked up. Import the file again.',
    ],
    [
      'a field whose old value it does not name',
      [house],
      change('C-1041', {}, { size: '46x34' }),
      'C-1041: it has changed since it was looked up. Import the file again.',
    ],
    [
      'what is not there',
      [house],
      change('C-9', { size: null }, { size: '4' }),
      'C-9: there is no element or member C-9 in this station.',
    ],
    [
      'what is retired',
      [house, retired('C-1900')],
      change('C-1900', { size: '44x32' }, { size: '4' }),
      'C-1900: Coat shell C-1900 is retired: nothing more is recorded of it.',
    ],
    [
      'a label from the future',
      [house],
      change('C-1041', { made: '2019-03' }, { made: '2027-01' }),
      'C-1041: it was made in 2027-01, which is still to come.',
    ],
    [
      'a holder nobody knows',
      [house],
      change('C-1900', { issuedTo: null }, { issuedTo: 'M-9' }),
      'C-1900: there is no member or riding position M-9 to issue it to.',
    ],
    [
      'a coat for a riding position',
      [house],
      change('C-1900', { issuedTo: null }, { issuedTo: 'E6-2' }),
      'C-1900: coat shell belongs to a member, not to a riding position.',
    ],
    [
      'the holder of evidence',
      [house, held('C-1900')],
      change('C-1900', { issuedTo: null }, { issuedTo: 'M-105' }),
      'C-1900: it is held as evidence: injury on 22 Nov. Receive it back first.',
    ],
    [
      'the holder of what is away',
      [house, sentAway('C-1041')],
      change('C-1041', { issuedTo: 'M-104' }, { issuedTo: 'M-105' }),
      'C-1041: it is away at North Wash for advanced cleaning. Receive it back first.',
    ],
    [
      'a kind',
      [house],
      change('C-1041', { kind: 'coat-shell' }, { kind: 'hood' }),
      'C-1041: It holds something not asked for: kind.',
    ],
  ] as const)('of %s is refused', (_, steps, records, words) => {
    given(...steps)
      .when(file(records))
      .refuses(`${words} Nothing was imported.`)
      .changesNothing()
  })
})

describe('a past of cares', () => {
  test('comes with a spare, so that its intervals run from what was done', () => {
    const cares = [done('2026-08-01', { who: 'North Wash' }), done('2026-01-15')]
    const state = stateOf(house, file({ cares }))
    expect(elementIn(state, 'C-1900').cares.map(({ on, who }) => [on, who])).toEqual([
      ['2026-01-15', undefined],
      ['2026-08-01', 'North Wash'],
    ])
  })

  test('comes with gear of the same file', () => {
    const elements = [{ id: 'C-7', kind: 'coat-shell', made: '2022-01', issuedOn: '2022-03-01' } as const]
    const state = stateOf(house, file({ elements, cares: [done('2026-01-15', { element: 'C-7' })] }))
    expect(elementIn(state, 'C-7')).toMatchObject({
      issuedTo: null,
      issuedOn: '2022-03-01',
      cares: [{ on: '2026-01-15' }],
      custody: { where: 'rack' },
    })
  })

  test.each([
    ['failed and never passed since', [failedOn('2026-01-15')], ['failed advanced cleaning']],
    [
      'failed after it had passed',
      [done('2025-01-15'), failedOn('2026-01-15')],
      ['failed advanced cleaning'],
    ],
    [
      'failed and passed on the same day',
      [failedOn('2026-01-15'), done('2026-01-15', { care: 'repair' })],
      ['failed advanced cleaning'],
    ],
    ['failed and passed since', [failedOn('2025-01-15'), done('2026-01-15')], []],
  ])('that %s leaves it tagged: %j', (_, cares, reasons) => {
    const state = stateOf(house, file({ cares }))
    expect(elementIn(state, 'C-1900').tags.map((each) => each.reason)).toEqual(reasons)
  })

  test.each([
    [
      'still to come',
      done(TOMORROW),
      '25 Nov 2026 is still to come: a care is recorded when it has been done.',
    ],
    [
      'before it was made',
      done('2019-02-28'),
      'Coat shell C-1900 was made in 2019-03: a care on 28 Feb 2019 cannot be its own.',
    ],
    [
      'not done on its kind',
      done('2026-01-15', { care: 'flow-test' }),
      'No flow test is done on coat shell C-1900. Its cares are: routine inspection, advanced inspection, preliminary exposure reduction, routine cleaning, advanced cleaning, specialised cleaning, drying, repair.',
    ],
    [
      'of what is not there',
      done('2026-01-15', { element: 'C-9' }),
      'There is no element C-9 in this station.',
    ],
  ])('%s is refused', (_, care, words) => {
    const id = (care as { element: string }).element
    given(house)
      .when(file({ cares: [care] }))
      .refuses(`${id}: ${words} Nothing was imported.`)
      .changesNothing()
  })

  test('told twice for one day is refused', () => {
    given(house)
      .when(file({ cares: [done('2026-01-15'), failedOn('2026-01-15')] }))
      .refuses('C-1900: it stands in the file twice on this day. Nothing was imported.')
      .changesNothing()
  })
})

describe('an amendment of a past', () => {
  const PAST = file({
    cares: [failedOn('2025-01-15'), done('2026-01-15'), done('2026-02-15', { care: 'repair' })],
  })
  const events = journalOf(house, PAST)
  const { seq } = events.at(-1)!
  const amended = (change: Record<string, unknown>) =>
    elementIn(stateOf(house, PAST, { do: 'amend', seq, why: 'misread', with: change }), 'C-1900')

  test('names the care and its day, and leaves the others as they were', () => {
    const { cares, tags } = amended({
      subject: 'C-1900',
      of: 'advanced-cleaning 2026-01-15',
      on: '2026-01-16',
    })
    expect(cares.map((each) => each.on)).toEqual(['2025-01-15', '2026-01-16', '2026-02-15'])
    expect(tags).toEqual([])
  })

  test('that takes the passing away leaves the failure standing: it is tagged', () => {
    const { cares, tags } = amended({
      subject: 'C-1900',
      of: 'advanced-cleaning 2026-01-15',
      withdrawn: true,
    })
    expect(cares.map((each) => each.on)).toEqual(['2025-01-15', '2026-02-15'])
    expect(tags).toMatchObject([{ seq, reason: 'failed advanced cleaning', matter: 'safety' }])
  })

  test('must say which of several it means', () => {
    given(house, PAST)
      .when({ do: 'amend', seq, why: 'misread', with: { subject: 'C-1900', on: '2026-01-16' } })
      .refuses(
        `Event ${seq} records several cares of C-1900. Say which in "with": {"subject": "C-1900", "of": "advanced-cleaning 2025-01-15"}.`,
      )
      .changesNothing()
  })
})

describe('a past of fit tests', () => {
  const test_ = (on: string, member = 'M-105') => ({
    member,
    facepiece: { model: 'Clear Two', size: 'M' },
    on,
    result: 'pass' as const,
  })

  test('comes in the order of its days', () => {
    const state = stateOf(house, file({ fitTests: [test_('2026-02-01'), test_('2025-02-01')] }))
    expect(memberIn(state, 'M-105').fitTests.map((each) => each.on)).toEqual(['2025-02-01', '2026-02-01'])
  })

  test('of which one is amended leaves the other as it was', () => {
    const past = file({ fitTests: [test_('2026-02-01'), test_('2025-02-01')] })
    const { seq } = journalOf(house, past).at(-1)!
    const amend: Told = {
      do: 'amend',
      seq,
      why: 'misread',
      with: { of: 'fit-test 2026-02-01', result: 'fail' },
    }
    const state = stateOf(house, past, amend)
    expect(memberIn(state, 'M-105').fitTests.map((each) => each.result)).toEqual(['pass', 'fail'])
  })

  test.each([
    [test_(TOMORROW), 'M-105: 25 Nov 2026 is still to come: a fit test is recorded when it has been done.'],
    [test_('2026-02-01', 'M-9'), 'M-9: there is no member M-9 in this station.'],
  ])('%j is refused', (fit, words) => {
    given(house)
      .when(file({ fitTests: [fit] }))
      .refuses(`${words} Nothing was imported.`)
      .changesNothing()
  })
})

test('setup brings along what was before the station was made; what changes the books needs a name', () => {
  const asSetup = '"setup" may only set up and import. Give the id of the member who does this in "by".'
  const by = { by: 'setup' }
  const before = { cares: [done('2025-12-31')] }
  given(house)
    .when({ ...file(before), ...by })
    .records('records-imported', { file: 'past.csv', ...NOTHING, ...before })
  given(house)
    .when({ ...file({ cares: [done('2026-01-01')] }), ...by })
    .refuses(asSetup)
    .changesNothing()
  given(house)
    .when({ ...file(change('C-1041', { size: '44x32' }, { size: '4' })), ...by })
    .refuses(asSetup)
})

test('a file without rows is refused', () => {
  given(house).when(file({})).refuses('past.csv holds no rows. Nothing was imported.').changesNothing()
})

test('a file that adds nothing wrong and something wrong adds nothing', () => {
  given(house, cared('2026-09-01'), coat('C-8'))
    .when(file({ elements: [{ id: 'C-70', kind: 'hood' }], cares: [done('2026-01-15', { element: 'C-9' })] }))
    .changesNothing()
})
