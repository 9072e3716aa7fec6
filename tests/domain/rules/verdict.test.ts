// The order of states and verdicts, and that a later care never makes an element worse.
import { assert, constantFrom, array, property, record } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CARES, EXPOSURES, KINDS } from '../../../src/domain/kinds.ts'
import { CONDITIONS } from '../../../src/domain/policy/shape.ts'
import { judgeElement } from '../../../src/domain/rules/judge.ts'
import { byWeight, isFit, severity, worse, worstOf, type Verdict } from '../../../src/domain/rules/verdict.ts'
import { addDays } from '../../../src/domain/time.ts'
import { cared, exposed, gear, noon, settingOn, wearer } from './judging.ts'

const CLEAN = { issuedOn: '2026-06-01', made: '2020-05', size: '44x32', assembly: 'A-7' }
const verdict = (more: Partial<Verdict>): Verdict => ({
  element: 'X-1',
  kind: 'hood',
  state: 'expired',
  matter: 'safety',
  rule: 'wet',
  says: 'wet',
  on: null,
  ...more,
})

describe('severity', () => {
  it('is out of service, missing, expired, unproven, due, ready, worst first', () => {
    const shuffled = ['ready', 'unproven', 'missing', 'due', 'out-of-service', 'expired'] as const
    expect(shuffled.toSorted((a, b) => severity(a) - severity(b))).toEqual([
      'out-of-service',
      'missing',
      'expired',
      'unproven',
      'due',
      'ready',
    ])
  })

  it('leaves due and ready fit to ride and nothing else', () => {
    expect(CONDITIONS.filter(isFit)).toEqual(['due', 'ready'])
  })

  it('of many is the worst of them, whatever their order; of none it is ready', () => {
    expect(worse('due', 'missing')).toBe('missing')
    expect(worse('missing', 'due')).toBe('missing')
    expect(worstOf([{ state: 'due' }, { state: 'expired' }, { state: 'ready' }])).toBe('expired')
    expect(worstOf([])).toBe('ready')
  })
})

describe('verdicts are told', () => {
  it('worst first, then safety before compliance, then the sooner date, then those without a date', () => {
    const order = [
      verdict({ state: 'missing', matter: 'compliance' }),
      verdict({ on: '2026-01-01' }),
      verdict({ on: '2026-02-01' }),
      verdict({ on: null }),
      verdict({ matter: 'compliance', on: '2025-01-01' }),
      verdict({ state: 'due' }),
    ]
    expect(order.toReversed().toSorted(byWeight)).toEqual(order)
  })
})

describe('a later care that the element passed', () => {
  const day = '2026-11-24'
  const days = constantFrom('2025-08-31', '2025-11-24', '2026-05-24', '2026-10-30', '2026-11-23', day)
  const history = record({
    kind: constantFrom(...KINDS),
    cares: array(record({ care: constantFrom(...CARES), on: days }), { maxLength: 5 }),
    exposures: array(record({ exposure: constantFrom(...EXPOSURES), on: days }), { maxLength: 3 }),
  })

  it('never worsens what any rule says', () => {
    assert(
      property(history, constantFrom(...CARES), ({ kind, cares, exposures }, care) => {
        const before = gear(kind, {
          ...CLEAN,
          cares: cares.toSorted((a, b) => (a.on < b.on ? -1 : 1)).map((each) => cared(each.care, each.on)),
          exposures: exposures.map((each) => exposed(each.exposure, noon(each.on))),
        })
        const after = { ...before, cares: [...before.cares, cared(care, day, { seq: 99 })] }
        const setting = settingOn({ today: day, until: addDays(day, 1) })
        const worn = wearer([before])
        const later = new Map(judgeElement(after, setting, worn).map((each) => [each.rule, each.state]))
        const worse = judgeElement(before, setting, worn).filter(
          (each) => severity(later.get(each.rule)!) < severity(each.state),
        )
        expect(worse).toEqual([])
      }),
      { numRuns: 500 },
    )
  })
})
