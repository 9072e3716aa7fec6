// What a verdict adds to what it found: what to do, whether the figure is confirmed, and that a cold cylinder reads low.
import { describe, expect, it } from 'vitest'
import { BASES } from '../../../src/domain/policy/bases.ts'
import { layOver } from '../../../src/domain/policy/in-force.ts'
import { overlayShape, type Overlay } from '../../../src/domain/policy/shape.ts'
import { judgePresence } from '../../../src/domain/rules/composition.ts'
import { psiAtRated } from '../../../src/domain/rules/conditions.ts'
import { given } from '../given.ts'
import { CASES } from './cases.ts'
import { verdict } from '../../../src/domain/rules/verdict.ts'
import { BASE, exposed, gear, policyWith, presenceOf, read, ruleOf, verdictOf, wearer } from './judging.ts'

const AT_NOON = '2026-11-24T12:00:00.000-05:00'
const DOUBT = /this (figure|rule) is not confirmed/

describe('a rule from memory', () => {
  it('says so after every verdict that is not ready, and no other rule ever does', () => {
    let doubted = 0
    for (const { rule, judge } of CASES) {
      const found = judge()
      if (!found) continue
      const isDoubtful = ruleOf(rule).source.standing === 'from memory' && found.state !== 'ready'
      expect(`${rule} ${DOUBT.test(found.says)}`).toBe(`${rule} ${isDoubtful}`)
      if (isDoubtful) doubted++
    }
    expect(doubted).toBeGreaterThan(3)
  })

  it('calls a limit a figure, and a rule without one a rule', () => {
    const policy = layOver(BASES.get('nfpa-1850-provisional')!, null)
    const day = { today: '2026-11-24', policy }
    const smoked = gear('hood', {
      made: '2016-03',
      exposures: [exposed('products-of-combustion', '2026-11-23T14:00:00.000-05:00')],
    })
    expect(verdictOf('structural-service-life', smoked, day)!.says).toBe(
      '10 years from manufacture ended on 28 Feb 2026; this figure is not confirmed',
    )
    expect(verdictOf('smoke-exposure', smoked, day)!.says).toBe(
      'exposed to products of combustion on 23 Nov 2026, needs advanced cleaning or specialised cleaning; this rule is not confirmed',
    )
    expect(verdictOf('smoke-exposure', gear('hood'), day)!.says).toBe(
      'no open exposure to products of combustion',
    )
  })
})

describe('the advice of a rule', () => {
  it('is said when something is to be done and not when all is well', () => {
    const advised = BASE.rules.filter((rule) => rule.advice !== undefined).map((rule) => rule.id)
    expect(advised).toEqual(['hydrostatic-test-interval', 'breathing-apparatus-monthly-inspection'])
    for (const { rule, judge } of CASES) {
      const found = judge()
      const { advice } = ruleOf(rule)
      if (!found || advice === undefined) continue
      expect(found.says.endsWith(`; ${advice}`)).toBe(found.state !== 'ready')
    }
  })

  it('of what must be there is said of a gap', () => {
    const advice = 'look in the drying room'
    const rule = { ...ruleOf('element-missing'), advice }
    const missing = judgePresence(rule, 'hood', undefined, wearer(), verdict)!
    expect(missing.says).toBe(`missing; ${advice}`)
    expect(presenceOf('element-missing', 'hood', undefined)!.says).toBe('missing')
  })
})

describe('a cold or a hot cylinder', () => {
  // Ideal-gas law at constant volume (any physics handbook): p1 / T1 = p2 / T2, with 0 C = 273.15 K and 70 F = 294.26 K.
  // 4500 psi at 70 F is 4500 x 274.15 / 294.26 = 4192.47 psi at 1 C; 4192 x 294.26 / 274.15 = 4499.5, just under.
  it.each([
    [4192, 1, 4499],
    [4190, 1, 4497],
    [4500, 21, 4502],
    [3900, -18, 4498],
    [4050, 0, 4363],
    [4500, 21.11, 4500],
    [4100, 43.3, 3813],
    [0, -20, 0],
  ])('that reads %d psi at %d C reads about %d at 21 C', (psi, celsius, warm) => {
    expect(psiAtRated(psi, celsius)).toBe(warm)
  })

  const DAY = { today: '2026-01-10' }
  const AT = '2026-01-10T07:10:00.000-05:00'
  const reading = (psi: number, celsius?: number) =>
    verdictOf(
      'cylinder-pressure',
      gear('cylinder', {
        ratedPsi: 4500,
        readings: [{ ...read(psi, AT), ...(celsius !== undefined && { celsius }) }],
      }),
      DAY,
    )!

  it('is told with what it would read when warm, under 15 C and not from there on', () => {
    expect(reading(4192, 1).says).toBe('4192 of 4500 psi (at 1 C; warmed to 21 C it would read about 4499)')
    expect(reading(4050, 0).says).toBe(
      '4050 psi is at or below 90% of 4500 (at 0 C; warmed to 21 C it would read about 4363): change or refill it',
    )
    expect(reading(4400, 14.9).says).toContain('at 14.9 C; warmed to 21 C')
    expect(reading(4400, 15).says).toBe('4400 of 4500 psi')
    expect(reading(4400).says).toBe('4400 of 4500 psi')
  })

  it('is told with what it would read when it has cooled, over 27 C and not up to there', () => {
    expect(reading(4400, 43.3).says).toBe(
      '4400 of 4500 psi (at 43.3 C; cooled to 21 C it would read about 4091)',
    )
    expect(reading(4100, 27.1).says).toContain('at 27.1 C; cooled to 21 C')
    expect(reading(4100, 27).says).toBe('4100 of 4500 psi')
  })

  // 29 CFR 1910.134(h)(3)(iii) speaks of the pressure, not of what it would be in a warm room.
  it.each([-40, -18, 0, 14, 15, 21, 27])('is judged by its gauge at %d C as at any other', (celsius) => {
    expect([4050, 4051].map((psi) => reading(psi, celsius).state)).toEqual(['out-of-service', 'ready'])
    expect([4050, 4051].map((psi) => reading(psi).state)).toEqual(['out-of-service', 'ready'])
  })

  // 4355 x 294.26 / 316.45 = 4049.6, at the limit; 4356 x 294.26 / 316.45 = 4050.6, above it. By the gauge neither is low.
  it('that will be low once it has cooled is not known to be ready, nor called below the limit that the law sets', () => {
    expect([4050, 4355, 4356].map((psi) => reading(psi, 43.3).state)).toEqual([
      'out-of-service',
      'unproven',
      'ready',
    ])
    expect(reading(4100, 43.3).says).toBe(
      '4100 of 4500 psi (at 43.3 C; cooled to 21 C it would read about 3813), at or below 90%: read it again once cool, or change or refill it',
    )
  })

  // Common practice, from memory: a tenth over the rating is a gauge misread or a cylinder filled too far.
  it('that reads more than a tenth over its rating is not known to be ready; warmth is allowed for', () => {
    expect([4950, 4951].map((psi) => reading(psi).state)).toEqual(['ready', 'unproven'])
    expect(reading(5600).says).toBe(
      "5600 psi is more than 10% over its rated 4500: read it again, and if it is so the maker's instructions decide",
    )
    expect(reading(5200, 60).state).toBe('ready')
  })
})

describe('preliminary exposure reduction', () => {
  const clearing = (clearedBy: string[]) => ({
    name: 'Alder Hollow',
    changes: [],
    add: [
      {
        ...ruleOf('smoke-exposure'),
        id: 'our-own',
        watch: { exposure: 'other', clearedBy },
        reason: 'So decided.',
      },
    ],
  })

  // firerescue1.com; wscff.org: it is not cleaning and does not make gear fit for reuse.
  it('cannot be named by an overlay as what clears an exposure, and the refusal says why', () => {
    given()
      .when({
        do: 'adopt-policy',
        overlay: clearing(['advanced-cleaning', 'preliminary-exposure-reduction']),
      })
      .refuses(
        'adopt-policy: overlay.add.0.watch.clearedBy must not name preliminary exposure reduction: it is not cleaning and clears nothing. Nothing was recorded.',
      )
      .changesNothing()
    expect(overlayShape.safeParse(clearing(['advanced-cleaning'])).success).toBe(true)
  })

  it('moves no date either', () => {
    const care = { care: 'preliminary-exposure-reduction', on: '2026-11-24', result: 'serviceable' } as const
    const rinsed = { cares: [{ seq: 9, at: AT_NOON, by: 'M-1', ...care }] }
    const policy = policyWith({ name: 'none', changes: [], add: [] } satisfies Overlay)
    for (const { id, kinds } of BASE.rules) {
      const day = { today: '2026-11-24', policy }
      const [before, after] = [gear(kinds[0]!), gear(kinds[0]!, rinsed)].map((each) =>
        verdictOf(id, each, day),
      )
      expect(after).toEqual(before)
    }
  })
})
