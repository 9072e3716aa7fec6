// Rules for what is entered later than it happened: the books know who and what is where now, not who and what was there then.
import { describe, expect, test } from 'vitest'
import { crew, held, issue, seated, sentAway, swap } from '../alder-hollow.ts'
import { elementIn, given, NOW, type Step, type Told } from '../given.ts'

const at = (clock: string): string => `2026-11-24T${clock}:00.000-05:00`
const on = (clock: string, told: Told): Told => ({ ...told, at: at(clock) })

/** The crew has been seated since six; it is 07:02 now, and the fire was at 06:30. */
const since6 = crew.map((told) => on('06:00', told))
const FIRE = at('06:30')
const expose = (more: object) => ({
  do: 'record-exposure',
  exposure: 'products-of-combustion',
  at: FIRE,
  ...more,
})
const WORN = ['C-1041', 'H-5', 'Y-31']
const exposed = (elements: string[], seats = ['E6-1']) =>
  ({ exposure: 'products-of-combustion', seats, elements }) as const
const UNKNOWN = (clock: string, seat = 'E6-1') =>
  `What rides at ${seat} has changed since then, on 24 Nov 2026 at ${clock}: the books do not say what was there before.`
const NAME = 'Name the elements that were exposed. Nothing was recorded.'

describe('an exposure entered late', () => {
  test('is of all that rides there, if nothing there has changed since', () => {
    given(since6)
      .when(expose({ seats: ['E6-1'] }))
      .records('exposure-recorded', exposed(WORN))
  })

  test.each<[string, Step[]]>([
    ['a spare was swapped in', [swap('E6-1', 'C-1900', 'C-1041')]],
    ['a spare was swapped in for the cylinder of the riding position', [swap('E6-1', 'Y-32', 'Y-31')]],
    ['gear was sent away', [sentAway('H-5')]],
    ['gear was held', [held('H-5')]],
    ['gear was retired', [{ do: 'retire', element: 'H-5', reason: 'burnt', disposal: 'cut up' }]],
    ['gear went back to the rack', [{ do: 'return-to-rack', element: 'H-5' }]],
    ['gear was issued', [issue('C-1900', 'M-104')]],
    ['another rider sat down', [{ do: 'clear-seat', seat: 'E6-1' }, seated('M-105')]],
    ['the rider rose', [{ do: 'clear-seat', seat: 'E6-1' }]],
  ])('is refused by riding position once %s: whose gear it was has to be named', (_, steps) => {
    given(
      since6,
      steps.map((told) => on('06:45', told as Told)),
    )
      .when(expose({ seats: ['E6-1'] }))
      .refuses(`${UNKNOWN('06:45')} ${NAME}`)
      .changesNothing()
  })

  test('is refused where what stood in went back, and where what was away came back', () => {
    const back: Told = { do: 'receive-back', elements: ['H-5'] }
    const reversed: Told = { do: 'swap-back', seat: 'E6-1', kind: 'coat-shell' }
    const swapped = on('06:10', swap('E6-1', 'C-1900', 'C-1041'))
    for (const steps of [
      [swapped, on('06:45', reversed)],
      [on('06:10', sentAway('H-5')), on('06:45', back)],
    ])
      given(since6, steps)
        .when(expose({ seats: ['E6-1'] }))
        .refuses(`${UNKNOWN('06:45')} ${NAME}`)
  })

  test('of the moment of the last change is of what was put there then', () => {
    given(since6, on('06:30', swap('E6-1', 'C-1900', 'C-1041')))
      .when(expose({ seats: ['E6-1'] }))
      .records('exposure-recorded', exposed(['C-1900', 'H-5', 'Y-31']))
  })

  test('asks nothing of what changed at another riding position', () => {
    given(since6, on('06:45', seated('M-105', 'E6-2')))
      .when(expose({ seats: ['E6-1'] }))
      .records('exposure-recorded', exposed(WORN))
  })

  test('is taken of the elements that are named, wherever they are by now', () => {
    const state = given(since6, on('06:45', swap('E6-1', 'C-1900', 'C-1041')))
      .when(expose({ elements: WORN }))
      .records('exposure-recorded', exposed(WORN, []))
    expect(elementIn(state, 'C-1041').exposures).toMatchObject([{ at: FIRE }])
    expect(elementIn(state, 'C-1900').exposures).toEqual([])
  })

  test('counts from the newest change, whichever was entered first', () => {
    given(since6, on('06:45', swap('E6-1', 'C-1900', 'C-1041')), on('06:20', swap('E6-1', 'Y-32', 'Y-31')))
      .when(expose({ seats: ['E6-1'] }))
      .refuses(`${UNKNOWN('06:45')} ${NAME}`)
  })

  test('is no matter of a clock that was set back: what is recorded as it happens is of what rides there now', () => {
    given(since6, { ...swap('E6-1', 'C-1900', 'C-1041'), at: at('07:45') })
      .when(expose({ seats: ['E6-1'], at: NOW }))
      .records('exposure-recorded', exposed(['C-1900', 'H-5', 'Y-31']))
  })
})

test('a roll call entered late looks at nothing that came there since', () => {
  given(since6, on('06:45', swap('E6-1', 'C-1900', 'C-1041')))
    .when({ do: 'answer', seat: 'E6-1', at: FIRE })
    .refuses(`${UNKNOWN('06:45')} Call the roll there as it is now. Nothing was recorded.`)
    .changesNothing()
})
