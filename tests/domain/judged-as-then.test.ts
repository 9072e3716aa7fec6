// That the past is judged as it was known and ruled then: what comes later in the journal bears on no part of it before.
import { assert, constantFrom, integer, property, shuffledSubarray } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assessNow, type Assessment } from '../../src/domain/assess.ts'
import type { Event } from '../../src/domain/events.ts'
import { replay } from '../../src/domain/evolve.ts'
import { sayVerdict } from '../../src/domain/rules/verdict.ts'
import { emptyState, type State } from '../../src/domain/state.ts'
import { asKept, caresOf, type CareFacts } from './any-history.ts'
import { FIT, fitCrew, reads, tags } from './fit-crew.ts'
import { elementIn, journalOf, NOW, type Told } from './given.ts'
import { overlay } from './overlay.ts'

const LATER = '2027-03-02T08:00:00.000-05:00'
const says = ({ rigs }: Assessment) =>
  rigs.flatMap((rig) =>
    rig.seats.map((seat) => [seat.seat.id, seat.state, rig.canRide, seat.reasons.map(sayVerdict)]),
  )
const judge = (events: readonly Event[], at: string) => says(assessNow(replay(emptyState(), events), at))

describe('a policy adopted later', () => {
  const OVERLAYS = [
    overlay({ id: 'advanced-cleaning-interval', limit: 'P9M' }),
    overlay({ id: 'advanced-cleaning-interval', limit: 'P1M' }),
    overlay({ id: 'tagged-out', off: true }),
    overlay({ id: 'cylinder-pressure', off: true }, { id: 'fit-test', limit: 'P1D' }),
  ]
  const adopts = OVERLAYS.map((laid): Told => ({ do: 'adopt-policy', overlay: laid }))

  it('changes nothing that any earlier part of the journal says', () => {
    const before = journalOf(...FIT, tags('BO-1'), reads('2', 900))
    for (const adopt of adopts) {
      const whole = journalOf(...FIT, tags('BO-1'), reads('2', 900), adopt)
      expect(whole.slice(0, -1)).toEqual(before)
      for (const at of [NOW, LATER]) {
        const then = judge(before, at)
        expect(judge(whole.slice(0, before.length), at)).toEqual(then)
        // It does change what the whole of it says, on one of the two days.
        if (at === LATER)
          expect([judge(whole, NOW), judge(whole, at)]).not.toEqual([judge(before, NOW), then])
      }
    }
  })

  it('is in force from its own line on, and the next one from its own', () => {
    const [longer, shorter] = adopts as [Told, Told]
    const events = journalOf(...FIT, reads('1', 4500, LATER), reads('2', 4500, LATER), longer, shorter)
    const states = [2, 1, 0].map((less) => {
      const seats = assessNow(replay(emptyState(), events.slice(0, events.length - less)), LATER).rigs[0]!
        .seats
      return seats[0]!.state
    })
    expect(states).toEqual(['expired', 'ready', 'expired'])
  })

  it('and read back out of any prefix, gives what was said when that was the whole journal', () => {
    const steps = [...FIT, adopts[0]!, tags('HO-1'), adopts[2]!, reads('1', 900), adopts[1]!]
    const events = journalOf(...steps)
    const known: unknown[] = []
    let state: State = emptyState()
    for (const event of events) {
      state = replay(state, [event])
      known.push(says(assessNow(state, NOW)))
    }
    assert(
      property(integer({ min: 1, max: events.length }), (length) => {
        expect(judge(events.slice(0, length), NOW)).toEqual(known[length - 1])
      }),
      { numRuns: 40 },
    )
  })
})

describe('the order in which cares were entered', () => {
  const elements = constantFrom('HO-1', 'CL-1', 'AP-1', 'CY-1')
  const history = elements.chain((id) =>
    caresOf(elementIn(fitCrew(), id).kind, 7)
      // The books refuse a care done before the element was made.
      .map((cares) => cares.filter((each) => each.on >= '2024-06-01' && each.result === 'serviceable'))
      .chain((cares) =>
        shuffledSubarray(cares, { minLength: cares.length, maxLength: cares.length }).map((shuffled) => ({
          id,
          cares,
          shuffled,
        })),
      ),
  )
  const verdictsOn = (id: string, cares: CareFacts[]) => {
    const exposed: Told = { do: 'record-exposure', exposure: 'products-of-combustion', elements: [id] }
    const entered = cares.map((care): Told => ({ do: 'record-care', element: id, ...care }))
    const state = fitCrew({ ...exposed, at: '2025-11-24T06:00:00.000-05:00' }, entered)
    const place = assessNow(state, NOW)
      .rigs[0]!.seats.flatMap((seat) => seat.places)
      .find((each) => each.element?.id === id)!
    return place.verdicts.map(sayVerdict).toSorted()
  }

  it('bears on no verdict', () => {
    assert(
      property(history, ({ id, cares, shuffled }) => {
        expect(verdictsOn(id, shuffled)).toEqual(verdictsOn(id, cares))
      }),
      { numRuns: 150 },
    )
  })

  it('leaves the newest care the one it counts from: one entered out of order moves no deadline back', () => {
    assert(
      property(history, ({ id, cares }) => {
        const newest = asKept(cares).at(-1)
        if (!newest) return
        const state = fitCrew(cares.map((care): Told => ({ do: 'record-care', element: id, ...care })))
        expect(elementIn(state, id).cares.at(-1)!.on >= newest.on).toBe(true)
      }),
      { numRuns: 100 },
    )
  })
})
