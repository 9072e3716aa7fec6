// What a roll call and a reading stand for: a routine inspection of what was in hand, and nothing that was not.
import { describe, expect, it } from 'vitest'
import { assessNow } from '../../src/domain/assess.ts'
import type { Event } from '../../src/domain/events.ts'
import type { State } from '../../src/domain/state.ts'
import { airPack, answers, cylinder, fitCrew, HOUSE, reads, tags } from './fit-crew.ts'
import { elementIn, NOW, stateOf, type Steps, type Told } from './given.ts'

const calledIn = (state: State, id: string) => elementIn(state, id).called?.at
const AT = '2026-11-24T07:10:00.000-05:00'
const SOONER = '2026-11-24T06:00:00.000-05:00'
const answered = (...more: Partial<Extract<Told, { do: 'answer' }>>[]): Told => ({
  ...(answers('E6-1') as Extract<Told, { do: 'answer' }>),
  at: AT,
  ...Object.assign({}, ...more),
})

describe('an answer at roll call', () => {
  it('looks at everything that is worn there, the seat’s and the member’s, and at nobody else’s', () => {
    const state = fitCrew(answered())
    const looked = [...state.elements.values()]
      .filter((each) => each.called?.at === AT)
      .map((each) => each.id)
    expect(looked.toSorted()).toEqual(
      ['AP', 'BO', 'CL', 'CS', 'CY', 'DR', 'FP', 'GL', 'HE', 'HO', 'TL', 'TS'].map((each) => `${each}-1`),
    )
  })

  it('passes nothing that it finds something wrong with', () => {
    const finding = { element: 'AP-1', point: 'low-air alarm', matter: 'safety' as const }
    const state = fitCrew(answered({ findings: [finding] }))
    expect(calledIn(state, 'AP-1')).toBe(NOW)
    expect(calledIn(state, 'CY-1')).toBe(AT)
  })

  it('passes nothing that is away', () => {
    const away: Told = { do: 'send-away', elements: ['AP-1'], to: 'North Bench', for: 'flow-test' }
    expect(calledIn(fitCrew(away, answered()), 'AP-1')).toBe(NOW)
  })

  it('recorded late does not undo a later look', () => {
    const state = fitCrew(answered(), answered({ at: NOW }))
    expect(calledIn(state, 'HO-1')).toBe(AT)
  })
})

describe('a reading', () => {
  const house = (...steps: Steps) => stateOf(...HOUSE, ...steps)

  it('looks at the cylinder and at the air pack it is mounted on', () => {
    const state = house(reads('1', 4400, AT))
    expect(['CY-1', 'AP-1', 'CY-2', 'AP-2'].map((id) => calledIn(state, id))).toEqual([
      AT,
      AT,
      undefined,
      undefined,
    ])
  })

  it('of a cylinder on the rack looks at no air pack', () => {
    const state = house(cylinder('9'), airPack('9'), reads('9', 4400, AT))
    expect(['CY-9', 'AP-9', 'AP-1'].map((id) => calledIn(state, id))).toEqual([AT, undefined, undefined])
  })

  it('of a cylinder that was changed for another looks at no air pack, of the one in its place it does', () => {
    const swap: Told = { do: 'swap', seat: 'E6-1', out: 'CY-1', in: 'CY-9' }
    const changed = [...cylinder('9'), swap]
    expect(calledIn(fitCrew(changed, reads('1', 4400, AT)), 'AP-1')).toBe(NOW)
    expect(calledIn(fitCrew(changed, reads('9', 4400, AT)), 'AP-1')).toBe(AT)
  })

  it('looks at no air pack that is away', () => {
    const away: Told = { do: 'send-away', elements: ['AP-1'], to: 'North Bench', for: 'flow-test' }
    const state = house(away, reads('1', 4400, AT))
    expect(['CY-1', 'AP-1'].map((id) => calledIn(state, id))).toEqual([AT, undefined])
  })

  it('keeps the temperature it was read at, where there is one', () => {
    const read = reads('1', 4100, AT) as Extract<Told, { do: 'read-pressure' }>
    const state = house({ ...read, celsius: -5 }, read)
    expect(elementIn(state, 'CY-1').readings.map((each) => each.celsius)).toEqual([-5, undefined])
  })
})

describe('a reading entered late', () => {
  /** As the journal keeps what was recorded later than it happened. */
  const late = (psi: number, at: string): Event =>
    ({
      seq: 0,
      at,
      by: 'M-104',
      type: 'pressure-read',
      data: { element: 'CY-1', psi, recordedAt: '2026-11-24T08:00:00.000-05:00' },
    }) as Event
  const psis = (...steps: Steps) => elementIn(fitCrew(...steps), 'CY-1').readings.map((each) => each.psi)

  it('does not hide a newer low one', () => {
    const low = reads('1', 900, '2026-11-24T07:30:00.000-05:00')
    const state = fitCrew(low, late(4500, '2026-11-24T07:15:00.000-05:00'))
    const seat = assessNow(state, '2026-11-24T08:01:00.000-05:00').rigs[0]!.seats[0]!
    expect(seat.reasons.map((each) => each.says)).toEqual([
      '900 psi is at or below 90% of 4500: change or refill it',
    ])
  })

  it('stands among the others where it was taken', () => {
    expect(psis(reads('1', 900, '2026-11-24T07:30:00.000-05:00'), late(4300, AT))).toEqual([4500, 4300, 900])
    expect(psis(late(4300, SOONER))).toEqual([4300, 4500])
    expect(psis(late(4300, NOW))).toEqual([4500, 4300])
  })

  it('moves no inspection back', () => {
    const state = fitCrew(late(4300, SOONER))
    expect(['CY-1', 'AP-1'].map((id) => calledIn(state, id))).toEqual([NOW, NOW])
  })

  it('is told apart from a clock that was set back, where the journal’s order counts', () => {
    expect(psis(reads('1', 900, SOONER))).toEqual([4500, 900])
  })
})

describe('a reading withdrawn', () => {
  const withdraw = (state: State): Told => ({
    do: 'amend',
    seq: state.seq,
    why: 'another cylinder',
    with: { withdrawn: true },
  })

  it('was no inspection: cylinder and air pack fall back on the one before it', () => {
    const steps = [reads('1', 4400, AT)]
    const state = fitCrew(steps, withdraw(fitCrew(steps)))
    expect(calledIn(state, 'CY-1')).toBe(NOW)
    expect(calledIn(state, 'AP-1')).toBe(NOW)
    expect(calledIn(state, 'CY-2')).toBe(NOW)
  })

  it('that was the only one leaves neither', () => {
    const steps = [...HOUSE, reads('1', 4400, AT)]
    const state = stateOf(steps, withdraw(stateOf(steps)))
    expect(elementIn(state, 'CY-1')).not.toHaveProperty('called')
    expect(elementIn(state, 'AP-1')).not.toHaveProperty('called')
  })

  it('leaves a later roll call standing, and so does one only corrected', () => {
    const steps = [reads('1', 4400, AT)]
    const amend = withdraw(fitCrew(steps))
    const call = answered({ at: '2026-11-24T07:20:00.000-05:00' })
    expect(calledIn(fitCrew(steps, call, amend), 'AP-1')).toBe('2026-11-24T07:20:00.000-05:00')
    const corrected = fitCrew(steps, { ...amend, with: { psi: 4300 } } as Told)
    expect(calledIn(corrected, 'AP-1')).toBe(AT)
  })

  it('is not fallen back on by an answer withdrawn after it', () => {
    const steps = [reads('1', 4400, AT)]
    const reading = withdraw(fitCrew(steps))
    const call = answered({ at: '2026-11-24T07:20:00.000-05:00' })
    const answer = withdraw(fitCrew(steps, call))
    const both = fitCrew(steps, call, reading, answer)
    expect(calledIn(both, 'CY-1')).toBe(NOW)
    expect(elementIn(both, 'AP-1')).not.toHaveProperty('called')
  })
})

describe('the board', () => {
  it('is due for nothing once the roll is called, and due a month later', () => {
    const state = fitCrew(answered(), tags('BO-2'))
    const reasons = (at: string) =>
      assessNow(state, at).rigs[0]!.seats[0]!.reasons.flatMap((each) =>
        each.rule.startsWith('breathing') ? [`${each.state} ${each.says}`] : [],
      )
    expect(reasons('2026-12-24T12:00:00.000-05:00')).toEqual([])
    const due =
      'due 1 month from roll call or reading ended on 24 Dec 2026; call the roll for it, or record a routine inspection'
    expect(reasons('2026-12-25T12:00:00.000-05:00')).toEqual([due, due])
  })
})
