// PINs: who sets, gives, forgets and clears one, and what a wrong one costs.
import { describe, expect, it, test } from 'vitest'
import type { Dated } from '../../../src/domain/commands.ts'
import { decide } from '../../../src/domain/decide.ts'
import type { Event } from '../../../src/domain/events.ts'
import { evolve } from '../../../src/domain/evolve.ts'
import { pinsAsked, pinWait, waitAfter, type Proof } from '../../../src/domain/pin.ts'
import type { State } from '../../../src/domain/state.ts'
import { isPin, keepPin, proofOf } from '../../../src/session/pin.ts'
import { house } from '../alder-hollow.ts'
import { given, memberIn, NOW, submit, type Told } from '../given.ts'

const CHEAP = { n: 16, r: 1, p: 1 }
const setPin = { do: 'set-pin', pin: '4711' } as const
const opened: Told = { do: 'open-tour', tour: 'T-1', platoon: 'B', officer: 'M-104', on: '2026-11-24' }
const handsOver = { do: 'hand-over', to: 'M-207' } as const
const needs = 'A. Varga (M-104) has a PIN, and this asks for it: give it in "pin". Nothing was recorded.'

describe('set-pin', () => {
  it('keeps what scrypt makes of it, and the PIN itself nowhere', () => {
    const { state } = given(house, setPin)
    const { pin } = memberIn(state, 'M-104')
    expect(pin).toMatchObject({ scheme: 'scrypt', n: 16, r: 1, p: 1 })
    expect(isPin('4711', pin!)).toBe(true)
    expect(isPin('4712', pin!)).toBe(false)
    expect(JSON.stringify([...state.members])).not.toContain('4711')
    // Twice the same PIN is kept in two ways: nobody sees who has the same one.
    expect(keepPin('4711', CHEAP).hash).not.toBe(keepPin('4711', CHEAP).hash)
  })

  it('is recorded for whoever gives it', () => {
    const kept = keepPin('4711', CHEAP)
    const proof: Proof = { pins: {}, now: NOW, made: kept }
    const decision = decide({ do: 'set-pin', by: 'M-104', at: NOW, proof }, given(house).state)
    expect(decision).toEqual({ draft: { type: 'pin-set', data: { member: 'M-104', pin: kept } } })
    const after = given(house, setPin).when({ ...setPin, pin: '0815', old: '4711' })
    after.records('pin-set', { member: 'M-104', pin: expect.any(Object) as never, byPin: true })
  })

  it('in place of another needs the old one', () => {
    given(house, setPin)
      .when({ ...setPin, pin: '0815' })
      .refuses('A. Varga (M-104) has a PIN, and this asks for it: give it in "old". Nothing was recorded.')
      .changesNothing()
  })

  it.each(['123', '1234567890123', 'abcd', '12 34', '', '１２３４'])('takes no %j', (pin) => {
    given(house)
      .when({ do: 'set-pin', pin })
      .refuses('set-pin: pin must be 4 to 12 digits. Nothing was recorded.')
      .changesNothing()
  })
})

describe('clear-pin', () => {
  const clears = { do: 'clear-pin', by: 'M-207', member: 'M-104', why: 'forgotten' } as const

  it('is for somebody else, who says why; both stay in the log', () => {
    const after = given(house, setPin)
      .when(clears)
      .records('pin-cleared', { member: 'M-104', why: 'forgotten' })
    expect(memberIn(after, 'M-104').pin).toBeUndefined()
  })

  it('is refused to the member, where there is none, and to one without a PIN where another has one', () => {
    given(house, setPin)
      .when({ ...clears, by: 'M-104', pin: '4711' })
      .refuses('Another member has to clear a forgotten PIN. Who knows theirs sets a new one.')
      .changesNothing()
    given(house).when(clears).refuses('A. Varga (M-104) has no PIN.').changesNothing()
    given(house)
      .when({ ...clears, member: 'M-9' })
      .refuses('There is no member M-9 in this station.')
    given(house, setPin, { ...setPin, by: 'M-105' })
      .when(clears)
      .refuses('Somebody who has a PIN has to clear that of A. Varga (M-104).')
      .changesNothing()
    given(house, setPin, { ...setPin, by: 'M-207' })
      .when({ ...clears, pin: '4711' })
      .records('pin-cleared', { member: 'M-104', why: 'forgotten', byPin: true })
  })
})

describe('a member who has a PIN', () => {
  const withPin = given(house, setPin, opened)

  it('is asked for it by hand-over, by the adoption of a policy and where PINs are changed, and by nothing else', () => {
    withPin.when(handsOver).refuses(needs).changesNothing()
    const overlay = { name: 'ours', changes: [], add: [] }
    withPin.when({ do: 'adopt-policy', overlay }).refuses(needs)
    withPin
      .when({ do: 'note', text: 'hydrant 12 frozen' })
      .records('note-made', { text: 'hydrant 12 frozen' })
    const { state } = withPin
    const asked = (command: Parameters<typeof pinsAsked>[1]) =>
      pinsAsked(state, command).map(({ field, member }) => [field, member.id])
    expect(asked({ ...handsOver, by: 'M-104' })).toEqual([['pin', 'M-104']])
    expect(asked({ do: 'tag', by: 'M-104' })).toEqual([])
    expect(asked({ ...handsOver, by: 'M-207' })).toEqual([])
  })

  it('hands over with it, and the event says so and not which', () => {
    const after = withPin
      .when({ ...handsOver, pin: '4711' })
      .records('tour-handed-over', { tour: 'T-1', from: 'M-104', to: 'M-207', byPin: true })
    expect(after.tour).toBeNull()
  })

  it('who has none is not asked, whatever they give', () => {
    given(house, opened)
      .when({ ...handsOver, pin: '0000' })
      .records('tour-handed-over', { tour: 'T-1', from: 'M-104', to: 'M-207' })
  })

  it('is not asked, and no PIN is tried, for what is refused anyway', () => {
    given(house, setPin)
      .when({ ...handsOver, pin: '0000' })
      .refuses('No tour is open, so there is none to hand over.')
  })
})

describe('a tour whose officer has a PIN', () => {
  const officerHas = [house, setPin, opened]
  const bothHave = [house, setPin, { ...setPin, by: 'M-105', pin: '2222' }, opened]
  const another = { ...handsOver, by: 'M-105' } as const

  it('is not closed under another name without a PIN; who can instead, and the way out, are said', () => {
    given(...officerHas)
      .when(another)
      .refuses(
        'A. Varga (M-104) has a PIN, so they hand this tour over. Nobody else has one. If they cannot come, "bayboard pin clear M-104" clears it, and the log shows that. Nothing was recorded.',
      )
      .changesNothing()
    given(...bothHave)
      .when({ ...handsOver, by: 'M-207' })
      .refuses(
        'A. Varga (M-104) has a PIN, so they hand this tour over. In their place somebody else who has one can: B. Okoro (M-105). Nothing was recorded.',
      )
      .changesNothing()
  })

  it('is closed for an officer who is ill by somebody else with a PIN of their own, and the log says who signed', () => {
    given(...bothHave)
      .when(another)
      .refuses('B. Okoro (M-105) has a PIN, and this asks for it: give it in "pin". Nothing was recorded.')
      .changesNothing()
    given(...bothHave)
      .when({ ...another, pin: '2222' })
      .records('tour-handed-over', { tour: 'T-1', from: 'M-104', to: 'M-207', byPin: true })
  })

  it('where nobody else has one is closed once the PIN was cleared, with the reason in the log', () => {
    const clears = { do: 'clear-pin', by: 'M-105', member: 'M-104', why: 'taken ill' } as const
    given(house, setPin, opened, clears)
      .when(another)
      .records('tour-handed-over', { tour: 'T-1', from: 'M-104', to: 'M-207' })
  })

  it('lets nobody make up a first PIN for somebody else: the officer gives theirs for it', () => {
    const first = { ...setPin, by: 'M-105', pin: '2222' } as const
    given(...officerHas)
      .when(first)
      .refuses(
        'A. Varga (M-104) has a PIN, and this asks for it: give it in "officerPin". Nothing was recorded.',
      )
      .changesNothing()
    given(...officerHas)
      .when({ ...first, officerPin: '4711' })
      .records('pin-set', { member: 'M-105', pin: expect.any(Object) as never, witness: 'M-104' })
  })
})

describe('an incoming officer who has a PIN', () => {
  const withBoth = [house, setPin, { ...setPin, by: 'M-207', pin: '3333' }, opened]
  const readBack = { ...handsOver, readBack: true, pin: '4711' } as const

  it('gives it for having read back what is open', () => {
    given(...withBoth)
      .when(readBack)
      .refuses(
        'C. Lindqvist (M-207) has a PIN, and this asks for it: give it in "readBackPin". Nothing was recorded.',
      )
      .changesNothing()
    given(...withBoth)
      .when({ ...readBack, readBackPin: '3333' })
      .records('tour-handed-over', {
        tour: 'T-1',
        from: 'M-104',
        to: 'M-207',
        readBack: true,
        byPin: true,
        readBackByPin: true,
      })
  })

  it('is not asked where nobody says that they read it back, and the log does not say so either', () => {
    given(...withBoth)
      .when({ ...handsOver, pin: '4711' })
      .records('tour-handed-over', { tour: 'T-1', from: 'M-104', to: 'M-207', byPin: true })
  })

  it('gives a wrong one: it is logged as theirs, they wait, and the other PIN is not tried', () => {
    const outcome = submit(given(...withBoth).state, { ...readBack, pin: '0000', readBackPin: '0000' })
    expect(outcome).toEqual({
      refused:
        'That is not the PIN of C. Lindqvist (M-207). The log says that it was tried; the next try is possible in 1 s.',
      noted: { type: 'pin-refused', data: { member: 'M-207', for: 'hand-over', tries: 1 } },
    })
  })

  it('who takes over their own tour gives it once', () => {
    given(...withBoth)
      .when({ ...readBack, to: 'M-104' })
      .records('tour-handed-over', { tour: 'T-1', from: 'M-104', to: 'M-104', readBack: true, byPin: true })
  })
})

describe('a policy', () => {
  const adopts = { do: 'adopt-policy', overlay: { name: 'ours', changes: [], add: [] } } as const
  it('is adopted by one who has a PIN, once anybody has one', () => {
    given(house, setPin)
      .when({ ...adopts, by: 'M-105' })
      .refuses('The overlay was not adopted. Somebody who has a PIN has to adopt a policy: A. Varga (M-104).')
      .changesNothing()
    given(house)
      .when({ ...adopts, by: 'M-105' })
      .records('policy-adopted', { overlay: adopts.overlay } as never)
  })
})

/** What the session does with one PIN at one moment. */
function gives(state: State, pin: string | undefined, now: string) {
  const command = { ...handsOver, by: 'M-104', ...(pin !== undefined && { pin }) }
  const proof = proofOf(command, state, now, CHEAP)!
  const decision = decide({ do: 'hand-over', to: 'M-207', by: 'M-104', at: now, proof } as Dated, state)
  const { draft } = decision
  const event = draft && ({ ...draft, seq: state.seq + 1, at: now, by: 'M-104' } as Event)
  return {
    said: 'refused' in decision ? decision.refused : 'done',
    after: event ? evolve(state, event) : state,
    draft,
  }
}
const at = (seconds: number): string => new Date(Date.parse(NOW) + seconds * 1000).toISOString()

describe('a wrong PIN', () => {
  const { state } = given(house, setPin, opened)

  it('is refused and recorded, without the PIN', () => {
    const { said, draft } = gives(state, '0000', at(0))
    expect(said).toBe(
      'That is not the PIN of A. Varga (M-104). The log says that it was tried; the next try is possible in 1 s.',
    )
    expect(draft).toEqual({ type: 'pin-refused', data: { member: 'M-104', for: 'hand-over', tries: 1 } })
  })

  test.each([
    [0, 0],
    [1, 1],
    [2, 2],
    [3, 4],
    [9, 256],
    [10, 300],
    [60, 300],
    [5000, 300],
  ])('after %i of them the wait is %i seconds', (wrong, seconds) => expect(waitAfter(wrong)).toBe(seconds))

  it('holds off even the right one until the wait is over, on both sides of its end, and nothing more is recorded meanwhile', () => {
    let now = state
    for (const [second, tries] of [
      [0, 1],
      [1, 2],
      [3, 3],
    ] as const) {
      const { after, draft } = gives(now, '0000', at(second))
      expect(draft?.data).toMatchObject({ tries })
      now = after
    }
    const early = gives(now, '4711', at(6.999))
    expect(early).toMatchObject({ draft: undefined, after: now })
    expect(early.said).toBe(
      'The last PIN given for A. Varga (M-104) was wrong. Try again in 1 second. Nothing was recorded.',
    )
    const { said, after } = gives(now, '4711', at(7))
    expect(said).toBe('done')
    expect(memberIn(after, 'M-104').pinTries).toBeUndefined()
  })

  it('is counted on over a clock that was set back, and locks nobody out for longer than twice the longest wait', () => {
    const { after } = gives(state, '0000', at(0))
    expect(pinWait(memberIn(after, 'M-104'), at(-30))).toBe(31)
    expect(pinWait(memberIn(after, 'M-104'), at(-599))).toBe(600)
    expect(pinWait(memberIn(after, 'M-104'), at(-3_600 * 24 * 3650))).toBe(0)
  })
})

describe('what is kept of a PIN', () => {
  const kept = keepPin('4711', CHEAP)
  test.each([
    ['a cost that would fill the memory', { n: 2 ** 30 }],
    ['a cost that scrypt does not know', { n: 17 }],
    ['no cost', { n: 0 }],
    ['another scheme', { scheme: 'plain' as never }],
    ['a short hash', { hash: kept.hash.slice(0, 8) }],
    ['an empty hash', { hash: '' }],
    ['another salt', { salt: 'AAAA' }],
  ])('with %s fits no PIN', (_, change) => expect(isPin('4711', { ...kept, ...change })).toBe(false))

  // RFC 7914, section 12: the first test vector, of which the first 32 bytes are asked for here.
  it('is scrypt as RFC 7914 has it', () => {
    const hash = Buffer.from('77d6576238657b203b19ca42c18a0497f16b4844e3074ae8dfdffa3fede21442', 'hex')
    const vector = { scheme: 'scrypt', n: 16, r: 1, p: 1, salt: '', hash: hash.toString('base64') } as const
    expect(isPin('', vector)).toBe(true)
    expect(isPin(' ', vector)).toBe(false)
  })
})
