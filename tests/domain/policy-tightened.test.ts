// That tightening a policy never turns unfit into fit, and that loosening is never without its flag.
import { array, assert, constantFrom, integer, property, record, subarray } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CARES, CONSTRUCTIONS, KINDS } from '../../src/domain/kinds.ts'
import { faultsOf, layOver } from '../../src/domain/policy/in-force.ts'
import { CONDITIONS, type Rule } from '../../src/domain/policy/shape.ts'
import { judgeElement } from '../../src/domain/rules/judge.ts'
import { isFit, worstOf } from '../../src/domain/rules/verdict.ts'
import { addDays, addDuration } from '../../src/domain/time.ts'
import { overlay, type Change } from './overlay.ts'
import { BASE, cared, gear, settingOn, tested, wearer } from './rules/judging.ts'

const PASTS = CONDITIONS.filter((each) => each !== 'ready' && each !== 'unproven') as Rule['past'][]

/** The days of a duration, and the same duration less or more some of them. */
const daysOf = (duration: string) =>
  (Date.parse(addDuration('2001-01-01', duration)) - Date.parse('2001-01-01')) / 86_400_000
const shorter = (duration: string, share: number) =>
  `P${Math.max(1, Math.floor((daysOf(duration) * share) / 100))}D`

/** A change that takes room away in every way a rule has, `share` percent of it left. */
function tighten(rule: Rule, share: number, severer: number): Change {
  const { id, limit, first, warn, past } = rule
  return {
    id,
    past: PASTS[Math.max(0, PASTS.indexOf(past) - severer)]!,
    ...(typeof limit === 'string' && { limit: shorter(limit, share) }),
    ...(typeof limit === 'object' && {
      limit: Object.fromEntries(Object.entries(limit).map(([name, each]) => [name, shorter(each, share)])),
    }),
    ...(first && { first: shorter(first, share) }),
    ...(warn && { warn: `P${daysOf(warn) + 100 - share}D` }),
  }
}

const day = integer({ min: 0, max: 6000 }).map((back) => addDays('2026-11-24', -back))
const elements = record({
  kind: constantFrom(...KINDS),
  made: day.map((date) => date.slice(0, 7)),
  issuedOn: day,
  construction: constantFrom(...CONSTRUCTIONS),
  cares: array(record({ care: constantFrom(...CARES), on: day }), { maxLength: 6 }),
}).map(({ cares, ...facts }) =>
  gear(facts.kind, {
    ...facts,
    model: 'Clear Two',
    size: 'M',
    cares: cares.toSorted((a, b) => (a.on < b.on ? -1 : 1)).map(({ care, on }) => cared(care, on)),
  }),
)

describe('a tightened overlay', () => {
  const changes = subarray(BASE.rules, { minLength: 1 }).chain((rules) =>
    record({ share: integer({ min: 10, max: 100 }), severer: integer({ min: 0, max: 3 }) }).map(
      ({ share, severer }) => rules.map((rule) => tighten(rule, share, severer)),
    ),
  )

  it('is never faulted and never flagged as looser', () => {
    assert(
      property(changes, (given) => {
        const laid = overlay(...given)
        expect(faultsOf(BASE, laid)).toEqual([])
        expect(layOver(BASE, laid).rules.filter((each) => each.looser)).toEqual([])
      }),
    )
  })

  it('never turns unfit into fit', () => {
    const plain = layOver(BASE, null)
    let unfit = 0
    assert(
      property(elements, day, changes, (element, fitTest, given) => {
        const worn = wearer([element], { fitTests: [tested(fitTest)] })
        const under = (policy: typeof plain) =>
          isFit(worstOf(judgeElement(element, settingOn({ today: '2026-11-24', policy }), worn)))
        const before = under(plain)
        if (!before) unfit++
        expect(!before && under(layOver(BASE, overlay(...given)))).toBe(false)
      }),
      { numRuns: 600 },
    )
    // Both kinds were really seen.
    expect(unfit).toBeGreaterThan(50)
    expect(unfit).toBeLessThan(600)
  })
})

describe('a loosened limit', () => {
  const counting = BASE.rules.filter((rule) => typeof rule.limit === 'string')
  it('is flagged from the first day', () => {
    assert(
      property(constantFrom(...counting), integer({ min: 1, max: 4000 }), (rule, more) => {
        const limit = `P${daysOf(String(rule.limit)) + more}D`
        const laid = layOver(BASE, overlay({ id: rule.id, limit }))
        expect(laid.rules.filter((each) => each.looser).map((each) => each.rule.id)).toEqual([rule.id])
      }),
    )
  })
})
