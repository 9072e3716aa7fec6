// The packed state: what is kept in a snapshot comes back whole, and a state of another make is not taken.
import { describe, expect, it } from 'vitest'
import { assessNow } from '../../src/domain/assess.ts'
import { verdictsToKeep } from '../../src/domain/assess/kept.ts'
import { fork } from '../../src/domain/evolve.ts'
import { READ_OFF } from '../../src/domain/rotation.ts'
import { emptyState, tourBefore, type State } from '../../src/domain/state.ts'
import { newestOf } from '../../src/domain/table.ts'
import { pack, unpack, type Parts } from '../../src/store/packed-state.ts'
import { usual } from '../demo-station.ts'
import { unpacked } from '../unpacked.ts'

const roundTrip = (state: State) => unpacked(pack(state))

describe('a state comes back as it was', () => {
  it('with every table of the demonstration station', () => {
    const { state } = usual()
    const empty = Object.keys(state).filter((name) => {
      const table: unknown = state[name as keyof State]
      return table instanceof Map && table.size === 0
    })
    expect(empty).toEqual([])
    expect(state.tour!.answers.size).toBeGreaterThan(0)
    expect(state.tour!.acknowledged.size).toBeGreaterThan(0)
    expect(roundTrip(state)).toStrictEqual(state)
  })

  it('when nothing is known yet', () => {
    expect(roundTrip(emptyState())).toStrictEqual(emptyState())
  })

  it('between two tours', () => {
    const between = { ...usual().state, tour: null }
    expect(roundTrip(between)).toStrictEqual(between)
  })
})

it('brings along what was judged of it, for the very same rules only', () => {
  const { state, at } = usual()
  const verdicts = verdictsToKeep(state, at)
  const found = (keptUnder?: string, rules?: string) =>
    unpack(pack(state, verdicts, keptUnder), () => state, rules)
  expect(found('one', 'one')).toStrictEqual({ state, verdicts })
  for (const [keptUnder, rules] of [['one', 'other'], ['one'], [undefined, 'one'], []])
    expect(found(keptUnder, rules)).toStrictEqual({ state, verdicts: undefined })
})

const RECORDS = ['members', 'elements', 'issued', 'tours'] as const

describe('records come back one by one', () => {
  it('and one that nobody asked for is kept as it stands, beside one that was changed', () => {
    const { state } = usual()
    const taken = unpacked(pack(state))!
    const [first, second] = [...state.elements.keys()]
    const draft = fork(taken)
    draft.elements.set(first!, { ...draft.elements.get(first!)!, size: '46x35' })
    const again = unpacked(pack(draft))!
    expect(again.elements.get(first!)).toEqual({ ...state.elements.get(first!), size: '46x35' })
    expect(again.elements.get(second!)).toEqual(state.elements.get(second!))
    expect(taken.elements.get(first!)).toEqual(state.elements.get(first!))
  })

  it('whatever letters they hold', () => {
    const { state } = usual()
    const [id] = [...state.members.keys()]
    const draft = fork(state)
    draft.members.set(id!, { ...state.members.get(id!)!, name: 'Zoë "],"records":[" 消防' })
    expect(unpacked(pack(draft))!.members.get(id!)!.name).toBe('Zoë "],"records":[" 消防')
    expect(roundTrip(draft)).toStrictEqual(draft)
  })
})

describe('what the first frame does not need', () => {
  /** Tells of which parts are read. */
  const watched = (state: State) => {
    const parts = pack(state)
    const read: number[] = []
    const at = (part: number) => (read.push(part), parts[part])
    return { read, state: unpacked({ length: parts.length, at })!, count: parts.length }
  }
  /** As many copies of the demonstration's gear as a large department has, all on the rack. */
  const large = (): State => {
    const draft = fork(usual().state)
    for (const element of usual().state.elements.values()) {
      for (let copy = 0; copy < 8; copy++) {
        const id = `${element.id}-${copy}`
        draft.elements.set(id, { ...element, id, issuedTo: null, custody: { where: 'rack' } })
      }
    }
    return draft
  }
  const state = large()

  it('is not read for the board, whatever the department holds besides', () => {
    const { read, state: found, count } = watched(state)
    expect(count).toBeGreaterThan(4)
    expect(assessNow(found, usual().at)).toEqual(assessNow(state, usual().at))
    expect(read).toEqual([0])
  })

  it('nor between two tours, for whose turn it is, however many there were', () => {
    const between = { ...fork(state), tour: null }
    const worked = [...state.tours.values()][0]!
    for (let tour = 0; tour < 100; tour++) between.tours.set(`T-${tour}`, { ...worked, to: `M-${tour}` })
    const { read, state: found } = watched(between)
    expect(assessNow(found, usual().at)).toEqual(assessNow(between, usual().at))
    expect(tourBefore(found)).toEqual({ ...worked, to: 'M-99' })
    expect(newestOf(found.tours, READ_OFF)).toEqual([...between.tours.values()].slice(-READ_OFF))
    expect(read).toEqual([0])
    expect([...found.tours]).toEqual([...between.tours])
  })

  it('is read with little besides it where one record is wanted, and once', () => {
    const { read, state: found, count } = watched(state)
    const id = `${[...usual().state.elements.keys()][0]}-7`
    expect(found.elements.get(id)).toEqual(state.elements.get(id))
    expect(found.elements.has(`${id}-no-such`)).toBe(false)
    expect(read.length).toBeLessThanOrEqual(3)
    expect([...found.elements.keys()]).toEqual([...state.elements.keys()])
    expect(read.toSorted((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, part) => part))
  })

  it('comes from the journal where its part is spoilt, and the whole state is the same', () => {
    const parts = pack(state)
    for (const spoilt of [1, 2, parts.length - 1]) {
      let again = 0
      const at = (part: number) => (part === spoilt ? undefined : parts[part])
      const found = unpack({ length: parts.length, at }, () => (again++, state))!.state
      if (spoilt % 2) found.elements.get(`${[...usual().state.elements.keys()][spoilt]}-3`)
      expect(found).toStrictEqual(state)
      expect(unpacked(pack(found))).toStrictEqual(state)
      expect(again).toBe(1)
    }
  })
})

describe('a state of another make is not taken', () => {
  type Near = Record<string, unknown> & {
    tables: Record<string, { keys: unknown[]; slots: number[]; sizes: number[] }>
    counts: Record<string, number>
    records: unknown[]
  }
  const parts = pack(usual().state)
  const near = (): Near => JSON.parse(parts[0]!.toString())
  const first = ({ records, ...rest }: Record<string, unknown>): Parts => [
    Buffer.from(JSON.stringify({ ...rest, records })),
    ...parts.slice(1),
  ]
  const names = Object.keys(emptyState())

  it('but the whole of it is', () => {
    expect(unpacked(first(near()))).toBeDefined()
  })

  it.each(names)('without its %s', (name) => {
    const { [name]: _, ...rest } = near()
    const { [name]: __, ...counts } = rest.counts as Near['counts']
    expect(unpacked(first({ ...rest, counts }))).toBeUndefined()
  })

  it.each(['rigs', 'seats', 'standIns', 'ridingLists'])('whose %s are no table', (name) => {
    expect(unpacked(first({ ...near(), [name]: {} }))).toBeUndefined()
    expect(unpacked(first({ ...near(), [name]: null }))).toBeUndefined()
  })

  it.each(RECORDS)('whose %s are not where their sizes say', (name) => {
    const { tables, ...rest } = near()
    const { keys, slots, sizes } = tables[name]!
    for (const changed of [
      { keys },
      { keys: [], slots, sizes },
      { keys, slots: [], sizes },
      { keys, slots, sizes: sizes.map((size) => size + 1) },
    ]) {
      expect(unpacked(first({ ...rest, tables: { ...tables, [name]: changed } }))).toBeUndefined()
    }
  })

  it.each(['null', '3', '{"a":', '', '{"seq":1,"records":[]}'])('that is %j', (text) => {
    expect(unpacked([Buffer.from(text)])).toBeUndefined()
    expect(unpacked([])).toBeUndefined()
  })
})
