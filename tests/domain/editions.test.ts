// The other published editions: what differs from the default base, on both sides of each boundary and with nothing on record.
import { describe, expect, it } from 'vitest'
import edition1850 from '../../data/policies/nfpa-1850-provisional.json' with { type: 'json' }
import edition2014 from '../../data/policies/nfpa-1851-2014.json' with { type: 'json' }
import { CARES, type Care, type Exposure, type Kind } from '../../src/domain/kinds.ts'
import { BASES, baseOf, DEFAULT_BASE } from '../../src/domain/policy/bases.ts'
import { layOver, policyOf } from '../../src/domain/policy/in-force.ts'
import { baseShape, type Condition } from '../../src/domain/policy/shape.ts'
import { emptyState, type Element } from '../../src/domain/state.ts'
import { stateOf } from './given.ts'
import { overlay } from './overlay.ts'
import { BASE, cared, exposed, gear, ruleOf, verdictOf, wearer } from './rules/judging.ts'

/** The base it is taken from, and the rules that differ. */
const editionShape = baseShape.extend({ from: baseShape.shape.id })
const EDITIONS = [edition2014, edition1850]
const policies = new Map([...BASES].map(([id, base]) => [id, layOver(base, null)]))

describe.each(EDITIONS.map((each) => [each.id, each] as const))('the edition %s', (id, edition) => {
  const base = BASES.get(id)!

  it('is of the shape of an edition, word for word, and taken from the default base', () => {
    expect(editionShape.parse(edition)).toEqual(edition)
    expect(edition.from).toBe(DEFAULT_BASE)
  })

  it('names only rules of the base it is taken from, each once, and keeps the order', () => {
    const ids = edition.rules.map((rule) => rule.id)
    expect(ids.filter((each) => !ruleOf(each))).toEqual([])
    expect(new Set(ids).size).toBe(ids.length)
    expect(base.rules.map((rule) => rule.id)).toEqual(BASE.rules.map((rule) => rule.id))
  })

  it('makes a whole base: its own rules in their places, every other as in the default', () => {
    expect(baseShape.parse(base)).toEqual(base)
    expect(base).not.toHaveProperty('from')
    const own = new Map(edition.rules.map((rule) => [rule.id, rule]))
    expect(base.rules).toEqual(BASE.rules.map((rule) => own.get(rule.id) ?? rule))
  })

  it('says that it is provisional, having rules from memory', () => {
    expect(base.rules.some((rule) => rule.source.standing === 'from memory')).toBe(true)
    expect(base.provisional).toMatch(/not confirmed|not been read/)
  })
})

describe('the figures', () => {
  const figures = (id: string) =>
    BASES.get(id)!.rules.filter((rule, index) => {
      const { source: _a, why: _b, ...ours } = rule
      const { source: _c, why: _d, ...usual } = BASE.rules[index]!
      return JSON.stringify(ours) !== JSON.stringify(usual)
    })

  // Advanced cleaning at least once in 12 months in 2014: a repair shop's summary.
  it('of 2014 differ from 2020 in the advanced cleaning alone, which is yearly', () => {
    expect(figures('nfpa-1851-2014').map(({ id, limit }) => [id, limit])).toEqual([
      ['advanced-cleaning-interval', 'P12M'],
    ])
  })

  it('of 1850 are assumed to be those of 2020, and each rule of it is from memory', () => {
    expect(figures('nfpa-1850-provisional')).toEqual([])
    expect(edition1850.name).toContain('PROVISIONAL')
    expect(edition1850.rules.filter((rule) => rule.source.standing !== 'from memory')).toEqual([])
  })
})

type Row = [edition: string, rule: string, kind: Kind, facts: Partial<Element>, today: string, Condition]
const both = (rule: string, kind: Kind, facts: Partial<Element>, today: string, state: Condition): Row[] =>
  EDITIONS.map(({ id }) => [id, rule, kind, facts, today, state])
const done = (care: Care, on: string): Partial<Element> => ({ cares: [cared(care, on)] })
const unknown: Partial<Element> = { issuedOn: null }
const [Y2014, Y1850] = EDITIONS.map((each) => each.id) as [string, string]
const cleaned = done('advanced-cleaning', '2025-11-24')

const DATED: Row[] = [
  ...both('structural-service-life', 'boots', { made: '2016-12' }, '2026-10-01', 'ready'),
  ...both('structural-service-life', 'boots', { made: '2016-12' }, '2026-10-02', 'due'),
  ...both('structural-service-life', 'boots', { made: '2016-12' }, '2026-11-30', 'due'),
  ...both('structural-service-life', 'boots', { made: '2016-12' }, '2026-12-01', 'expired'),
  ...both('structural-service-life', 'boots', {}, '2026-12-01', 'unproven'),
  ...both(
    'advanced-inspection-interval',
    'helmet',
    done('advanced-inspection', '2025-11-24'),
    '2026-11-24',
    'due',
  ),
  ...both(
    'advanced-inspection-interval',
    'helmet',
    done('advanced-inspection', '2025-11-24'),
    '2026-11-25',
    'expired',
  ),
  ...both(
    'advanced-inspection-interval',
    'helmet',
    done('advanced-inspection', '2025-11-24'),
    '2026-10-24',
    'ready',
  ),
  ...both('advanced-inspection-interval', 'helmet', unknown, '2026-11-24', 'unproven'),
  [Y2014, 'advanced-cleaning-interval', 'hood', cleaned, '2026-05-25', 'ready'],
  [Y2014, 'advanced-cleaning-interval', 'hood', cleaned, '2026-10-24', 'ready'],
  [Y2014, 'advanced-cleaning-interval', 'hood', cleaned, '2026-10-25', 'due'],
  [Y2014, 'advanced-cleaning-interval', 'hood', cleaned, '2026-11-24', 'due'],
  [Y2014, 'advanced-cleaning-interval', 'hood', cleaned, '2026-11-25', 'expired'],
  [Y2014, 'advanced-cleaning-interval', 'hood', unknown, '2026-11-25', 'unproven'],
  [Y1850, 'advanced-cleaning-interval', 'hood', cleaned, '2026-05-24', 'due'],
  [Y1850, 'advanced-cleaning-interval', 'hood', cleaned, '2026-05-25', 'expired'],
  [Y1850, 'advanced-cleaning-interval', 'hood', unknown, '2026-05-25', 'unproven'],
  ...both('complete-liner-inspection-interval', 'trouser-liner', {}, '2027-01-10', 'due'),
  ...both('complete-liner-inspection-interval', 'trouser-liner', {}, '2027-01-11', 'expired'),
  ...both('complete-liner-inspection-interval', 'trouser-liner', unknown, '2027-01-11', 'unproven'),
]

describe('a date', () => {
  it.each(DATED)('%s, %s of a %s with %j on %s is %s', (id, rule, kind, facts, today, state) => {
    expect(verdictOf(rule, gear(kind, facts), { today, policy: policies.get(id)! })?.state).toBe(state)
  })
})

const CLEARS: [rule: string, exposure: Exposure, clears: Care[]][] = [
  ['smoke-exposure', 'products-of-combustion', ['advanced-cleaning', 'specialised-cleaning']],
  ['body-fluid-exposure', 'body-fluids', ['specialised-cleaning']],
  ['hazardous-material-exposure', 'hazardous-material', ['specialised-cleaning']],
]

describe.each(EDITIONS.map((each) => each.id))('an exposure under %s', (id) => {
  it.each(CLEARS)('%s is cleared by what it names and by nothing else', (rule, exposure, clears) => {
    const day = { today: '2026-11-24', policy: policies.get(id)! }
    const hit = gear('hood', { exposures: [exposed(exposure, '2026-11-23T14:00:00.000-05:00')] })
    expect(verdictOf(rule, gear('hood'), day)!.state).toBe('ready')
    expect(verdictOf(rule, hit, day)!.state).toBe('out-of-service')
    const cleared = CARES.filter((care) => {
      const after = { ...hit, cares: [cared(care, '2026-11-24', { seq: 21 })] }
      return verdictOf(rule, after, day)!.state === 'ready'
    })
    expect(cleared.toSorted()).toEqual(clears.toSorted())
  })

  it('asks for one assembly as the default does', () => {
    const day = { today: '2026-11-24', policy: policies.get(id)! }
    for (const [inner, outer] of [
      ['coat-liner', 'coat-shell'],
      ['trouser-liner', 'trouser-shell'],
    ] as const) {
      const shell = gear(outer, { assembly: 'A-7', size: '44x32' })
      const rule = inner === 'coat-liner' ? 'one-assembly' : 'one-trouser-assembly'
      const matched = (facts: Partial<Element>) =>
        verdictOf(rule, gear(inner, facts), day, wearer([shell]))!.state
      expect(matched({ assembly: 'A-7', size: '44x32' })).toBe('ready')
      expect(matched({ assembly: 'A-8', size: '44x32' })).toBe('out-of-service')
      expect(matched({ size: '44x32' })).toBe('unproven')
    }
  })
})

describe('the base of a station', () => {
  const under = (policy: string) => {
    const state = stateOf()
    return { ...state, station: { ...state.station!, policy } }
  }

  it('is the one it was made with, the default where this program does not know it or there is none yet', () => {
    expect(baseOf(under('nfpa-1851-2014')).edition).toBe('2014')
    expect(baseOf(under('a policy of another program')).id).toBe(DEFAULT_BASE)
    expect(baseOf(emptyState()).id).toBe(DEFAULT_BASE)
  })

  it('and an overlay of the same words on another base are two policies', () => {
    const laid = overlay({ id: 'wet', off: true })
    const [one, other] = ['nfpa-1851-2014', DEFAULT_BASE].map((id) => ({ ...under(id), overlay: laid }))
    expect([policyOf(one!).edition, policyOf(other!).edition]).toEqual(['2014', '2020'])
    expect(policyOf(one!)).toBe(policyOf({ ...one! }))
  })
})
