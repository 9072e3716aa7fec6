// What was known and is not any more: gear that was used or in other hands, and records that come late or by a file.
import { describe, expect, it } from 'vitest'
import { assessNow } from '../../src/domain/assess.ts'
import type { State } from '../../src/domain/state.ts'
import { fitCrew, reads } from './fit-crew.ts'
import type { Told } from './given.ts'

const reasonsOf = (state: State, at: string, seat = 0): string[] =>
  assessNow(state, at).rigs[0]!.seats[seat]!.reasons.map((each) => `${each.state}: ${each.says}`)
const clock = (time: string): string => `2026-11-24T${time}:00.000-05:00`
const EVENING = clock('18:00')
const cleans = (
  element: string,
  care: 'routine-cleaning' | 'advanced-cleaning' | 'function-check',
): Told => ({
  do: 'record-care',
  element,
  care,
  on: '2026-11-24',
  result: 'serviceable',
  at: clock('16:00'),
})

describe('a cylinder read full at the roll call', () => {
  const UNREAD = 'unproven: its pressure has not been read since it was exposed, last 4500 psi'
  const SINCE_BACK =
    'unproven: its pressure has not been read since it came back, last 4500 psi on 24 Nov 2026: read it again'

  it('and breathed from since is not full because it has been cleaned: its gauge is read again', () => {
    const fire: Told = {
      do: 'record-exposure',
      exposure: 'products-of-combustion',
      elements: ['CY-1'],
      at: clock('14:00'),
    }
    const steps: Told[] = [fire, cleans('CY-1', 'routine-cleaning')]
    expect(reasonsOf(fitCrew(steps), EVENING)).toEqual([UNREAD])
    expect(reasonsOf(fitCrew(steps, reads('1', 4500, clock('17:00'))), EVENING)).toEqual([])
  })

  it.each([
    ['hydrostatic-test', []],
    ['repair', ['unproven: no repair on record since it was sent to North Bench for one on 24 Nov 2026']],
  ] as const)('and back from %s since is to be read again', (sort, besides) => {
    const away: Told = {
      do: 'send-away',
      elements: ['CY-1'],
      to: 'North Bench',
      for: sort,
      at: clock('09:00'),
    }
    const steps: Told[] = [away, { do: 'receive-back', elements: ['CY-1'], at: clock('15:00') }]
    expect(reasonsOf(fitCrew(steps), EVENING)).toEqual([...besides, SINCE_BACK])
    expect(reasonsOf(fitCrew(steps, reads('1', 4500, clock('17:00'))), EVENING)).toEqual(besides)
  })

  it('and back by its slip, or from being held, likewise', () => {
    const away: Told = {
      do: 'send-away',
      elements: ['CY-1'],
      to: 'North Bench',
      for: 'hydrostatic-test',
      at: clock('09:00'),
    }
    const slip: Told = { do: 'receive-batch', elements: ['CY-1'], cares: [], at: clock('15:00') }
    const held: Told = { do: 'hold', element: 'CY-1', reason: 'injury', at: clock('09:00') }
    const back: Told = { do: 'receive-back', elements: ['CY-1'], at: clock('15:00') }
    expect(reasonsOf(fitCrew([away, slip]), EVENING)).toEqual([SINCE_BACK])
    expect(reasonsOf(fitCrew([held, back]), EVENING)).toEqual([
      'out-of-service: tagged, back from being held, not looked over since',
      SINCE_BACK,
    ])
  })

  const BACK: Told[] = [
    { do: 'send-away', elements: ['CY-1'], to: 'North Bench', for: 'hydrostatic-test', at: clock('09:00') },
    { do: 'receive-back', elements: ['CY-1'], at: clock('15:00') },
  ]
  it('and back since is neither low nor full by what it read before: it may have been filled or emptied', () => {
    const low = reads('1', 900, clock('08:30'))
    const now =
      'unproven: its pressure has not been read since it came back, last 900 psi on 24 Nov 2026: read it again'
    expect(reasonsOf(fitCrew(low, BACK), EVENING)).toEqual([now])
  })

  it('and back since stays to be read where a reading from before it left is entered late, or the new one withdrawn', () => {
    const late = reads('1', 4400, clock('08:45'))
    const read = fitCrew(BACK, reads('1', 4450, clock('17:00')))
    const withdrawn: Told = { do: 'amend', seq: read.seq, why: 'another cylinder', with: { withdrawn: true } }
    expect(reasonsOf(fitCrew(BACK, late), EVENING)).toEqual([SINCE_BACK.replace('4500', '4400')])
    expect(reasonsOf(read, EVENING)).toEqual([])
    expect(reasonsOf(fitCrew(BACK, reads('1', 4450, clock('17:00')), withdrawn), EVENING)).toEqual([
      SINCE_BACK,
    ])
  })
})

describe('an exposure that is open', () => {
  const smoke = (at: string): Told => ({
    do: 'record-exposure',
    exposure: 'products-of-combustion',
    elements: ['HO-1'],
    at,
  })
  const washed = (on: string): Told => ({
    do: 'record-care',
    element: 'HO-1',
    care: 'advanced-cleaning',
    on,
    result: 'serviceable',
  })
  const OPEN =
    'out-of-service: exposed to products of combustion on 24 Nov 2026, needs advanced cleaning or specialised cleaning'

  it('stays open however many old ones are entered late after it', () => {
    const old = Array.from({ length: 12 }, (_, day) => smoke(`2026-10-${10 + day}T12:00:00.000-05:00`))
    expect(reasonsOf(fitCrew(washed('2026-11-01'), smoke(clock('14:00')), old), EVENING)).toEqual([OPEN])
  })

  const file = (on: string): Told => ({
    do: 'import-records',
    file: 'cares.csv',
    members: [],
    elements: [],
    cares: [{ element: 'HO-1', care: 'advanced-cleaning', on, result: 'serviceable' }],
    fitTests: [],
    changes: [],
    at: clock('17:00'),
  })
  it('is not cleared by a file that gives the same day and no hour', () => {
    expect(reasonsOf(fitCrew(smoke(clock('14:00')), file('2026-11-24')), EVENING)).toEqual([OPEN])
  })
  it('is cleared by a file that gives a later day, and by a care recorded after it on the same day', () => {
    const yesterday = smoke('2026-11-23T14:00:00.000-05:00')
    expect(reasonsOf(fitCrew(yesterday, file('2026-11-24')), EVENING)).toEqual([])
    expect(reasonsOf(fitCrew(smoke(clock('14:00')), cleans('HO-1', 'advanced-cleaning')), EVENING)).toEqual(
      [],
    )
  })
})
