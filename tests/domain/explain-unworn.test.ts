// What is explained of gear that nobody wears just now, and of rules that the department changed.
import { describe, expect, it } from 'vitest'
import { explain, sayExplanation } from '../../src/domain/explain.ts'
import type { Id } from '../../src/domain/gear.ts'
import { policyOf } from '../../src/domain/policy/in-force.ts'
import type { Policy } from '../../src/domain/policy/shape.ts'
import type { State } from '../../src/domain/state.ts'
import { coat, fitCrew, HOUSE, sendsAway } from './fit-crew.ts'
import { NOW, stateOf } from './given.ts'
import { overlay } from './overlay.ts'
import { policyWith } from './rules/judging.ts'

const told = (state: State, id: Id, policy: Policy = policyOf(state), at = NOW) =>
  explain(state, policy, at, id)
const rulesOf = (...given: Parameters<typeof told>) => told(...given).map((each) => each.rule.id)
const of = (rule: string, ...given: Parameters<typeof told>) =>
  told(...given).find((each) => each.rule.id === rule)!
const say = (rule: string, ...given: Parameters<typeof told>) => sayExplanation(of(rule, ...given))

describe('an element that nobody wears just now', () => {
  const state = fitCrew(coat('7'), sendsAway('HO-1'))

  it('on the rack is explained without a wearer', () => {
    expect(rulesOf(state, 'CL-7')).not.toContain('one-assembly')
    expect(rulesOf(state, 'CS-7')).not.toContain('coat-size')
    expect(rulesOf(state, 'CS-7')).toContain('structural-service-life')
    expect(rulesOf(state, 'CS-7')).not.toContain('element-missing')
  })

  it('away is explained by its dates all the same', () => {
    expect(rulesOf(state, 'HO-1')).toContain('advanced-cleaning-interval')
    expect(rulesOf(state, 'HO-1')).not.toContain('element-missing')
  })

  it('issued to somebody who is not seated, or relieved by a spare, has no wearer either', () => {
    expect(rulesOf(stateOf(...HOUSE), 'FP-1')).not.toContain('fit-test')
    const swapped = fitCrew(coat('7'), { do: 'swap', seat: 'E6-1', out: 'CS-1', in: 'CS-7' })
    expect(rulesOf(swapped, 'CS-1')).not.toContain('coat-size')
    expect(rulesOf(swapped, 'CS-7')).toContain('coat-size')
  })

  it('retired, or not on the books, is explained by nothing', () => {
    const gone = fitCrew({ do: 'retire', element: 'BO-1', reason: 'worn out', disposal: 'cut up' })
    expect(told(gone, 'BO-1')).toEqual([])
    expect(told(gone, 'BO-404')).toEqual([])
  })

  it('that belongs to a riding position is explained with its seat', () => {
    expect(rulesOf(fitCrew(), 'CY-1')).toContain('element-missing')
    expect(rulesOf(fitCrew(), 'CY-1')).toContain('cylinder-pressure')
  })
})

describe('what the department changed', () => {
  const CLEANING = 'advanced-cleaning-interval'

  it('to be looser says how, and what the published base would say', () => {
    const policy = policyWith(overlay({ id: CLEANING, limit: 'P9M' }))
    const said = say(CLEANING, fitCrew(), 'GL-1', policy, '2027-03-02T08:00:00.000-05:00')
    expect(said[0]).toBe(
      'advanced cleaning interval: ready, 9 months from advanced cleaning runs to 1 Jun 2027; under the published base it would be expired.',
    )
    expect(said.at(-1)).toBe('  Looser than the published base: limit 9 months, not 6 months.')
  })

  it('to be stricter says nothing of looser', () => {
    const policy = policyWith(overlay({ id: CLEANING, limit: 'P3M' }))
    expect(of(CLEANING, fitCrew(), 'GL-1', policy)).not.toHaveProperty('looser')
    expect(say(CLEANING, fitCrew(), 'GL-1', policy)).toHaveLength(4)
  })

  it('by switching a rule off is told with its reason where it would have found something', () => {
    const policy = policyWith(overlay({ id: CLEANING, off: true }))
    const said = say(CLEANING, fitCrew(), 'GL-1', policy, '2027-03-02T08:00:00.000-05:00')
    expect(said[0]).toBe(
      'advanced cleaning interval: ready, the rule is switched off; 6 months from advanced cleaning ended on 1 Mar 2027; under the published base it would be expired.',
    )
    expect(said.at(-1)).toBe('  Looser than the published base: switched off: Our chief decided so.')
    expect(rulesOf(fitCrew(), 'GL-1', policy)).not.toContain(CLEANING)
  })
})
