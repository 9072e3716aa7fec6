// The packed state: what is kept in a snapshot comes back whole, and a state of another make is not taken.
import { describe, expect, it } from 'vitest'
import { emptyState, type State } from '../../src/domain/state.ts'
import { pack, unpack } from '../../src/store/packed-state.ts'
import { usual } from '../demo-station.ts'

const roundTrip = (state: State) => unpack(JSON.parse(pack(state)) as Record<string, unknown>)

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

describe('a state of another make is not taken', () => {
  const packed = (): Record<string, unknown> => JSON.parse(pack(usual().state))

  it.each(Object.keys(emptyState()))('without its %s', (name) => {
    const { [name]: _, ...rest } = packed()
    expect(unpack(rest)).toBeUndefined()
  })

  it.each(['rigs', 'seats', 'members', 'elements', 'issued', 'standIns', 'ridingLists'])(
    'whose %s are no table',
    (name) => {
      expect(unpack({ ...packed(), [name]: {} })).toBeUndefined()
      expect(unpack({ ...packed(), [name]: null })).toBeUndefined()
    },
  )
})
