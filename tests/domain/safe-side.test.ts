// That what is recorded against gear never makes it better, and what is done for it never makes it worse, whatever its history.
import { assert, boolean, constantFrom, integer, property, record, sample, subarray } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assess, assessNow, type SeatAssessment } from '../../src/domain/assess.ts'
import { EXPOSURES } from '../../src/domain/kinds.ts'
import { judgeElement } from '../../src/domain/rules/judge.ts'
import { isFit, severity, worstOf, type Verdict } from '../../src/domain/rules/verdict.ts'
import type { Element, State } from '../../src/domain/state.ts'
import {
  anyCare,
  asKept,
  caresOf,
  CREW,
  crews,
  days,
  exposures,
  kinds,
  withElements,
  WORN,
} from './any-history.ts'
import { NOW, TODAY } from './given.ts'
import { gear, policyWith, POLICY, settingOn, tagged } from './rules/judging.ts'
import { overlay } from './overlay.ts'
import { written } from './written.ts'
import { pack } from '../../src/store/packed-state.ts'
import { unpacked } from '../unpacked.ts'

const officer = (state: State): SeatAssessment => assessNow(state, NOW).rigs[0]!.seats[0]!
const rank = ({ state }: SeatAssessment) => (state === 'unfilled' ? -1 : severity(state))
const RUNS = { numRuns: 400 }

/** One element in use, with any history: made and issued before every care, so that all were done in service. */
const used = kinds.chain((kind) =>
  record({
    made: constantFrom('2011-06', '2012-11', '2015-12'),
    cares: caresOf(kind),
    exposures,
    isKnown: boolean(),
  }).map(({ made, cares, exposures, isKnown }) => ({
    cares,
    element: gear(kind, {
      issuedOn: '2016-01-01',
      exposures,
      ...(isKnown && { made, construction: 'carbon' as const }),
    }),
  })),
)
const judged = (element: Element, today = TODAY): Map<string, Verdict> =>
  new Map(judgeElement(element, settingOn({ today })).map((each) => [each.rule, each]))

/** The rules that say better of `after` than of `before`. */
const better = (before: Element, after: Element, today?: string): string[] => {
  const now = judged(after, today)
  return [...judged(before, today).values()].flatMap(({ rule, state }) => {
    const later = now.get(rule)
    return !later || severity(later.state) > severity(state) ? [rule] : []
  })
}

describe('a record of care', () => {
  it('of later than every other never worsens what any rule says, that day or on any day after', () => {
    assert(
      property(used, anyCare, integer({ min: 0, max: 2000 }), ({ element, cares }, care, more) => {
        const before = { ...element, cares: asKept(cares) }
        const after = { ...element, cares: asKept([...cares, { care, on: TODAY, result: 'serviceable' }]) }
        const day = new Date(Date.parse(TODAY) + more * 86_400_000).toISOString().slice(0, 10)
        expect(better(after, before, day)).toEqual([])
      }),
      { numRuns: 1500 },
    )
  })

  it('taken away never improves what any rule says', () => {
    let changed = 0
    assert(
      property(used, integer({ min: 0, max: 5 }), ({ element, cares }, index) => {
        const before = { ...element, cares: asKept(cares) }
        const after = { ...element, cares: asKept(cares.filter((_, each) => each !== index)) }
        if (better(after, before).length) changed++
        expect(better(before, after)).toEqual([])
      }),
      { numRuns: 3000 },
    )
    // Taking one away did cost something often enough to have been seen.
    expect(changed).toBeGreaterThan(50)
  })

  it('that was failed is worth no more than none', () => {
    assert(
      property(used, anyCare, days, ({ element, cares }, care, on) => {
        const failed = { care, on, result: 'unserviceable' as const }
        const states = (all: typeof cares) =>
          [...judged({ ...element, cares: asKept(all) }).values()].map((each) => [each.rule, each.state])
        expect(states([...cares, failed])).toEqual(states(cares))
      }),
      RUNS,
    )
  })
})

describe('a tag, an exposure, a missing part', () => {
  const seats = record({ state: crews, element: constantFrom(...WORN) })
  /** The same crew, with the element as `change` makes it of what it is there. */
  const changed = (state: State, { id }: Element, change: (now: Element) => Partial<Element>): State => {
    const now = state.elements.get(id)!
    return withElements(state, [{ ...now, ...change(now) }])
  }

  it('the first never improves a riding position: it puts it out of service', () => {
    assert(
      property(seats, constantFrom('safety', 'compliance'), ({ state, element }, matter) => {
        const after = changed(state, element, ({ tags }) => ({ tags: [...tags, tagged('torn', matter)] }))
        expect(officer(after).state).toBe('out-of-service')
        expect(rank(officer(after))).toBeLessThanOrEqual(rank(officer(state)))
      }),
      RUNS,
    )
  })

  it('the second never improves it, and fit gear exposed just now is not ready', () => {
    assert(
      property(seats, constantFrom(...EXPOSURES), ({ state, element }, exposure) => {
        const record = { exposure, at: NOW, seq: 9_999, by: 'M-104' }
        const after = changed(state, element, (now) => ({ exposures: [...now.exposures, record] }))
        expect(rank(officer(after))).toBeLessThanOrEqual(rank(officer(state)))
        expect(officer(after).fit).toBe(false)
      }),
      RUNS,
    )
  })

  it('the third is never fit, whatever was wrong with the part before', () => {
    const since = { seq: 1, at: NOW, by: 'M-104' }
    const away = { where: 'away', to: 'North Wash', for: 'advanced-cleaning', since } as const
    assert(
      property(seats, ({ state, element }) => {
        const after = officer(changed(state, element, () => ({ custody: away })))
        expect([after.fit, rank(after) <= severity('missing')]).toEqual([false, true])
      }),
      RUNS,
    )
  })
})

describe('a riding position', () => {
  it('is what the worst of its verdicts is, and each place likewise', () => {
    assert(
      property(crews, (state) => {
        const seat = officer(state)
        for (const place of seat.places) expect(place.state).toBe(worstOf(place.verdicts))
        expect(seat.state).toBe(worstOf(seat.places))
        expect(seat.state).toBe(worstOf(seat.places.flatMap((each) => each.verdicts)))
        expect(seat.fit).toBe(isFit(worstOf(seat.places)))
      }),
      RUNS,
    )
  })

  it('is seen fit and unfit, in every state but missing, by these histories', () => {
    const seen = new Set(sample(crews, 1000).map((state) => officer(state).state))
    expect([...seen].toSorted()).toEqual(['due', 'expired', 'out-of-service', 'ready', 'unproven'])
  })

  it('is judged by nothing but the books, the policy and the instant: twice the same, and neither is changed', () => {
    const policies = subarray(POLICY.rules.map((each) => each.rule.id)).map((ids) =>
      policyWith(overlay(...ids.map((id) => ({ id, off: true as const })))),
    )
    assert(
      property(crews, policies, days, (state, policy, day) => {
        const at = `${day}T08:00:00.000-05:00`
        const before = written([state, policy])
        const first = structuredClone(assess(state, policy, at))
        assess(CREW, POLICY, NOW)
        expect(assess(state, policy, at)).toEqual(first)
        expect(assess(unpacked(pack(state))!, structuredClone(policy), at)).toEqual(first)
        expect(written([state, policy])).toBe(before)
      }),
      { numRuns: 60 },
    )
  })
})
