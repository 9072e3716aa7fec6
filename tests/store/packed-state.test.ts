// The packed state: what is kept in a snapshot comes back whole, and a state of another make is not taken.
import { describe, expect, it } from 'vitest'
import { fork } from '../../src/domain/evolve.ts'
import { emptyState, type State } from '../../src/domain/state.ts'
import { pack, unpack } from '../../src/store/packed-state.ts'
import { usual } from '../demo-station.ts'

const roundTrip = (state: State) => unpack(pack(state))

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

const RECORDS = ['members', 'elements', 'issued'] as const

describe('records come back one by one', () => {
  it('and one that nobody asked for is kept as it stands, beside one that was changed', () => {
    const { state } = usual()
    const taken = unpack(pack(state))!
    const [first, second] = [...state.elements.keys()]
    const draft = fork(taken)
    draft.elements.set(first!, { ...draft.elements.get(first!)!, size: '46x35' })
    const again = unpack(pack(draft))!
    expect(again.elements.get(first!)).toEqual({ ...state.elements.get(first!), size: '46x35' })
    expect(again.elements.get(second!)).toEqual(state.elements.get(second!))
    expect(taken.elements.get(first!)).toEqual(state.elements.get(first!))
  })

  it('whatever letters they hold', () => {
    const { state } = usual()
    const [id] = [...state.members.keys()]
    const draft = fork(state)
    draft.members.set(id!, { ...state.members.get(id!)!, name: 'Zoë "],"records":[" 消防' })
    expect(unpack(pack(draft))!.members.get(id!)!.name).toBe('Zoë "],"records":[" 消防')
    expect(roundTrip(draft)).toStrictEqual(draft)
  })
})

describe('a state of another make is not taken', () => {
  type Whole = Record<string, unknown> & {
    tables: Record<string, { keys: unknown[]; sizes: number[] }>
    records: unknown[]
  }
  const whole = (): Whole => JSON.parse(pack(usual().state).toString())
  const bytesOf = ({ records, ...rest }: Whole): Buffer => Buffer.from(JSON.stringify({ ...rest, records }))
  const names = Object.keys(emptyState())

  it('but the whole of it is', () => {
    expect(unpack(bytesOf(whole()))).toBeDefined()
  })

  it.each(names)('without its %s', (name) => {
    const { [name]: _, ...rest } = whole()
    const { [name]: __, ...tables } = rest.tables as Whole['tables']
    expect(unpack(bytesOf({ ...rest, tables } as Whole))).toBeUndefined()
  })

  it.each(['rigs', 'seats', 'standIns', 'ridingLists'])('whose %s are no table', (name) => {
    expect(unpack(bytesOf({ ...whole(), [name]: {} }))).toBeUndefined()
    expect(unpack(bytesOf({ ...whole(), [name]: null }))).toBeUndefined()
  })

  it.each(RECORDS)('whose %s are not where their sizes say', (name) => {
    const { tables, ...rest } = whole()
    const { keys, sizes } = tables[name]!
    for (const changed of [{ keys }, { keys: [], sizes }, { keys, sizes: sizes.map((size) => size + 1) }]) {
      expect(unpack(bytesOf({ ...rest, tables: { ...tables, [name]: changed } } as Whole))).toBeUndefined()
    }
  })

  it.each(['null', '3', '{"a":', '', '{"seq":1,"records":[]}'])('that is %j', (text) => {
    expect(unpack(Buffer.from(text))).toBeUndefined()
  })
})
