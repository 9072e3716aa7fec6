// The day patterns and the platoons they put on duty, counted over more than a year.
import { describe, expect, it } from 'vitest'
import {
  dutyOn,
  onDuty,
  ROTATION_NAMES,
  ROTATIONS,
  tourAt,
  tourDays,
  turnAfter,
  turnOn,
  turnStarts,
} from '../../src/domain/rotation.ts'
import { addDays } from '../../src/domain/time.ts'

const PLATOONS = ['A', 'B', 'C', 'D']
const DAYS = Array.from({ length: 400 }, (_, index) => addDays('2026-01-01', index))
const platoonsOf = (name: string) => PLATOONS.slice(0, ROTATIONS[name]!.offsets.length)

describe.each(ROTATION_NAMES.filter((name) => name !== '10/14'))('the rotation %s', (name) => {
  it('has exactly one platoon on duty on each of 400 days', () => {
    expect(DAYS.filter((day) => onDuty(name, platoonsOf(name), day).length !== 1)).toEqual([])
  })

  it('gives each platoon the same share of days', () => {
    const { pattern, offsets } = ROTATIONS[name]!
    const round = DAYS.slice(0, pattern.length)
    const shares = platoonsOf(name).map(
      (_, index) => round.filter((day) => dutyOn(name, index, day) === 'X').length,
    )
    expect(shares).toEqual(offsets.map(() => pattern.length / offsets.length))
  })
})

describe('the rotation 10/14', () => {
  it('has exactly one platoon by day and one by night on each of 400 days', () => {
    const wrong = DAYS.filter((day) => {
      const duties = PLATOONS.map((_, index) => dutyOn('10/14', index, day)).toSorted()
      return duties.join('') !== 'DNOO'
    })
    expect(wrong).toEqual([])
    expect(DAYS.every((day) => onDuty('10/14', PLATOONS, day).length === 2)).toBe(true)
  })
})

describe('the platoon on duty', () => {
  it('follows the order of the platoons: the second begins a day after the first in 24/48', () => {
    const week = DAYS.slice(0, 6).map((day) => onDuty('24/48', ['A', 'B', 'C'], day).join())
    const first = week.indexOf('A')
    expect([0, 1, 2].map((index) => week[first + index])).toEqual(['A', 'B', 'C'])
  })

  it('works two days running in 48/96', () => {
    const row = DAYS.slice(0, 12).map((day) => onDuty('48/96', ['A', 'B', 'C'], day).join())
    expect(row.join('')).toContain('AABBCCAABB')
  })

  it('is the same before the day the patterns count from', () => {
    const days = Array.from({ length: 12 }, (_, index) => addDays('2023-12-26', index))
    const row = days.map((day) => onDuty('24/48', ['A', 'B', 'C'], day).join())
    expect(row.join('')).toContain('ABCABCABC')
  })

  it('leaves out a platoon more than the rotation has, which never works', () => {
    expect(DAYS.flatMap((day) => onDuty('24/48', ['A', 'B', 'C', 'D'], day)).includes('D')).toBe(false)
  })
})

describe('a department’s own calendar', () => {
  const platoons = ['A', 'B', 'C']
  const worked = [
    { platoon: 'A', on: '2026-11-20' },
    { platoon: 'B', on: '2026-11-21' },
    { platoon: 'C', on: '2026-11-22' },
  ]
  it('is read off the tours it has worked, whatever day the pattern is counted from', () => {
    for (const moved of [0, 1, 2]) {
      const tours = worked.map(({ platoon, on }) => ({ platoon, on: addDays(on, moved) }))
      expect(onDuty('24/48', platoons, addDays('2026-11-23', moved), tours)).toEqual(['A'])
      expect(onDuty('24/48', platoons, addDays('2026-11-24', moved), tours)).toEqual(['B'])
    }
  })
  it('is not moved by one tour that another platoon worked', () => {
    const odd = [...worked, { platoon: 'C', on: '2026-11-23' }, { platoon: 'B', on: '2026-11-24' }]
    expect(onDuty('24/48', platoons, '2026-11-25', odd)).toEqual(['C'])
  })
  it('of two days on is told apart once both days have been worked', () => {
    const tours = [
      { platoon: 'B', on: '2026-11-20' },
      { platoon: 'B', on: '2026-11-21' },
      { platoon: 'C', on: '2026-11-22' },
    ]
    expect(onDuty('48/96', platoons, '2026-11-23', tours)).toEqual(['C'])
    expect(onDuty('48/96', platoons, '2026-11-24', tours)).toEqual(['A'])
  })
})

describe('a tour', () => {
  it.each([
    ['24/48', 1],
    ['48/96', 2],
    ['48/144', 2],
    ['nine-day', 1],
    ['10/14', 1],
  ])('of %s lasts as many days as a platoon works running: %d', (name, days) => {
    expect(tourDays(name)).toBe(days)
  })
})

describe('a tour begun now', () => {
  it.each([
    ['05:59', '2026-11-23', true],
    ['06:00', '2026-11-24', false],
    ['07:00', '2026-11-24', false],
    ['15:59', '2026-11-24', false],
    ['16:00', '2026-11-24', true],
    ['23:59', '2026-11-24', true],
  ])('at %s, where tours start at 07:00, is of %s; by night: %s', (clock, on, isNight) => {
    expect(tourAt('07:00', '2026-11-24', clock)).toEqual({ on, isNight })
  })
})

describe.each(ROTATION_NAMES)('whose turn it is in %s', (name) => {
  const platoons = platoonsOf(name)
  const halves = name === '10/14' ? [false, true] : [false]
  const turns = DAYS.slice(0, 60).flatMap((on) => halves.map((isNight) => ({ on, isNight })))

  it('is one platoon on duty that day, and the night is not worked by the day’s', () => {
    for (const { on, isNight } of turns) {
      const turn = turnOn(name, platoons, { on, isNight })!
      expect(dutyOn(name, platoons.indexOf(turn), on)).toBe(name === '10/14' ? (isNight ? 'N' : 'D') : 'X')
    }
  })

  it('after each tour it is the next other platoon that comes on', () => {
    const row = turns.map((each) => ({ ...each, platoon: turnOn(name, platoons, each)! }))
    for (const [index, tour] of row.slice(0, -8).entries()) {
      const next = row.slice(index + 1).find((each) => each.platoon !== tour.platoon)
      expect(turnAfter(name, platoons, tour)).toEqual(next)
    }
  })
})

it('a night begins ten hours after the day, and both at the hour of the station', () => {
  const turn = { platoon: 'A', on: '2026-11-24' }
  expect(turnStarts('07:30', { ...turn, isNight: false })).toBe('07:30')
  expect(turnStarts('07:30', { ...turn, isNight: true })).toBe('17:30')
})

describe('whose turn it is by the tours worked', () => {
  const platoons = ['A', 'B', 'C']
  const turn = (name: string, on: string, worked: { platoon: string; on: string }[]) =>
    turnOn(name, platoons, { on, isNight: false }, worked)
  it('is not known before the first of them, whatever the rotation', () => {
    for (const name of ROTATION_NAMES) expect(turn(name, '2026-11-24', [])).toBeUndefined()
  })
  it('is known after one where a platoon works one day and is off', () => {
    expect(turn('24/48', '2026-11-25', [{ platoon: 'B', on: '2026-11-24' }])).toBe('C')
  })
  it('is not known the day after where it works two and nobody knows which that was', () => {
    const first = { platoon: 'B', on: '2026-11-24' }
    expect(turn('48/96', '2026-11-25', [first])).toBeUndefined()
    expect(turn('48/96', '2026-11-25', [{ platoon: 'A', on: '2026-11-23' }, first])).toBe('B')
    expect(turn('48/96', '2026-11-25', [{ platoon: 'B', on: '2026-11-23' }, first])).toBe('C')
  })
  it('who comes on next is known then, and when is not', () => {
    const first = { platoon: 'B', on: '2026-11-24' }
    const next = (...before: { platoon: string; on: string }[]) =>
      turnAfter('48/96', platoons, first, [...before, first])
    expect(next()).toEqual({ platoon: 'C' })
    expect(next({ platoon: 'B', on: '2026-11-23' })).toMatchObject({ platoon: 'C', on: '2026-11-25' })
    expect(next({ platoon: 'A', on: '2026-11-23' })).toMatchObject({ platoon: 'C', on: '2026-11-26' })
  })
})

it('a rotation that is not known proposes nobody', () => {
  expect(turnOn('ad hoc', PLATOONS, { on: '2026-11-24', isNight: false })).toBeUndefined()
  expect(turnAfter('ad hoc', PLATOONS, { on: '2026-11-24', platoon: 'A' })).toBeUndefined()
})
