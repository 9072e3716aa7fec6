// The figures for breathing apparatus against the public law and letters they come from, named beside each check.
import { describe, expect, it } from 'vitest'
import { CONSTRUCTIONS } from '../../src/domain/kinds.ts'
import { isLow } from '../../src/domain/rules/conditions.ts'
import { cared, gear, read, ruleOf, tested, verdictOf, wearer } from '../domain/rules/judging.ts'

describe('the pressure at which a cylinder is recharged', () => {
  // 29 CFR 1910.134(h)(3)(iii): recharged when the pressure falls to 90% of the manufacturer's recommended level.
  // OSHA letter of interpretation, 2005-08-19. The psi below are 90% of common ratings, worked out by hand and rounded down.
  it.each([
    [4500, 4050],
    [5500, 4950],
    [3000, 2700],
    [2216, 1994],
  ])('of %d psi is %d psi or less', (rated, psi) => {
    expect(isLow(psi, rated, 0.9)).toBe(true)
    expect(isLow(psi + 1, rated, 0.9)).toBe(false)
  })

  it('is the one in the policy', () => {
    expect(ruleOf('cylinder-pressure').watch).toEqual({ reading: 'pressure', atMost: 0.9, of: 'rated' })
  })

  it('is exact for every rating: at most nine tenths, compared in whole numbers', () => {
    const wrong = Array.from({ length: 6000 }, (_, index) => index + 100).filter((rated) => {
      const most = (rated * 9 - ((rated * 9) % 10)) / 10
      return !isLow(most, rated, 0.9) || isLow(most + 1, rated, 0.9)
    })
    expect(wrong).toEqual([])
  })

  // The gas law at constant volume (any physics handbook): pressure goes with absolute temperature.
  it('is reached by cold alone: a cylinder filled to 4500 psi at 21 C is low at -18 C', () => {
    const cold = Math.round((4500 * (273 - 18)) / (273 + 21))
    const at = '2026-01-10T07:10:00.000-05:00'
    const cylinder = gear('cylinder', { ratedPsi: 4500, readings: [read(cold, at)] })
    expect(verdictOf('cylinder-pressure', cylinder, { today: '2026-01-10' })!.state).toBe('out-of-service')
  })
})

describe('the hydrostatic test', () => {
  // 49 CFR 180.209: steel, aluminium and fully wrapped carbon every 5 years; hoop wrapped, glass and aramid every 3.
  const YEARS = { steel: 5, aluminium: 5, carbon: 5, glass: 3, aramid: 3, hoop: 3 }

  it.each(CONSTRUCTIONS.map((each) => [each, YEARS[each]] as const))(
    'of %s is good for %d years',
    (construction, years) => {
      const cylinder = gear('cylinder', { construction, cares: [cared('hydrostatic-test', '2021-05-20')] })
      const on = (today: string) => verdictOf('hydrostatic-test-interval', cylinder, { today })!.state
      expect(on(`${2021 + years}-05-20`)).toBe('due')
      expect(on(`${2021 + years}-05-21`)).toBe('expired')
    },
  )
})

describe('the life of a composite cylinder', () => {
  // DOT notice 94-1, 59 FR: 15 years. Steel and aluminium have no such life in it.
  it.each([
    ['carbon', true],
    ['glass', true],
    ['aramid', true],
    ['hoop', true],
    ['steel', false],
    ['aluminium', false],
  ] as const)('ends after 15 years for %s: %s', (construction, ends) => {
    const cylinder = gear('cylinder', { construction, made: '2011-06' })
    const on = (today: string) => verdictOf('composite-cylinder-life', cylinder, { today })?.state
    expect(on('2026-05-31')).toBe(ends ? 'due' : undefined)
    expect(on('2026-06-01')).toBe(ends ? 'expired' : undefined)
  })
})

describe('the fit test', () => {
  // 29 CFR 1910.134(f)(2): before first use, with any other make, model, style or size, and at least annually.
  const facepiece = gear('facepiece', { model: 'Clear Two', size: 'M' })
  const on = (today: string, fitTests = [tested('2026-02-01')]) =>
    verdictOf('fit-test', facepiece, { today }, wearer([], { fitTests }))!

  it('is good through its anniversary and not the day after', () => {
    expect(on('2027-02-01').state).toBe('due')
    expect(on('2027-02-02').state).toBe('expired')
  })
  it('before the first one proves nothing', () => {
    expect(on('2026-02-01', []).state).toBe('unproven')
  })
  it('with another size or model is for another facepiece, whatever its date', () => {
    const sizeL = { facepiece: { model: 'Clear Two', size: 'L' } }
    const other = { facepiece: { model: 'Clear Three', size: 'M' } }
    expect(on('2026-02-02', [tested('2026-02-01', sizeL)])).toMatchObject({
      state: 'out-of-service',
      matter: 'safety',
    })
    expect(on('2026-02-02', [tested('2026-02-01', other)])).toMatchObject({
      state: 'out-of-service',
      matter: 'safety',
    })
  })
})

describe('the flow test of an air pack', () => {
  // Texas Government Code 419.041(e): yearly. That NFPA asks the same is from memory.
  it('is good for a year', () => {
    const pack = gear('air-pack', { cares: [cared('flow-test', '2025-11-24')] })
    expect(verdictOf('flow-test-interval', pack, { today: '2026-11-24' })!.state).toBe('due')
    expect(verdictOf('flow-test-interval', pack, { today: '2026-11-25' })!.state).toBe('expired')
  })

  // 29 CFR 1910.134(h)(4): what is found defective is removed from service.
  it('that it failed puts it out of service until it is shown to be mended', () => {
    expect(ruleOf('tagged-out')).toMatchObject({ past: 'out-of-service', matter: 'safety' })
    expect(ruleOf('tagged-out').kinds).toContain('air-pack')
    const failed = gear('air-pack', {
      cares: [cared('flow-test', '2025-11-24', { result: 'unserviceable' })],
    })
    expect(verdictOf('flow-test-interval', failed, { today: '2026-11-24' })!.state).toBe('expired')
  })
})
