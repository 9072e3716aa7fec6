// The department's overlay laid on the base: what it changes, and what is flagged as looser.
import { describe, expect, it } from 'vitest'
import { layOver, policyOf } from '../../src/domain/policy/in-force.ts'
import { emptyState } from '../../src/domain/state.ts'
import { overlay, reason, type Change } from './overlay.ts'
import { BASE, ruleOf } from './rules/judging.ts'

const inForce = (change: Change) =>
  layOver(BASE, overlay(change)).rules.find((each) => each.rule.id === change.id)

describe('an overlay', () => {
  it('changes the limit, the first limit, the warning and the consequence of a rule, and says why', () => {
    const id = 'complete-liner-inspection-interval'
    const change = { id, limit: 'P6M', first: 'P2Y', warn: 'P90D', past: 'out-of-service' as const }
    expect(inForce(change)).toEqual({
      rule: { ...ruleOf(id), limit: 'P6M', first: 'P2Y', warn: 'P90D', past: 'out-of-service' },
      reason,
    })
  })

  it('leaves every other rule as published', () => {
    const { rules, overlay: name } = layOver(BASE, overlay({ id: 'wet', past: 'due' }))
    expect(name).toBe('Alder Hollow')
    expect(rules.filter((each) => each.rule.id !== 'wet')).toEqual(
      BASE.rules.filter((rule) => rule.id !== 'wet').map((rule) => ({ rule })),
    )
  })

  it('switches a rule off, and keeps it in view with the reason', () => {
    const policy = layOver(BASE, overlay({ id: 'wet', off: true }))
    expect(policy.rules.some((each) => each.rule.id === 'wet')).toBe(false)
    expect(policy.off).toEqual([{ rule: ruleOf('wet'), reason }])
  })

  it('adds a rule of its own, with its reason', () => {
    const rule = { ...ruleOf('flow-test-interval'), id: 'function-check-monthly', limit: 'P1M' }
    const policy = layOver(BASE, { name: 'Alder Hollow', changes: [], add: [{ ...rule, reason }] })
    expect(policy.rules.at(-1)).toEqual({ rule, reason, isAdded: true })
    expect(policy.rules).toHaveLength(BASE.rules.length + 1)
  })

  it('that there is none leaves the base alone, provisional note and all', () => {
    const policy = layOver(BASE, null)
    expect(policy.overlay).toBeUndefined()
    expect(policy.off).toEqual([])
    expect(policy.provisional).toBe(BASE.provisional)
    expect(policy.rules).toEqual(BASE.rules.map((rule) => ({ rule })))
  })

  it('of the books is in force at once, and is the same policy each time it is asked for', () => {
    const state = { ...emptyState(), overlay: overlay({ id: 'wet', off: true }) }
    expect(policyOf(state).off).toHaveLength(1)
    expect(policyOf(state)).toBe(policyOf({ ...state }))
    expect(policyOf(emptyState()).off).toEqual([])
  })
})

describe('a rule made looser is flagged', () => {
  it.each<[string, Change, string]>([
    ['a longer limit', { id: 'advanced-cleaning-interval', limit: 'P12M' }, 'limit 12 months, not 6 months'],
    ['a limit longer by a day', { id: 'fit-test', limit: 'P12M1D' }, 'limit 12 months 1 day, not 12 months'],
    ['a shorter warning', { id: 'fit-test', warn: 'P29D' }, 'warns 29 days ahead, not 30 days'],
    [
      'a shorter warning of a limit that is hardly shorter',
      { id: 'fit-test', limit: 'P360D', warn: 'P27D' },
      'warns 27 days ahead, not 30 days',
    ],
    [
      'a shorter warning that begins earlier by less than months are uneven',
      { id: 'fit-test', limit: 'P350D', warn: 'P28D' },
      'warns 28 days ahead, not 30 days',
    ],
    [
      'a shorter warning before a first limit that stays',
      { id: 'complete-liner-inspection-interval', limit: 'P6M', warn: 'P30D' },
      'warns 30 days ahead, not 60 days',
    ],
    ['a weaker consequence', { id: 'wet', past: 'due' }, 'past its limit it is due, not out of service'],
    [
      'a longer first limit',
      { id: 'complete-liner-inspection-interval', first: 'P4Y' },
      'first limit 4 years, not 3 years',
    ],
    [
      'a first limit where there was none',
      { id: 'advanced-inspection-interval', first: 'P3Y' },
      'first limit 3 years, not 12 months',
    ],
    [
      'one construction longer',
      {
        id: 'composite-cylinder-life',
        limit: { carbon: 'P30Y', glass: 'P15Y', aramid: 'P15Y', hoop: 'P15Y' },
      },
      'limit carbon 30 years, glass 15 years, aramid 15 years, hoop 15 years, not carbon 15 years, glass 15 years, aramid 15 years, hoop 15 years',
    ],
    [
      'a construction left out',
      { id: 'composite-cylinder-life', limit: { carbon: 'P15Y', glass: 'P15Y', aramid: 'P15Y' } },
      'limit carbon 15 years, glass 15 years, aramid 15 years, not carbon 15 years, glass 15 years, aramid 15 years, hoop 15 years',
    ],
    [
      'two ways at once',
      { id: 'fit-test', limit: 'P2Y', warn: 'P1D' },
      'limit 2 years, not 12 months; warns 1 day ahead, not 30 days',
    ],
  ])('%s', (_name, change, looser) => {
    expect(inForce(change)!.looser).toBe(looser)
  })

  it('a limit for all of them turned into one for a few', () => {
    const base = { ...BASE, rules: [{ ...ruleOf('hydrostatic-test-interval'), limit: 'P3Y' }] }
    const { rules } = layOver(base, overlay({ id: 'hydrostatic-test-interval', limit: { steel: 'P3Y' } }))
    expect(rules[0]!.looser).toBe('limit steel 3 years, not 3 years')
  })
})

describe('a rule made stricter, or written otherwise, is not flagged', () => {
  it.each<[string, Change]>([
    ['a shorter limit', { id: 'advanced-cleaning-interval', limit: 'P3M' }],
    ['the same limit in other words', { id: 'fit-test', limit: 'P1Y' }],
    [
      'a shorter warning of a limit so much shorter that it begins earlier all the same',
      { id: 'advanced-cleaning-interval', limit: 'P3M', warn: 'P14D' },
    ],
    ['a longer warning', { id: 'fit-test', warn: 'P60D' }],
    ['a stronger consequence', { id: 'fit-test', past: 'out-of-service' }],
    ['a shorter first limit', { id: 'complete-liner-inspection-interval', first: 'P1Y' }],
    ['a first limit as long as the limit', { id: 'advanced-inspection-interval', first: 'P1Y' }],
    [
      'a life for a construction that had none',
      {
        id: 'composite-cylinder-life',
        limit: { carbon: 'P15Y', glass: 'P15Y', aramid: 'P15Y', hoop: 'P15Y', aluminium: 'P20Y' },
      },
    ],
    ['one limit for all, the shortest', { id: 'hydrostatic-test-interval', limit: 'P3Y' }],
  ])('%s', (_name, change) => {
    expect(inForce(change)!.looser).toBeUndefined()
    expect(inForce(change)!.reason).toBe(reason)
  })
})
