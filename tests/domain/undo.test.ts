// The last act is taken back by its opposite or as a correction, or it is said why not and what to do instead.
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { assessNow } from '../../src/domain/assess.ts'
import { arrange } from '../../src/domain/board.ts'
import { parseCommand, type Unsigned } from '../../src/domain/commands.ts'
import { EVENT_TYPES, type Event, type EventType } from '../../src/domain/events.ts'
import { evolve, replay } from '../../src/domain/evolve.ts'
import { emptyState, type State } from '../../src/domain/state.ts'
import { RECORDED_BY_MISTAKE, TAGGED_BY_MISTAKE, undoOf } from '../../src/domain/undo.ts'
import { lastAct } from '../../src/domain/undo/last-act.ts'
import { anyActs, anyTour, journalAfter, RUNS } from './any-commands.ts'
import { coat, FIT, garment, sendsAway, tags } from './fit-crew.ts'
import { journalOf, NOW, STATION, submit, type Steps, type Told } from './given.ts'
import { ROWS } from './told-events.ts'

/** What was done is a minute old, so that it is no part of the last act. */
const EARLIER = '2026-11-24T07:01:00.000-05:00'
const HELMET = garment('helmet', '9')
const swaps: Told = { do: 'swap', seat: 'E6-1', out: 'HE-1', in: 'HE-9' }
const earlier = (step: Told): Told => ({ ...step, at: EARLIER })
const withdrawn = (seq: number): Unsigned[] => [
  { do: 'amend', seq, why: RECORDED_BY_MISTAKE, with: { withdrawn: true } },
]

interface Case {
  /** After the crew is fit and seated. */
  before?: Steps
  /** Left away, the event stands in the table of told events and nothing needs to be known of the books. */
  act?: Told
  undone: RegExp | ((seq: number) => Unsigned[])
}

/** A new kind of event without a row here does not compile. */
const CASES: { [T in EventType]: Case } = {
  'station-made': { undone: /belongs to the station itself/ },
  'rig-added': { undone: /belongs to the station itself/ },
  'pin-set': { undone: /setting another one/ },
  'pin-cleared': { undone: /setting another one/ },
  'pin-refused': { undone: /setting another one/ },
  'key-made': { undone: /belongs to the station itself/ },
  'journal-recovered': { undone: /belongs to the station itself/ },
  'member-added': { undone: /corrected in the log \(l, then c\)/ },
  'element-added': { undone: /retired with z/ },
  'gear-imported': { undone: /corrected in the log/ },
  'records-imported': { undone: /corrected in the log/ },
  'element-issued': {
    before: HELMET,
    act: { do: 'issue', element: 'HE-9', to: 'M-104' },
    undone: () => [{ do: 'return-to-rack', element: 'HE-9' }],
  },
  'element-returned': { undone: /Issue C-1041 again with i/ },
  'tour-opened': { undone: /handing it over: h/ },
  'tour-handed-over': { undone: /Open a new one with o/ },
  'member-seated': {
    before: [earlier({ do: 'clear-seat', seat: 'E6-2' })],
    act: { do: 'seat-member', seat: 'E6-2', member: 'M-105' },
    undone: () => [{ do: 'clear-seat', seat: 'E6-2' }],
  },
  'seat-cleared': {
    act: { do: 'clear-seat', seat: 'E6-2' },
    undone: () => [{ do: 'seat-member', seat: 'E6-2', member: 'M-105' }],
  },
  'seat-answered': { act: { do: 'answer', seat: 'E6-2' }, undone: withdrawn },
  'pressure-read': {
    act: { do: 'read-pressure', element: 'CY-1', psi: 3000 },
    undone: withdrawn,
  },
  'exposure-recorded': {
    act: { do: 'record-exposure', exposure: 'water', seats: ['E6-1'] },
    undone: withdrawn,
  },
  'care-recorded': {
    act: { do: 'record-care', element: 'HE-1', care: 'repair', on: '2026-11-24', result: 'unserviceable' },
    undone: withdrawn,
  },
  'fit-test-recorded': {
    act: {
      do: 'record-fit-test',
      member: 'M-104',
      facepiece: { model: 'Clear Two', size: 'M' },
      on: '2026-11-24',
      result: 'fail',
    },
    undone: withdrawn,
  },
  'note-made': { act: { do: 'note', text: 'Hydrant frozen.' }, undone: withdrawn },
  'element-tagged': {
    act: tags('HE-1'),
    undone: (seq) => [{ do: 'lift-tag', element: 'HE-1', basis: TAGGED_BY_MISTAKE, tags: [seq] }],
  },
  'tag-lifted': {
    before: [earlier(tags('HE-1'))],
    act: { do: 'lift-tag', element: 'HE-1', basis: 'sewn' },
    undone: () => [{ do: 'tag', element: 'HE-1', reason: 'torn seam', matter: 'safety' }],
  },
  'element-swapped': {
    before: HELMET,
    act: swaps,
    undone: () => [{ do: 'swap-back', seat: 'E6-1', kind: 'helmet' }],
  },
  'swap-reversed': {
    before: [...HELMET, earlier(swaps)],
    act: { do: 'swap-back', seat: 'E6-1', kind: 'helmet' },
    undone: () => [swaps],
  },
  'elements-sent-away': {
    act: sendsAway('HE-1'),
    undone: () => [{ do: 'receive-back', elements: ['HE-1'], byMistake: true }],
  },
  'elements-received-back': { undone: /again with w, or hold it with d/ },
  'batch-received': { undone: /Withdraw its cares in the log \(l, then -\)/ },
  'element-held': {
    act: { do: 'hold', element: 'HE-1', reason: 'struck' },
    undone: () => [{ do: 'receive-back', elements: ['HE-1'], byMistake: true }],
  },
  'element-retired': { undone: /stays retired/ },
  'event-amended': { undone: /record it anew/ },
  'item-acknowledged': { undone: /stays open until it is settled/ },
  'policy-adopted': { undone: /bayboard policy adopt/ },
}

const fold = (events: readonly Event[]): State => replay(emptyState(), events)
const eventOf = <T extends EventType>(type: T): Event =>
  ({ seq: 9, at: NOW, by: 'M-104', type, data: ROWS[type][0] }) as Event
/** Who may ride and why not, and nothing of how it came about. */
const shown = (state: State) =>
  arrange(assessNow(state, NOW), state).rigs.map(({ words, rows }) => ({
    words,
    rows: rows.map(({ seat, member, state: is, sentence, places }) => ({
      seat,
      member,
      is,
      sentence,
      gear: places.map((each) => [each.element, each.state]),
    })),
  }))

function giveAll(state: State, commands: readonly Unsigned[]): State {
  return commands.reduce((now, command) => {
    const outcome = submit(now, { ...command, by: 'M-104' })
    if ('refused' in outcome) throw new Error(outcome.refused)
    return evolve(now, outcome.event)
  }, state)
}

const isByKey = (type: EventType): boolean => typeof CASES[type].undone === 'function'
const BY_KEY = EVENT_TYPES.filter(isByKey)
const BY_WORDS = EVENT_TYPES.filter((type) => !isByKey(type))

test.each(BY_WORDS)('%s is not undone by a key: it is said what to do instead', (type) => {
  const undoing = undoOf([eventOf(type)], fold([STATION]), NOW)
  expect(undoing).toEqual({ instead: expect.stringMatching(CASES[type].undone as RegExp) })
  expect(Object.values(undoing)[0]).toMatch(/^[A-Z].*\.$/)
})

test.each(BY_KEY)('%s is undone, and the board is as it was before', (type) => {
  const { before = [], act, undone } = CASES[type]
  const past = journalOf(...FIT.map(earlier), ...before)
  const events = journalOf(...FIT.map(earlier), ...before, act!)
  const last = events.at(-1)!
  expect(last.type).toBe(type)
  const commands = (undone as (seq: number) => Unsigned[])(last.seq)
  expect(undoOf(lastAct(events.toReversed()), fold(events), NOW)).toEqual({ commands })
  expect(shown(giveAll(fold(events), commands))).toEqual(shown(fold(past)))
})

describe('one act', () => {
  const spare = coat('9')
  const layers: Told[] = [
    { do: 'swap', seat: 'E6-1', out: 'CS-1', in: 'CS-9' },
    { do: 'swap', seat: 'E6-1', out: 'CL-1', in: 'CL-9' },
    { do: 'swap', seat: 'E6-1', out: 'DR-1', in: 'DR-9' },
  ]
  const typesOf = (...steps: Steps): string[] =>
    lastAct(journalOf(...FIT.map(earlier), ...steps).toReversed()).map((each) => each.type)

  test('is a whole assembly, so that no layer stays behind', () => {
    const events = journalOf(...FIT.map(earlier), ...spare, ...layers)
    const undoing = undoOf(lastAct(events.toReversed()), fold(events), NOW)
    expect(undoing).toEqual({
      commands: ['drag-rescue-device', 'coat-liner', 'coat-shell'].map((kind) => ({
        do: 'swap-back',
        seat: 'E6-1',
        kind,
      })),
    })
  })
  test('is a reading with the answer that was given in the same key', () => {
    const answer: Told = { do: 'answer', seat: 'E6-1' }
    expect(typesOf({ do: 'read-pressure', element: 'CY-1', psi: 4400 }, answer)).toEqual([
      'seat-answered',
      'pressure-read',
    ])
  })
  test.each([
    [2, '2026-11-24T07:01:03.000-05:00'],
    [1, '2026-11-24T07:01:03.001-05:00'],
  ])('has %i events where the second comes three seconds, or a moment more, after the first', (count, at) => {
    const dries = (element: string, when: string): Told => ({
      do: 'record-care',
      element,
      care: 'drying',
      on: '2026-11-24',
      result: 'serviceable',
      at: when,
    })
    expect(typesOf(dries('GL-1', '2026-11-24T07:01:00.000-05:00'), dries('BO-1', at))).toHaveLength(count)
  })
  test('is never two tags, nor what two people did', () => {
    expect(typesOf(tags('HE-1'), tags('HO-1'))).toHaveLength(1)
    expect(typesOf(...spare, layers[0]!, { ...layers[1]!, by: 'M-105' })).toHaveLength(1)
  })
  test('of an empty journal is nothing, and that is said', () => {
    expect(undoOf(lastAct([]), emptyState(), NOW)).toEqual({ instead: 'Nothing has been recorded yet.' })
  })
})

describe('where the opposite is not all there is to it', () => {
  /** What is undone is accepted as well, all of it. */
  const undo = (...steps: Steps) => {
    const events = journalOf(...FIT.map(earlier), ...steps)
    const undoing = undoOf(lastAct(events.toReversed()), fold(events), NOW)
    if ('commands' in undoing) giveAll(fold(events), undoing.commands)
    return undoing
  }
  test('a spare in the place of a tagged element goes to the rack, and the tagged one is in its place again', () => {
    expect(undo(...HELMET, earlier(tags('HE-1')), swaps)).toEqual({
      commands: [{ do: 'return-to-rack', element: 'HE-9' }],
    })
  })
  test('a spare in the place of another spare goes, and that one comes back', () => {
    const second: Told = { do: 'swap', seat: 'E6-1', out: 'HE-9', in: 'HE-8' }
    expect(undo(...HELMET, ...garment('helmet', '8'), earlier(swaps), second)).toEqual({
      commands: [{ do: 'swap', seat: 'E6-1', out: 'HE-8', in: 'HE-9' }],
    })
  })
  test('a second tag is withdrawn alone, and the first stays', () => {
    const hole: Told = { do: 'tag', element: 'HE-1', reason: 'crack', matter: 'safety' }
    expect(undo(earlier(tags('HE-1')), hole)).toEqual({
      commands: [
        {
          do: 'amend',
          seq: expect.any(Number),
          why: RECORDED_BY_MISTAKE,
          with: { subject: 'HE-1', withdrawn: true },
        },
      ],
    })
  })
  test('a finding loses the tag it made; the riding position has answered all the same', () => {
    const finding = { element: 'HE-1', point: 'crack', matter: 'safety' } as const
    expect(undo({ do: 'answer', seat: 'E6-1', findings: [finding] })).toEqual({
      commands: [{ do: 'lift-tag', element: 'HE-1', basis: TAGGED_BY_MISTAKE, tags: [expect.any(Number)] }],
    })
  })
  test('whoever was relieved sits there again', () => {
    expect(
      undo(earlier({ do: 'add-member', member: { id: 'M-300', name: 'D. Abara', platoon: 'B' } }), {
        do: 'seat-member',
        seat: 'E6-1',
        member: 'M-300',
      }),
    ).toEqual({ commands: [{ do: 'seat-member', seat: 'E6-1', member: 'M-104' }] })
  })
  test('a corrected value goes back to what it was first', () => {
    const seq = journalOf(...FIT).length + 1
    expect(
      undo(earlier({ do: 'read-pressure', element: 'CY-1', psi: 4400 }), {
        do: 'amend',
        seq,
        why: 'misread',
        with: { psi: 4450 },
      }),
    ).toEqual({
      commands: [{ do: 'amend', seq, why: RECORDED_BY_MISTAKE, with: { subject: 'CY-1', psi: 4400 } }],
    })
  })
})

describe('a correction of one of several records of an element goes back by what the record says now', () => {
  const done = (care: 'advanced-cleaning' | 'routine-cleaning' | 'advanced-inspection', on: string) =>
    ({ element: 'HE-1', care, on, result: 'serviceable' }) as const
  const imports = (...cares: ReturnType<typeof done>[]): Told => ({
    do: 'import-records',
    file: 'cares.csv',
    members: [],
    elements: [],
    cares,
    fitTests: [],
    changes: [],
  })
  const seq = journalOf(...FIT).length + 1
  const corrects = (of: string, change: object): Told => ({
    do: 'amend',
    seq,
    why: 'misread',
    with: { subject: 'HE-1', of, ...change },
  })
  test.each<[string, Told, Told, object]>([
    [
      'its care was corrected',
      imports(done('advanced-cleaning', '2026-10-01'), done('advanced-inspection', '2026-10-01')),
      corrects('advanced-cleaning', { care: 'routine-cleaning' }),
      { of: 'routine-cleaning', care: 'advanced-cleaning' },
    ],
    [
      'its day was corrected',
      imports(done('advanced-cleaning', '2026-10-01'), done('advanced-cleaning', '2026-08-01')),
      corrects('advanced-cleaning 2026-10-01', { on: '2026-10-02' }),
      { of: 'advanced-cleaning 2026-10-02', on: '2026-10-01' },
    ],
    [
      'another fact of it was corrected',
      imports(done('advanced-cleaning', '2026-10-01'), done('advanced-cleaning', '2026-08-01')),
      corrects('advanced-cleaning 2026-08-01', { result: 'unserviceable' }),
      { of: 'advanced-cleaning 2026-08-01', result: 'serviceable' },
    ],
  ])('%s', (_name, recorded, correction, back) => {
    const past = journalOf(...FIT.map(earlier), earlier(recorded))
    const events = journalOf(...FIT.map(earlier), earlier(recorded), correction)
    const commands = [
      { do: 'amend', seq, why: RECORDED_BY_MISTAKE, with: { subject: 'HE-1', ...back } },
    ] as Unsigned[]
    expect(undoOf(lastAct(events.toReversed()), fold(events), NOW)).toEqual({ commands })
    expect(shown(giveAll(fold(events), commands))).toEqual(shown(fold(past)))
  })
})

test('of whatever happened, the last act is undone by well-formed commands, or words say what to do', () => {
  fc.assert(
    fc.property(anyTour, (commands) => {
      const events = journalAfter(commands)
      const undoing = undoOf(lastAct(events.toReversed()), fold(events), NOW)
      if ('instead' in undoing) {
        expect(undoing.instead).toMatch(/^[A-Z].*\.$/)
        return
      }
      expect(undoing.commands.length).toBeGreaterThan(0)
      for (const each of undoing.commands) {
        expect(parseCommand({ ...each, by: 'M-104' })).toHaveProperty('command')
      }
    }),
    RUNS,
  )
})

const UNDONE_WHOLE: readonly EventType[] = [
  'element-swapped',
  'swap-reversed',
  'element-tagged',
  'seat-cleared',
]

test('whatever came before: where a swap, a tag or a cleared position can be undone, the board is as it was', () => {
  let count = 0
  fc.assert(
    fc.property(anyActs, (commands) => {
      const all = journalAfter(commands)
      for (const [at, event] of all.entries()) {
        if (!UNDONE_WHOLE.includes(event.type)) continue
        const state = fold(all.slice(0, at + 1))
        const undoing = undoOf([event], state, NOW)
        if ('instead' in undoing) continue
        const outcomes = undoing.commands.map((each) => submit(state, { ...each, by: 'M-104' }))
        if (outcomes.some((each) => 'refused' in each)) continue
        count += 1
        expect(shown(giveAll(state, undoing.commands))).toEqual(shown(fold(all.slice(0, at))))
      }
    }),
    RUNS,
  )
  expect(count).toBeGreaterThan(100)
})
