// Rules for to whom gear is issued, and how it goes back to the rack.
import { describe, expect, test } from 'vitest'
import { crew, held, house, issue, retired, seated, sentAway, swap, tourOpen } from '../alder-hollow.ts'
import { elementIn, given, TOMORROW, type Told } from '../given.ts'

describe('issue', () => {
  test('a spare becomes a member’s own, from the day given', () => {
    const state = given(house)
      .when(issue('C-1900', 'M-105'))
      .records('element-issued', { element: 'C-1900', to: 'M-105', on: '2020-06-01' })
    expect(elementIn(state, 'C-1900')).toMatchObject({
      issuedTo: 'M-105',
      issuedOn: '2020-06-01',
      custody: { where: 'issued' },
    })
  })

  test('without a day it is issued today, and a second set comes after the first', () => {
    const state = given(house)
      .when({ do: 'issue', element: 'C-1900', to: 'M-104' })
      .records('element-issued', { element: 'C-1900', to: 'M-104', on: '2026-11-24' })
    expect(state.issued.get('M-104 coat-shell')).toEqual(['C-1041', 'C-1900'])
  })

  test('in use since nobody knows when, it has no first day, and no later issue makes one', () => {
    const state = given(house)
      .when({ do: 'issue', element: 'C-1900', to: 'M-104', on: null })
      .records('element-issued', { element: 'C-1900', to: 'M-104', on: null })
    expect(elementIn(state, 'C-1900')).toMatchObject({ issuedOn: null, issuedBefore: true })
    const again = given(
      house,
      { do: 'issue', element: 'C-1900', to: 'M-104', on: null },
      { do: 'return-to-rack', element: 'C-1900' },
    ).when({ do: 'issue', element: 'C-1900', to: 'M-105' })
    const later = again.records('element-issued', { element: 'C-1900', to: 'M-105', on: '2026-11-24' })
    expect(elementIn(later, 'C-1900').issuedOn).toBeNull()
  })

  test('a cylinder is issued to a riding position and is then on the rig', () => {
    const state = given(house)
      .when(issue('Y-32', 'E6-2'))
      .records('element-issued', { element: 'Y-32', to: 'E6-2', on: '2020-06-01' })
    expect(elementIn(state, 'Y-32').custody).toEqual({ where: 'rig' })
  })

  test('it may be issued in the month it was made, not before', () => {
    given(house)
      .when({ do: 'issue', element: 'C-1900', to: 'M-105', on: '2019-03-01' })
      .records('element-issued', { element: 'C-1900', to: 'M-105', on: '2019-03-01' })
    given(house)
      .when({ do: 'issue', element: 'C-1900', to: 'M-105', on: '2019-02-28' })
      .refuses('Coat shell C-1900 was made in 2019-03: it cannot have been issued on 28 Feb 2019.')
      .changesNothing()
  })

  test.each([
    ['an unknown element', [], issue('C-7', 'M-105'), 'There is no element C-7 in this station.'],
    [
      'a retired element',
      [retired('C-1900')],
      issue('C-1900', 'M-105'),
      'Coat shell C-1900 is retired: nothing more is recorded of it.',
    ],
    [
      'to nobody known',
      [],
      issue('C-1900', 'M-9'),
      'There is no member or riding position M-9 in this station.',
    ],
    [
      'a coat to a riding position',
      [],
      issue('C-1900', 'E6-1'),
      'C-1900: coat shell belongs to a member, not to a riding position.',
    ],
    [
      'a cylinder to a member',
      [],
      issue('Y-32', 'M-105'),
      'Y-32: a cylinder belongs to a riding position, not to a member.',
    ],
    [
      'what somebody has',
      [],
      issue('C-1041', 'M-105'),
      'Coat shell C-1041 is issued to A. Varga (M-104). Return it to the rack first.',
    ],
    [
      'what is away',
      [sentAway('C-1900')],
      issue('C-1900', 'M-105'),
      'Coat shell C-1900 is away at North Wash for advanced cleaning.',
    ],
    [
      'what is held',
      [held('C-1900')],
      issue('C-1900', 'M-105'),
      'Coat shell C-1900 is held as evidence: injury on 22 Nov.',
    ],
    [
      'a spare that stands in',
      [tourOpen, seated(), swap('E6-1', 'C-1900', 'C-1041')],
      issue('C-1900', 'M-105'),
      'Coat shell C-1900 stands in at E6-1. Swap it back first.',
    ],
    [
      'tomorrow',
      [],
      { do: 'issue', element: 'C-1900', to: 'M-105', on: TOMORROW } as Told,
      '25 Nov 2026 is still to come.',
    ],
  ])('issuing is refused: %s', (_title, more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })
})

const back = (element: string): Told => ({ do: 'return-to-rack', element })

describe('return-to-rack', () => {
  test('an element goes back to the rack and is nobody’s own', () => {
    const state = given(house).when(back('C-1041')).records('element-returned', { element: 'C-1041' })
    expect(elementIn(state, 'C-1041')).toMatchObject({ issuedTo: null, custody: { where: 'rack' } })
    expect(state.issued.has('M-104 coat-shell')).toBe(false)
    expect(elementIn(state, 'C-1041').issuedOn).toBe('2020-06-01')
  })

  test('what is away stays away and comes back to the rack', () => {
    const state = given(house, sentAway('C-1041'))
      .when(back('C-1041'))
      .records('element-returned', { element: 'C-1041' })
    expect(elementIn(state, 'C-1041')).toMatchObject({ issuedTo: null, custody: { where: 'away' } })
  })

  test('a spare that stands in for nobody’s own goes back to the rack', () => {
    const state = given(crew, swap('E6-1', 'C-1900', 'C-1041'), retired('C-1041'))
      .when(back('C-1900'))
      .records('element-returned', { element: 'C-1900' })
    expect(elementIn(state, 'C-1900').custody).toEqual({ where: 'rack' })
    expect(state.standIns.size).toBe(0)
  })

  test('a spare whose wearer has left the riding position goes back to the rack', () => {
    const state = given(crew, swap('E6-1', 'C-1900', 'C-1041'), { do: 'clear-seat', seat: 'E6-1' })
      .when(back('C-1900'))
      .records('element-returned', { element: 'C-1900' })
    expect(state.standIns.size).toBe(0)
    expect(elementIn(state, 'C-1041').issuedTo).toBe('M-104')
  })

  test.each([
    [[], back('C-7'), 'There is no element C-7 in this station.'],
    [[retired('C-1900')], back('C-1900'), 'Coat shell C-1900 is retired: nothing more is recorded of it.'],
    [[], back('C-1900'), 'Coat shell C-1900 is not issued to anybody.'],
    [
      [swap('E6-1', 'C-1900', 'C-1041')],
      back('C-1900'),
      'Coat shell C-1900 stands in at E6-1. Swap it back instead.',
    ],
    [[swap('E6-1', 'Y-32', 'Y-31')], back('Y-32'), 'Cylinder Y-32 stands in at E6-1. Swap it back instead.'],
  ])('returning is refused: %#', (more, command, words) => {
    given(crew, more).when(command).refuses(words).changesNothing()
  })
})
