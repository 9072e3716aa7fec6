// Members change seats where that lets more rigs ride: most rigs, no riding rig stripped, nobody moved for nothing.
import { describe, expect, it } from 'vitest'
import { assess } from '../../../src/domain/assess.ts'
import { imagine } from '../../../src/domain/imagine.ts'
import { movesOf } from '../../../src/domain/plan/moves.ts'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import type { State } from '../../../src/domain/state.ts'
import { FIT, tags } from '../fit-crew.ts'
import { NOW, stateOf, type Steps } from '../given.ts'
import { LADDER } from './ladder.ts'

const station = (...steps: Steps): State => stateOf(...FIT, LADDER, ...steps)
const movesIn = (state: State) => movesOf(state, policyOf(state), NOW)
const ridingAfter = (state: State) => {
  const commands = movesIn(state)!.commands.map((each) => ({ ...each, by: 'M-104' }))
  const after = imagine(state, commands, NOW)
  if ('refused' in after) throw new Error(after.refused)
  return assess(after.state, policyOf(state), NOW).rigs.flatMap((each) => (each.canRide ? each.id : []))
}

it('with every rig riding nobody is moved', () => {
  expect(movesIn(station())).toBeNull()
})

it('within a rig, whoever is fit takes the critical position of whoever is not, and they change seats', () => {
  const state = station(tags('HE-3'))
  expect(movesIn(state)!.moves).toEqual([{ member: 'M-107', name: 'D. Abara', from: 'L6-2', to: 'L6-1' }])
  expect(movesIn(state)!.commands).toEqual([
    { do: 'clear-seat', seat: 'L6-2' },
    { do: 'clear-seat', seat: 'L6-1' },
    { do: 'seat-member', seat: 'L6-1', member: 'M-107' },
    { do: 'seat-member', seat: 'L6-2', member: 'M-106' },
  ])
  expect(movesIn(state)!.words).toBe(
    "One change of seat lets Ladder 6 ride too, if whoever moves is qualified for it: that is the officer's to decide.",
  )
  expect(ridingAfter(state)).toEqual(['E6', 'L6'])
})

it('from a rig that has more than it needs to one that has too few', () => {
  const state = station(tags('HE-2'))
  expect(movesIn(state)!.moves).toEqual([{ member: 'M-107', name: 'D. Abara', from: 'L6-2', to: 'E6-2' }])
  expect(ridingAfter(state)).toEqual(['E6', 'L6'])
})

describe('nobody is moved', () => {
  it.each<[string, Steps]>([
    ['from a rig that would then not ride', [tags('HE-2'), tags('HE-4')]],
    ['to a position whose air pack is out', [tags('HE-3'), tags('AP-3')]],
    [
      'where the department says never',
      [tags('HE-3'), { do: 'adopt-policy', overlay: { name: 'ours', moves: 'never', changes: [], add: [] } }],
    ],
  ])('%s', (_name, steps) => {
    expect(movesIn(station(...steps))).toBeNull()
  })
})

describe('no way to seat them lets more rigs ride without stripping one', () => {
  const SEATS = ['E6-1', 'E6-2', 'E6-3', 'L6-1', 'L6-2']
  const PEOPLE = ['M-104', 'M-105', 'M-106', 'M-107']
  const ride = (state: State): string[] =>
    assess(state, policyOf(state), NOW).rigs.flatMap((each) => (each.canRide ? each.id : []))
  /** Everybody on a seat of their own, in every way there is. */
  function* seatings(people = PEOPLE, seats = SEATS): Generator<[seat: string, member: string][]> {
    const [first, ...others] = people
    if (first === undefined) yield []
    else
      for (const seat of seats)
        for (const rest of seatings(
          others,
          seats.filter((each) => each !== seat),
        ))
          yield [[seat, first], ...rest]
  }

  it.each(['1', '1 2', '2 4', '3', '1 3', '3 4', '2 3 4'])('with the helmets of %s torn', (torn) => {
    const state = station(torn.split(' ').map((set) => tags(`HE-${set}`)))
    const before = ride(state)
    let most = before.length
    for (const seating of seatings()) {
      const seats = new Map(state.seats)
      for (const seat of SEATS) {
        const member = seating.find(([at]) => at === seat)?.[1] ?? null
        seats.set(seat, { ...seats.get(seat)!, member })
      }
      const after = ride({ ...state, seats })
      if (before.every((each) => after.includes(each))) most = Math.max(most, after.length)
    }
    expect(movesIn(state) ? ridingAfter(state).length : before.length).toBe(most)
  })
})
