// The day and the tour by which a station is judged, and that every reason it gives is a sentence with its rule.
import { assert, property, subarray } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assessNow, settingOf } from '../../src/domain/assess.ts'
import { sayVerdict, severity } from '../../src/domain/rules/verdict.ts'
import type { State } from '../../src/domain/state.ts'
import { fitCrew, HOUSE, reads, sendsAway, tags } from './fit-crew.ts'
import { NOW, stateOf, type Told } from './given.ts'
import { POLICY } from './rules/judging.ts'

const LATER = '2026-11-24T09:00:00.000-05:00'
const settingAt = (instant: string) => settingOf(fitCrew(), POLICY, instant)
const seatsAt = (state: State, at: string) => assessNow(state, at).rigs.flatMap((rig) => rig.seats)
const sentencesAt = (state: State, at: string) =>
  seatsAt(state, at).flatMap((seat) => seat.reasons.map(sayVerdict))

/** Nobody can be seated before they are a member. */
function isPossible(steps: Told[]) {
  const does = steps.map((step) => step.do)
  return !does.includes('seat-member') || does.includes('add-member')
}

describe('the setting', () => {
  it('of an open tour runs to the next day, and the reading counts from its opening', () => {
    expect(settingAt(NOW)).toMatchObject({
      today: '2026-11-24',
      until: '2026-11-25',
      isTourOpen: true,
      tourSince: NOW,
    })
  })
  it('past midnight is of the new day, and the tour ends on it', () => {
    expect(settingAt('2026-11-25T02:00:00.000-05:00')).toMatchObject({
      today: '2026-11-25',
      until: '2026-11-25',
    })
  })
  it('of a tour nobody handed over never ends before today', () => {
    expect(settingAt('2026-11-28T07:00:00.000-05:00')).toMatchObject({
      today: '2026-11-28',
      until: '2026-11-28',
    })
  })
  it('of a tour nobody handed over counts its readings through its last day, and then only the day it is', () => {
    const fitAt = (at: string, ...steps: Told[]) =>
      seatsAt(fitCrew(...steps), at)
        .filter((each) => each.fit)
        .map((each) => each.seat.id)
    expect(fitAt('2026-11-25T23:59:59.999-05:00')).toEqual(['E6-1', 'E6-2'])
    expect(fitAt('2026-11-26T00:00:00.000-05:00')).toEqual([])
    const again = '2026-11-26T07:00:00.000-05:00'
    expect(fitAt('2026-11-26T08:00:00.000-05:00', reads('1', 4500, again))).toEqual(['E6-1'])
    expect(sentencesAt(fitCrew(), again)).toContain(
      'Cylinder CY-1: its pressure has not been read today, last 4500 psi.',
    )
  })
  it('without a tour is today alone', () => {
    const setting = settingOf(stateOf(...HOUSE), POLICY, NOW)
    expect(setting).toMatchObject({ today: '2026-11-24', until: '2026-11-24', tourSince: undefined })
  })

  it('after a hand-over still counts no reading from before the tour: it makes nobody fit who was not', () => {
    const opensAgain: Told[] = [
      { do: 'hand-over', to: 'M-105' },
      {
        do: 'open-tour',
        by: 'M-105',
        tour: '2',
        platoon: 'B',
        officer: 'M-105',
        on: '2026-11-24',
        at: LATER,
      },
    ]
    const fitAt = (...steps: Told[]) =>
      seatsAt(fitCrew(...opensAgain, ...steps), LATER)
        .filter((each) => each.fit)
        .map((each) => each.seat.id)
    expect(seatsAt(fitCrew(), NOW).filter((each) => each.fit)).not.toEqual([])
    expect(fitAt()).toEqual([])
    const over: Told = { do: 'hand-over', by: 'M-105', to: 'M-104', at: LATER }
    expect(fitAt(over)).toEqual([])
    expect(fitAt({ ...reads('1', 4500), at: LATER }, over)).toEqual(['E6-1'])
  })

  it('turns at midnight: a limit good on the 1st is past on the 2nd of March, though the tour is the same', () => {
    // Cleaned on 1 September 2026: good through 1 March 2027.
    const state = fitCrew()
    expect(sentencesAt(state, '2027-03-01T23:59:59.999-05:00')).toContain(
      'Hood HO-1: 6 months from advanced cleaning ends on 1 Mar 2027.',
    )
    expect(sentencesAt(state, '2027-03-02T00:00:00.000-05:00')).toContain(
      'Hood HO-1: 6 months from advanced cleaning ended on 1 Mar 2027.',
    )
  })
})

describe('the reasons', () => {
  const wrongs: Told[] = [
    tags('BO-1'),
    sendsAway('HO-1'),
    { do: 'hold', element: 'HE-1', reason: 'injury' },
    { do: 'retire', element: 'CY-1', reason: 'gouged', disposal: 'drilled' },
    reads('2', 900),
    { do: 'record-exposure', exposure: 'other', seats: ['E6-2'] },
    { do: 'record-exposure', exposure: 'water', elements: ['TL-2'] },
    {
      do: 'record-fit-test',
      member: 'M-105',
      facepiece: { model: 'Clear Two', size: 'M' },
      on: NOW.slice(0, 10),
      result: 'fail',
    },
    { do: 'add-member', member: { id: 'M-300', name: 'C. Lindqvist' } },
    { do: 'seat-member', seat: 'E6-3', member: 'M-300' },
  ]

  it('each name a rule and say a whole sentence, worst first, whatever is wrong', () => {
    assert(
      property(subarray(wrongs, { minLength: 1 }).filter(isPossible), (steps) => {
        const seats = assessNow(fitCrew(...steps), NOW).rigs.flatMap((rig) => rig.seats)
        for (const { reasons, state, fit } of seats) {
          const rules = POLICY.rules.map((each) => each.rule.id)
          expect(reasons.every((each) => rules.includes(each.rule) && each.state !== 'ready')).toBe(true)
          expect(reasons.map(sayVerdict).filter((text) => !/^[A-Z].*\.$/.test(text))).toEqual([])
          expect(reasons.map(sayVerdict).filter((text) => / {2}|undefined|NaN|null/.test(text))).toEqual([])
          const weights = reasons.map((each) => severity(each.state))
          expect(weights).toEqual(weights.toSorted((a, b) => a - b))
          expect(state === 'unfilled' || state === (reasons[0]?.state ?? 'ready')).toBe(true)
          expect(fit).toBe(state === 'ready' || state === 'due')
        }
      }),
      { numRuns: 60 },
    )
  })
})
