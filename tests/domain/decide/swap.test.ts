// Rules for putting a spare in the place of somebody's own element.
import { describe, expect, test } from 'vitest'
import type { State } from '../../../src/domain/state.ts'
import { assigned } from '../../../src/domain/state.ts'
import { crew, held, house, issue, seated, sentAway, swap, tourOpen } from '../alder-hollow.ts'
import { elementIn, given, type Told } from '../given.ts'

const back = (seat: string, kind: 'coat-shell' | 'hood' | 'cylinder' = 'coat-shell'): Told => ({
  do: 'swap-back',
  seat,
  kind,
})
const worn = (state: State, holder = 'M-104') => assigned(state, holder, 'coat-shell')?.id
const tour = '2026-11-24-B'
const coatAt = { seat: 'E6-1', kind: 'coat-shell', holder: 'M-104', tour } as const

describe('swap', () => {
  test('the spare is worn; the element it relieves stays its member’s own', () => {
    const state = given(crew)
      .when({ ...swap('E6-1', 'C-1900', 'C-1041'), reason: 'torn seam' })
      .records('element-swapped', { ...coatAt, in: 'C-1900', out: 'C-1041', reason: 'torn seam' })
    expect(worn(state)).toBe('C-1900')
    expect(elementIn(state, 'C-1900')).toMatchObject({ issuedTo: null, custody: { where: 'issued' } })
    expect(elementIn(state, 'C-1041')).toMatchObject({ issuedTo: 'M-104', custody: { where: 'issued' } })
    expect(state.standIns.get('M-104 coat-shell')).toMatchObject({ element: 'C-1900', own: 'C-1041' })
  })

  test('a cylinder is swapped for the riding position, even while nobody rides there', () => {
    const state = given(house, tourOpen)
      .when(swap('E6-1', 'Y-32', 'Y-31'))
      .records('element-swapped', {
        seat: 'E6-1',
        kind: 'cylinder',
        holder: 'E6-1',
        in: 'Y-32',
        out: 'Y-31',
        tour,
      })
    expect(elementIn(state, 'Y-32').custody).toEqual({ where: 'rig' })
    expect(assigned(state, 'E6-1', 'cylinder')?.id).toBe('Y-32')
  })

  test('along a chain of swaps the member’s own element is kept in mind, and each spare goes back to the rack', () => {
    const state = given(crew, swap('E6-1', 'C-1900', 'C-1041'))
      .when(swap('E6-1', 'C-1901', 'C-1900'))
      .records('element-swapped', { ...coatAt, in: 'C-1901', out: 'C-1900' })
    expect(worn(state)).toBe('C-1901')
    expect(elementIn(state, 'C-1900').custody).toEqual({ where: 'rack' })
    expect(state.standIns.get('M-104 coat-shell')?.own).toBe('C-1041')
  })

  test('a second set is a spare for its own member only, and stays theirs', () => {
    const twice = [...crew, issue('C-1900', 'M-104'), seated('M-105', 'E6-2')]
    const state = given(twice)
      .when(swap('E6-1', 'C-1900', 'C-1041'))
      .records('element-swapped', { ...coatAt, in: 'C-1900', out: 'C-1041' })
    expect(worn(state)).toBe('C-1900')
    given(twice)
      .when(swap('E6-2', 'C-1900'))
      .refuses('Coat shell C-1900 is already in use: it is issued to A. Varga (M-104).')
      .changesNothing()
    const after = given(twice, swap('E6-1', 'C-1900', 'C-1041'))
      .when(back('E6-1'))
      .records('swap-reversed', { ...coatAt, in: 'C-1041', out: 'C-1900' })
    expect(elementIn(after, 'C-1900')).toMatchObject({ issuedTo: 'M-104', custody: { where: 'issued' } })
  })

  test('putting somebody’s own element back in by a swap leaves nothing standing in', () => {
    const state = given(crew, swap('E6-1', 'C-1900', 'C-1041'))
      .when(swap('E6-1', 'C-1041', 'C-1900'))
      .records('element-swapped', { ...coatAt, in: 'C-1041', out: 'C-1900' })
    expect(worn(state)).toBe('C-1041')
    expect(state.standIns.size).toBe(0)
    expect(elementIn(state, 'C-1900').custody).toEqual({ where: 'rack' })
  })

  test('where the element is missing, away or held, what goes out need not be named', () => {
    given(crew, seated('M-105', 'E6-2')).when(swap('E6-2', 'C-1900')).records('element-swapped', {
      seat: 'E6-2',
      kind: 'coat-shell',
      holder: 'M-105',
      in: 'C-1900',
      tour,
    })
    for (const gone of [sentAway('C-1041'), held('C-1041')]) {
      given(crew, gone)
        .when(swap('E6-1', 'C-1900'))
        .records('element-swapped', { ...coatAt, in: 'C-1900', out: 'C-1041' })
    }
  })

  test('a spare sent away while it stood in stays away when another takes its place', () => {
    const state = given(crew, swap('E6-1', 'C-1900', 'C-1041'), sentAway('C-1900'))
      .when(swap('E6-1', 'C-1901'))
      .records('element-swapped', { ...coatAt, in: 'C-1901', out: 'C-1900' })
    expect(elementIn(state, 'C-1900').custody.where).toBe('away')
    expect(state.standIns.get('M-104 coat-shell')?.own).toBe('C-1041')
  })
})
