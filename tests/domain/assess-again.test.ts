// Judging again only what an event touched or a day passed comes out the same as judging all, after every event.
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assess, assessNow, settingOf, type Assessment } from '../../src/domain/assess.ts'
import { arrange } from '../../src/domain/board.ts'
import { EVENT_TYPES, type Event } from '../../src/domain/events.ts'
import { evolve, replay } from '../../src/domain/evolve.ts'
import { policyOf } from '../../src/domain/policy/in-force.ts'
import { changedSeats } from '../../src/domain/roll-call.ts'
import { conditionOf, judgeElement } from '../../src/domain/rules/judge.ts'
import { worstOf } from '../../src/domain/rules/verdict.ts'
import { emptyState, type State } from '../../src/domain/state.ts'
import type { Instant } from '../../src/domain/time.ts'
import { evidenceOf } from '../../src/exports/evidence.ts'
import { pack } from '../../src/store/packed-state.ts'
import { unpacked } from '../unpacked.ts'
import { anyActs, anyLikely, anyTour, journalAfter, RUNS } from './any-commands.ts'
import { fitCrew } from './fit-crew.ts'
import { NOW } from './given.ts'

/** Why a place is ready is worked out when it is asked for, so it is asked for here. */
const told = (assessment: Assessment) => ({
  ...assessment,
  rigs: assessment.rigs.map((rig) => ({
    ...rig,
    seats: rig.seats.map((seat) => ({
      ...seat,
      places: seat.places.map((place) => ({ ...place, verdicts: place.verdicts })),
    })),
  })),
})
const seatsOf = (assessment: Assessment | undefined) => assessment?.rigs.flatMap((rig) => rig.seats) ?? []
/** Nothing of what was judged before can be taken over from records that are all new. */
const anew = (state: State): State => unpacked(pack(state))!

/** The tour's own day, past midnight, its end, and days on which limits fall. */
const TIMES: Instant[] = [
  NOW,
  '2026-11-24T23:59:59.999-05:00',
  '2026-11-25T00:00:00.000-05:00',
  '2026-11-25T07:00:00.000-05:00',
  '2026-11-26T08:00:00.000-05:00',
  '2027-05-20T08:00:00.000-05:00',
  '2037-01-01T08:00:00.000-05:00',
]
const times = fc.infiniteStream(fc.constantFrom(NOW, NOW, NOW, ...TIMES))

/** What the store records by itself; at the end, for corrections name events by their number. */
const BY_THE_STORE = [
  { by: 'setup', type: 'key-made', data: { key: 'k', replaces: null, vouched: null, why: 'first' } },
  { by: 'M-104', type: 'pin-refused', data: { member: 'M-104', for: 'hand-over', tries: 1 } },
  { by: 'setup', type: 'journal-recovered', data: { file: 'aside', bytes: 7 } },
] as const
const withTheStores = (events: Event[]): Event[] => [
  ...events,
  ...BY_THE_STORE.map((each, at) => ({ seq: events.length + 1 + at, at: NOW, ...each }) as Event),
]

/** With a start from what was kept before every fifth event or so, and the evidence of a tour as somebody reads it who was there all along. */
function follow(commands: Parameters<typeof journalAfter>[0], at: Iterator<Instant>) {
  const counted = { kept: 0, judged: 0, types: new Set<string>() }
  let state = emptyState()
  let neverLeft = state
  let before: Assessment | undefined
  for (const event of withTheStores(journalAfter(commands))) {
    counted.types.add(event.type)
    const isStart = (event.seq * 7) % 5 === 0 && state.station !== null
    if (isStart) [state, before] = [anew(state), undefined]
    state = evolve(state, event)
    neverLeft = evolve(neverLeft, event)
    const now = at.next().value as Instant
    const again = assessNow(state, now, before)
    const whole = assess(anew(state), policyOf(state), now)
    expect(told(again)).toEqual(told(whole))
    expect(arrange(again, state)).toEqual(arrange(whole, state))
    expect(evidenceOf(state)).toEqual(evidenceOf(neverLeft))
    expect(changedSeats(state)).toEqual(changedSeats(neverLeft))
    const known = new Set(seatsOf(before))
    for (const seat of seatsOf(again)) counted[known.has(seat) ? 'kept' : 'judged']++
    before = again
  }
  return counted
}

describe('a condition found without words', () => {
  it('is what the verdicts come to, and is called plain only where nobody has more to say', () => {
    const counted = { plain: 0, other: 0 }
    fc.assert(
      fc.property(anyTour, anyActs, times, (commands, acts, at) => {
        for (const each of [commands, acts]) {
          const state = replay(emptyState(), journalAfter(each))
          const policy = policyOf(state)
          const now = at.next().value as Instant
          const setting = settingOf(state, policy, now)
          for (const element of state.elements.values())
            expect(conditionOf(element, setting)).toBe(worstOf(judgeElement(element, setting)))
          for (const place of seatsOf(assess(state, policy, now)).flatMap((seat) => seat.places)) {
            expect(place.state).toBe(worstOf(place.verdicts))
            const isSilent = place.verdicts.every(({ state, loosened }) => state === 'ready' && !loosened)
            expect(isSilent || !place.isPlain).toBe(true)
            counted[place.isPlain ? 'plain' : 'other']++
          }
        }
      }),
      { ...RUNS, numRuns: 100 },
    )
    expect(Math.min(counted.plain, counted.other)).toBeGreaterThan(50)
  })
})

describe('an assessment made with the one before it', () => {
  it('equals the whole one after every event of any tour, whatever the hour it is looked at', () => {
    const all = { kept: 0, judged: 0, types: new Set<string>() }
    fc.assert(
      fc.property(anyTour, anyActs, anyLikely, times, (commands, acts, likely, at) => {
        for (const each of [commands, acts, likely]) {
          const counted = follow(each, at)
          all.kept += counted.kept
          all.judged += counted.judged
          counted.types.forEach((type) => all.types.add(type))
        }
      }),
      { ...RUNS, numRuns: 25 },
    )
    expect([...all.types].toSorted()).toEqual(EVENT_TYPES.toSorted())
    // Otherwise this would compare nothing with nothing.
    expect(Math.min(all.kept, all.judged)).toBeGreaterThan(100)
  })

  it('judges nothing again while only minutes pass, and everything at midnight', () => {
    const state = fitCrew()
    const before = assessNow(state, '2026-11-24T08:00:00.000-05:00')
    const later = assessNow(state, '2026-11-24T23:59:59.999-05:00', before)
    expect(seatsOf(later).every((seat, at) => seat === seatsOf(before)[at])).toBe(true)
    const midnight = assessNow(state, '2026-11-25T00:00:00.000-05:00', later)
    expect(seatsOf(midnight).some((seat) => seatsOf(later).includes(seat))).toBe(false)
  })

  it('judges again the riding position whose element was tagged, and no other', () => {
    const state = fitCrew()
    const before = assessNow(state, NOW)
    const worn = seatsOf(before).find((seat) => seat.places.some((place) => place.element))!
    const element = worn.places.find((place) => place.element)!.element!.id
    const tagged = evolve(state, {
      seq: state.seq + 1,
      at: NOW,
      by: 'M-104',
      type: 'element-tagged',
      data: { element, reason: 'torn', matter: 'safety' },
    })
    const after = assessNow(tagged, NOW, before)
    const changed = seatsOf(after).filter((seat) => !seatsOf(before).includes(seat))
    expect(changed.map((each) => each.seat.id)).toEqual([worn.seat.id])
  })
})
