// Rules for going back from a spare to one's own element.
import { describe, expect, test } from 'vitest'
import type { State } from '../../../src/domain/state.ts'
import { assigned } from '../../../src/domain/state.ts'
import {
  coat,
  crew,
  cylinder,
  held,
  hood,
  issue,
  retired,
  seated,
  sentAway,
  swap,
  tagged,
} from '../alder-hollow.ts'
import { elementIn, given, type Told } from '../given.ts'

const back = (seat: string, kind: 'coat-shell' | 'hood' | 'cylinder' = 'coat-shell'): Told => ({
  do: 'swap-back',
  seat,
  kind,
})
const received = (element: string): Told => ({ do: 'receive-back', elements: [element] })
const worn = (state: State, holder = 'M-104') => assigned(state, holder, 'coat-shell')?.id
const tour = '2026-11-24-B'
const coatAt = { seat: 'E6-1', kind: 'coat-shell', holder: 'M-104', tour } as const

describe('swap-back', () => {
  test('the member’s own element is worn again and the spare is on the rack', () => {
    const state = given(crew, swap('E6-1', 'C-1900', 'C-1041'), swap('E6-1', 'C-1901', 'C-1900'))
      .when(back('E6-1'))
      .records('swap-reversed', { ...coatAt, in: 'C-1041', out: 'C-1901' })
    expect(worn(state)).toBe('C-1041')
    expect(elementIn(state, 'C-1901').custody).toEqual({ where: 'rack' })
    expect(state.standIns.size).toBe(0)
  })

  test('a member who has moved swaps back where they ride now', () => {
    given(crew, swap('E6-1', 'C-1900', 'C-1041'), { do: 'clear-seat', seat: 'E6-1' }, seated('M-104', 'E6-3'))
      .when(back('E6-3'))
      .records('swap-reversed', { ...coatAt, seat: 'E6-3', in: 'C-1041', out: 'C-1900' })
  })

  test('when their own was retired, they go back to what was issued in its place', () => {
    const state = given(crew, swap('E6-1', 'C-1900', 'C-1041'), retired('C-1041'), issue('C-1901', 'M-104'))
      .when(back('E6-1'))
      .records('swap-reversed', { ...coatAt, in: 'C-1901', out: 'C-1900' })
    expect(worn(state)).toBe('C-1901')
    expect(elementIn(state, 'C-1900').custody).toEqual({ where: 'rack' })
  })

  test('when their own was retired while their second set stood in, the second set is their own', () => {
    const { state } = given(
      crew,
      issue('C-1900', 'M-104'),
      swap('E6-1', 'C-1900', 'C-1041'),
      retired('C-1041'),
    )
    expect(worn(state)).toBe('C-1900')
    expect(state.standIns.size).toBe(0)
  })

  const swapped = swap('E6-1', 'C-1900', 'C-1041')
  test.each([
    [
      'an unknown riding position',
      [swapped],
      back('E6-9'),
      'There is no riding position E6-9 in this station.',
    ],
    [
      'no tour',
      [swapped, { do: 'hand-over', to: 'M-207' } as Told],
      back('E6-1'),
      'No tour is open. Open the tour first.',
    ],
    ['nothing stands in', [], back('E6-1'), 'No spare coat shell stands in at E6-1.'],
    ['nobody rides there', [swapped], back('E6-2'), 'No spare coat shell stands in at E6-2.'],
    [
      'no own element',
      [seated('M-105', 'E6-2'), swap('E6-2', 'C-1900')],
      back('E6-2'),
      'B. Okoro (M-105) has no coat shell of their own to go back to.',
    ],
    [
      'a riding position without its own',
      [swap('E6-2', 'Y-32')],
      back('E6-2', 'cylinder'),
      'E6-2 has no cylinder of their own to go back to.',
    ],
    [
      'their own is away',
      [swapped, sentAway('C-1041')],
      back('E6-1'),
      'Coat shell C-1041 is away at North Wash for advanced cleaning. Receive it back first.',
    ],
    [
      'their own is held',
      [swapped, held('C-1041')],
      back('E6-1'),
      'Coat shell C-1041 is held as evidence: injury on 22 Nov. Receive it back first.',
    ],
    [
      'their own is tagged',
      [swapped, tagged('C-1041')],
      back('E6-1'),
      'Coat shell C-1041 is still out of service: torn seam. Lift its tag first.',
    ],
  ])('swapping back is refused: %s', (_title, more, command, words) => {
    given(crew, more).when(command).refuses(words).changesNothing()
  })

  test('sent out, cleaned, received and swapped back: everything is where it began', () => {
    const start = given(crew).state
    const { state } = given(crew, swapped, sentAway('C-1041'), received('C-1041'), back('E6-1'))
    expect(worn(state)).toBe('C-1041')
    expect(elementIn(state, 'C-1041')).toEqual(elementIn(start, 'C-1041'))
    expect(elementIn(state, 'C-1900').custody).toEqual(elementIn(start, 'C-1900').custody)
  })

  test('a place that never had an element of its own can be emptied again', () => {
    const bare = [coat('C-1'), hood('H-1'), cylinder('Y-1'), seated('M-105', 'E6-2'), swap('E6-2', 'C-1')]
    const state = given(crew, bare)
      .when({ do: 'return-to-rack', element: 'C-1' })
      .records('element-returned', { element: 'C-1' })
    expect(worn(state, 'M-105')).toBeUndefined()
    expect(elementIn(state, 'C-1').custody).toEqual({ where: 'rack' })
  })
})
