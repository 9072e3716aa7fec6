// What the rules that count days say, and how an open tour and the missing of a warning window bear on them.
import { describe, expect, it } from 'vitest'
import { layOver } from '../../../src/domain/policy/in-force.ts'
import { newestCare } from '../../../src/domain/rules/dates.ts'
import { sayVerdict } from '../../../src/domain/rules/verdict.ts'
import { BASE, cared, gear, tested, verdictOf, wearer } from './judging.ts'

const WITHOUT_WARNINGS = layOver(
  {
    ...BASE,
    rules: BASE.rules.map((rule) => {
      const { warn: _, ...rest } = rule
      return rest
    }),
  },
  null,
)

describe('a limit that lapses before the tour ends', () => {
  const mask = gear('facepiece', { model: 'Clear Two', size: 'M' })
  const worn = wearer([], { fitTests: [tested('2025-11-24')] })

  it.each([
    ['2026-11-23', '2026-11-23', 'ready'],
    ['2026-11-23', '2026-11-24', 'ready'],
    ['2026-11-24', '2026-11-24', 'ready'],
    ['2026-11-24', '2026-11-25', 'due'],
    ['2026-11-25', '2026-11-26', 'expired'],
  ] as const)('without a warning window, on %s in a tour until %s, is %s', (today, until, state) => {
    const verdict = verdictOf('fit-test', mask, { today, until, policy: WITHOUT_WARNINGS }, worn)!
    expect(verdict.state).toBe(state)
    expect(verdict.says.includes('ends during this tour, on 24 Nov 2026')).toBe(state === 'due')
  })

  it('counts for service life too, whose last good day is the day before the limit falls', () => {
    const shell = gear('coat-shell', { made: '2016-03' })
    const on = (today: string, until: string) =>
      verdictOf('structural-service-life', shell, { today, until, policy: WITHOUT_WARNINGS })!.state
    expect(on('2026-02-27', '2026-02-28')).toBe('ready')
    expect(on('2026-02-28', '2026-03-01')).toBe('due')
  })
})

describe('the sentence', () => {
  it.each([
    [
      'structural-service-life',
      gear('coat-shell', { made: '2016-03' }),
      '2026-03-01',
      'Coat shell X-0: 10 years from manufacture ended on 28 Feb 2026.',
    ],
    [
      'structural-service-life',
      gear('coat-shell', { made: '2016-03' }),
      '2026-02-28',
      'Coat shell X-0: 10 years from manufacture ends on 28 Feb 2026.',
    ],
    [
      'structural-service-life',
      gear('coat-shell'),
      '2026-02-28',
      'Coat shell X-0: it has no date of manufacture.',
    ],
    [
      'advanced-cleaning-interval',
      gear('hood', { cares: [cared('advanced-cleaning', '2026-05-24')] }),
      '2026-11-25',
      'Hood X-6: 6 months from advanced cleaning ended on 24 Nov 2026.',
    ],
    [
      'complete-liner-inspection-interval',
      gear('coat-liner'),
      '2027-02-01',
      'Coat liner X-1: first complete liner inspection within 3 years of issue ended on 10 Jan 2027; this figure is not confirmed.',
    ],
    [
      'complete-liner-inspection-interval',
      gear('coat-liner', { cares: [cared('complete-liner-inspection', '2025-02-01')] }),
      '2026-03-01',
      'Coat liner X-1: 3 years from issue, the early complete liner inspection aside, runs to 10 Jan 2027.',
    ],
    [
      'advanced-cleaning-interval',
      gear('hood', { cares: [cared('advanced-cleaning', '2026-05-24')] }),
      '2026-06-01',
      'Hood X-6: 6 months from advanced cleaning runs to 24 Nov 2026.',
    ],
    [
      'breathing-apparatus-monthly-inspection',
      gear('air-pack', { issuedOn: null }),
      '2026-06-01',
      'Air pack X-10: it has no routine inspection on record; call the roll for it, or record a routine inspection.',
    ],
    [
      'hydrostatic-test-interval',
      gear('cylinder', { construction: 'carbon' }),
      '2026-06-01',
      'Cylinder X-11: it has no hydrostatic test on record and no date of manufacture; do not refill it past its test date.',
    ],
    [
      'hydrostatic-test-interval',
      gear('cylinder', { construction: 'glass', made: '2025-04' }),
      '2026-06-01',
      'Cylinder X-11: first hydrostatic test within 3 years of manufacture runs to 1 Apr 2028.',
    ],
    [
      'composite-cylinder-life',
      gear('cylinder'),
      '2026-06-01',
      'Cylinder X-11: its construction is not known, so neither is its life.',
    ],
    [
      'hydrostatic-test-interval',
      gear('cylinder'),
      '2026-11-24',
      'Cylinder X-11: its construction is not known, so neither is its hydrostatic test; do not refill it past its test date.',
    ],
  ])('of %s tells the last good day', (rule, element, today, sentence) => {
    expect(sayVerdict(verdictOf(rule, element, { today })!)).toBe(sentence)
  })
})

describe('the newest care', () => {
  it('is the last of those passed in the order of the books, which is by the day done', () => {
    const first = cared('flow-test', '2026-01-01')
    const second = cared('flow-test', '2026-02-01')
    const failed = cared('flow-test', '2026-03-01', { result: 'unserviceable' })
    const other = cared('function-check', '2026-04-01')
    expect(newestCare(gear('air-pack', { cares: [first, second, failed, other] }), 'flow-test')).toEqual({
      on: '2026-02-01',
      what: 'flow test',
    })
    expect(newestCare(gear('air-pack', { cares: [failed, other] }), 'flow-test')).toBeUndefined()
  })
})
