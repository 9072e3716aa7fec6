// Rules for what is added to a station: an id is used once, for one thing.
import { describe, expect, test } from 'vitest'
import { coat, cylinder, engine6, hood, house, members, rig } from '../alder-hollow.ts'
import { elementIn, given, memberIn, TOMORROW } from '../given.ts'

const truck = { id: 'T2', name: 'Truck 2', minimum: 1, seats: [{ id: 'T2-1', position: 'Officer' }] }
const rigOf = (more: object) => ({ do: 'add-rig', rig: { ...truck, ...more } })

describe('add-rig', () => {
  test('a rig brings its riding positions, all unfilled, and which of them are critical', () => {
    const state = given().when(rig).records('rig-added', { rig: engine6 })
    expect(state.rigs.get('E6')).toEqual({
      id: 'E6',
      name: 'Engine 6',
      minimum: 2,
      seats: ['E6-1', 'E6-2', 'E6-3'],
    })
    expect(state.seats.get('E6-1')).toEqual({
      id: 'E6-1',
      rig: 'E6',
      position: 'Officer',
      critical: true,
      member: null,
    })
    expect(state.seats.get('E6-2')?.critical).toBe(false)
  })

  test('a minimum crew of everybody is a rig; of one more it is not', () => {
    given(house)
      .when(rigOf({ minimum: 1 }))
      .records('rig-added', { rig: truck })
    given(house)
      .when(rigOf({ minimum: 2 }))
      .refuses('Rig T2 has 1 riding positions: a minimum crew of 2 cannot ride.')
      .changesNothing()
  })

  test.each([
    [{ id: 'E6' }, 'E6 is already the rig Engine 6. Nothing was added.'],
    [{ id: 'M-104' }, 'M-104 is already the member A. Varga. Nothing was added.'],
    [{ id: 'T2-1' }, 'T2-1 is named twice in rig T2-1.'],
    [{ id: 'setup' }, '"setup" is kept for setting up. Nothing was added.'],
    [
      { seats: [{ id: 'E6-1', position: 'Officer' }] },
      'E6-1 is already a riding position. Nothing was added.',
    ],
    [
      { seats: [{ id: 'C-1041', position: 'Officer' }] },
      'C-1041 is already the coat shell C-1041. Nothing was added.',
    ],
  ])('an id is used once, for one thing: %j', (more, words) => {
    given(house).when(rigOf(more)).refuses(words).changesNothing()
  })
})

const member = { id: 'M-300', name: 'D. Abara', platoon: 'B', sizes: { boots: '11D' } }
const add = (id: string) => ({ do: 'add-member', member: { ...member, id } })

describe('add-member', () => {
  test('a member joins without a seat or a fit test', () => {
    const state = given(house).when({ do: 'add-member', member }).records('member-added', { member })
    expect(memberIn(state, 'M-300')).toEqual({ ...member, seq: state.seq, seat: null, fitTests: [] })
  })

  test('an id that something goes by is refused', () => {
    given(house)
      .when(add('M-104'))
      .refuses('M-104 is already the member A. Varga. Nothing was added.')
      .changesNothing()
    given(house)
      .when(add('E6-2'))
      .refuses('E6-2 is already a riding position. Nothing was added.')
      .changesNothing()
  })
})

describe('add-element', () => {
  const element = { id: 'C-2', kind: 'coat-shell', made: '2026-11', inService: '2026-11-24' } as const

  test('an element starts on the rack with a clean sheet', () => {
    const state = given(house).when({ do: 'add-element', element }).records('element-added', { element })
    expect(elementIn(state, 'C-2')).toEqual({
      ...element,
      seq: state.seq,
      issuedTo: null,
      issuedOn: null,
      custody: { where: 'rack' },
      tags: [],
      cares: [],
      exposures: [],
      readings: [],
    })
  })

  test('an element without a label date is accepted: it is unproven, not refused', () => {
    const bare = { id: 'C-3', kind: 'helmet' } as const
    given(house).when({ do: 'add-element', element: bare }).records('element-added', { element: bare })
  })

  test.each([
    [{ id: 'C-1041' }, 'C-1041 is already the coat shell C-1041. Nothing was added.'],
    [{ made: '2026-12' }, 'C-2 was not added: it was made in 2026-12, which is still to come.'],
    [
      { inService: TOMORROW },
      'C-2 was not added: it came into service on 2026-11-25, which is still to come.',
    ],
    [
      { inService: '2026-10-31' },
      'C-2 was not added: it came into service on 2026-10-31, before it was made in 2026-11.',
    ],
    [
      { ratedPsi: 4500 },
      'C-2 was not added: only a cylinder has a rated pressure or a construction, and the kind of this one is coat shell.',
    ],
    [
      { construction: 'steel' },
      'C-2 was not added: only a cylinder has a rated pressure or a construction, and the kind of this one is coat shell.',
    ],
  ])('a label that cannot be so is refused: %j', (more, words) => {
    given(house)
      .when({ do: 'add-element', element: { ...element, ...more } })
      .refuses(words)
      .changesNothing()
  })
})

test('what is added once cannot be added again, whatever adds it', () => {
  for (const command of [rig, ...members, coat('C-1041'), hood('H-5'), cylinder('Y-31')]) {
    given(house).when(command).changesNothing()
  }
})
