// What the published base would have said stands beside a verdict that only a looser rule of the department gives.
import { describe, expect, it } from 'vitest'
import { assess } from '../../../src/domain/assess.ts'
import { arrange } from '../../../src/domain/board.ts'
import type { Condition, Overlay } from '../../../src/domain/policy/shape.ts'
import { judgePresence } from '../../../src/domain/rules/composition.ts'
import { judgeByAll } from '../../../src/domain/rules/judge.ts'
import type { Element } from '../../../src/domain/state.ts'
import { fitCrew, reads, sendsAway } from '../fit-crew.ts'
import { NOW } from '../given.ts'
import { overlay, reason, type Change } from '../overlay.ts'
import { verdict } from '../../../src/domain/rules/verdict.ts'
import { BASE, called, cared, exposed, gear, policyWith, ruleOf, verdictOf, wearer } from './judging.ts'

const CLEANING = 'advanced-cleaning-interval'
const cleaned = gear('gloves', { cares: [cared('advanced-cleaning', '2026-05-24')] })
const wet = gear('hood', { exposures: [exposed('water', '2026-11-24T08:00:00.000-05:00')] })
const hoop = gear('cylinder', { construction: 'hoop', made: '2011-06' })

const under = (change: Change | Overlay, element: Element, today: string, rule?: string) => {
  const laid = 'changes' in change ? change : overlay(change)
  const verdict = verdictOf(rule ?? (change as Change).id, element, { today, policy: policyWith(laid) })
  return verdict && [verdict.state, verdict.loosened]
}

describe('a looser rule', () => {
  it.each<[string, Change, Element, string, [Condition, Condition | undefined]]>([
    [
      'longer, before either limit',
      { id: CLEANING, limit: 'P9M' },
      cleaned,
      '2026-10-24',
      ['ready', undefined],
    ],
    [
      'longer, in the base’s warning',
      { id: CLEANING, limit: 'P9M' },
      cleaned,
      '2026-10-25',
      ['ready', 'due'],
    ],
    [
      'longer, on the base’s last day',
      { id: CLEANING, limit: 'P9M' },
      cleaned,
      '2026-11-24',
      ['ready', 'due'],
    ],
    [
      'longer, past the base’s limit',
      { id: CLEANING, limit: 'P9M' },
      cleaned,
      '2026-11-25',
      ['ready', 'expired'],
    ],
    ['longer, in both', { id: CLEANING, limit: 'P9M' }, cleaned, '2027-02-24', ['due', 'expired']],
    ['longer, past both', { id: CLEANING, limit: 'P9M' }, cleaned, '2027-02-25', ['expired', undefined]],
    ['warning later, not yet', { id: CLEANING, warn: 'P7D' }, cleaned, '2026-10-24', ['ready', undefined]],
    ['warning later, base warns', { id: CLEANING, warn: 'P7D' }, cleaned, '2026-10-25', ['ready', 'due']],
    ['warning later, its eve', { id: CLEANING, warn: 'P7D' }, cleaned, '2026-11-16', ['ready', 'due']],
    ['warning later, both warn', { id: CLEANING, warn: 'P7D' }, cleaned, '2026-11-17', ['due', undefined]],
    ['weaker, on the last day', { id: CLEANING, past: 'due' }, cleaned, '2026-11-24', ['due', undefined]],
    ['weaker, past it', { id: CLEANING, past: 'due' }, cleaned, '2026-11-25', ['due', 'expired']],
    ['weaker, of wet gear', { id: 'wet', past: 'due' }, wet, '2026-11-24', ['due', 'out-of-service']],
    ['weaker, of dry gear', { id: 'wet', past: 'due' }, gear('hood'), '2026-11-24', ['ready', undefined]],
    ['switched off, of wet gear', { id: 'wet', off: true }, wet, '2026-11-24', ['ready', 'out-of-service']],
    ['switched off, past it', { id: CLEANING, off: true }, cleaned, '2026-11-25', ['ready', 'expired']],
    ['switched off, in the warning', { id: CLEANING, off: true }, cleaned, '2026-10-25', ['ready', 'due']],
    [
      'switched off, of what cannot be shown',
      { id: 'structural-service-life', off: true },
      gear('hood'),
      '2026-11-25',
      ['ready', 'unproven'],
    ],
    [
      'a longer first limit',
      { id: 'complete-liner-inspection-interval', first: 'P5Y' },
      gear('coat-liner'),
      '2027-01-11',
      ['ready', 'expired'],
    ],
    [
      'one that leaves a construction out',
      { id: 'composite-cylinder-life', limit: { carbon: 'P15Y', glass: 'P15Y', aramid: 'P15Y' } },
      hoop,
      '2026-06-01',
      ['ready', 'expired'],
    ],
  ])('%s', (_title, change, element, today, said) => {
    expect(under(change, element, today)).toEqual(said)
  })

  it('switched off has nothing to add where the base finds nothing wrong', () => {
    expect(under({ id: 'wet', off: true }, gear('hood'), '2026-11-24')).toBeUndefined()
    expect(under({ id: 'wet', off: true }, gear('boots', { issuedTo: null }), '2026-11-24')).toBeUndefined()
  })

  it('says in words that it is switched off, or asks nothing of this gear, and what the base found', () => {
    const says = (change: Change, element: Element, today: string) =>
      verdictOf(change.id, element, { today, policy: policyWith(overlay(change)) })!.says
    expect(says({ id: CLEANING, off: true }, cleaned, '2026-11-25')).toBe(
      'the rule is switched off; 6 months from advanced cleaning ended on 24 Nov 2026',
    )
    expect(says({ id: 'composite-cylinder-life', limit: { carbon: 'P15Y' } }, hoop, '2026-06-01')).toBe(
      'the rule is not asked of it here; 15 years from manufacture ended on 31 May 2026',
    )
    expect(
      under({ id: 'composite-cylinder-life', limit: { carbon: 'P15Y' } }, hoop, '2020-06-01'),
    ).toBeUndefined()
  })

  it('asks only about the kinds it is for, switched off or not', () => {
    const pack = gear('air-pack', { called: called('2026-11-24') })
    expect(under({ id: 'one-assembly', off: true }, pack, '2026-11-24')).toBeUndefined()
    expect(under({ id: CLEANING, off: true }, pack, '2026-11-24')).toBeUndefined()
    expect(under({ id: CLEANING, limit: 'P9M' }, pack, '2026-11-24')).toBeUndefined()
  })
})

describe('what must be there', () => {
  const judged = (change: Change, coat: string) =>
    judgeByAll(policyWith(overlay(change)), 'drag-rescue-device', (rule) =>
      judgePresence(
        rule,
        'drag-rescue-device',
        undefined,
        wearer([gear('coat-shell', { edition: coat })]),
        verdict,
      ),
    ).map(({ state, loosened, says }) => [state, loosened, says])
  const id = 'drag-rescue-device-by-edition'

  it('is loosened too: a weaker consequence, and switched off', () => {
    expect(judged({ id, past: 'due' }, '1971-2018')).toEqual([
      ['due', 'missing', 'missing, and coat shell X-0 of 2018 needs one'],
    ])
    expect(judged({ id, off: true }, '1971-2018')).toEqual([
      ['ready', 'missing', 'the rule is switched off; missing, and coat shell X-0 of 2018 needs one'],
    ])
    expect(judged({ id, off: true }, '1971-2000')).toEqual([])
  })

  it('is looked for no more when switched off, and the board says what the base would have', () => {
    const state = fitCrew({ do: 'return-to-rack', element: 'DR-1' })
    const policy = policyWith(overlay({ id, off: true }))
    const [row] = arrange(assess(state, policy, NOW), state).rigs[0]!.rows
    expect([row!.state, row!.loosened]).toEqual([
      'ready',
      [
        'Drag rescue device: the rule is switched off; missing, and coat shell CS-1 of 2018 needs one; under the published base it would be missing.',
      ],
    ])
  })
})

describe('a stricter rule', () => {
  it.each<Change>([
    { id: CLEANING, limit: 'P3M' },
    { id: CLEANING, warn: 'P90D' },
    { id: CLEANING, past: 'out-of-service' },
  ])('%j has nothing loosened on any day', (change) => {
    const days = ['2026-08-25', '2026-10-25', '2026-11-24', '2026-11-25', '2027-05-01']
    for (const today of days) expect(under(change, cleaned, today)![1]).toBeUndefined()
    expect(under(change, cleaned, '2026-11-25')![0]).not.toBe('ready')
  })

  it('of the department’s own making has no base to be looser than', () => {
    const rule = { ...ruleOf(CLEANING), id: 'our-own', limit: 'P9M', reason }
    const laid: Overlay = { name: 'Alder Hollow', changes: [], add: [rule] }
    expect(under(laid, cleaned, '2026-11-25', 'our-own')).toEqual(['ready', undefined])
    expect(under(laid, cleaned, '2026-11-25', CLEANING)).toEqual(['expired', undefined])
  })
})

describe('the board', () => {
  it('says beside a riding position what the base would have said, as whole sentences', () => {
    const later = '2027-03-05T08:00:00.000-05:00'
    const state = fitCrew(
      { do: 'adopt-policy', overlay: overlay({ id: CLEANING, limit: 'P9M' }) },
      reads('1', 4500, '2027-03-05T07:00:00.000-05:00'),
      sendsAway('HO-2'),
    )
    const policy = policyWith(state.overlay!)
    const [officer] = arrange(assess(state, policy, later), state).rigs[0]!.rows
    expect(officer!.fit).toBe(true)
    expect(officer!.loosened).toHaveLength(9)
    expect(officer!.loosened).toContain(
      'Boots BO-1: 9 months from advanced cleaning runs to 1 Jun 2027; under the published base it would be expired.',
    )
  })

  it('is silent where every rule is as published', () => {
    const state = fitCrew()
    const rows = arrange(assess(state, policyWith(overlay(), BASE), NOW), state).rigs[0]!.rows
    expect(rows.flatMap((row) => row.loosened)).toEqual([])
  })
})
