// The figures for garments against the public pages that report them, named beside each check; what is from memory says so.
import { describe, expect, it } from 'vitest'
import type { Kind } from '../../src/domain/kinds.ts'
import { factsOf } from '../../src/domain/kinds.ts'
import { BASE, cared, exposed, gear, presenceOf, ruleOf, verdictOf, wearer } from '../domain/rules/judging.ts'

const WORN: Kind[] = [
  'coat-shell',
  'coat-liner',
  'drag-rescue-device',
  'trouser-shell',
  'trouser-liner',
  'helmet',
  'hood',
  'gloves',
  'boots',
]

describe('service life', () => {
  // firerescue1.com, "The debate: mandatory gear retirement at 10 years"; cafda.net: from manufacture, stock too.
  it.each(WORN)('of a %s ends ten years from manufacture, whether it was issued or not', (kind) => {
    for (const issuedTo of ['M-1', null]) {
      const element = gear(kind, { made: '2016-03', issuedTo, issuedOn: issuedTo && '2024-01-10' })
      expect(verdictOf('structural-service-life', element, { today: '2026-02-28' })!.state).toBe('due')
      expect(verdictOf('structural-service-life', element, { today: '2026-03-01' })!.state).toBe('expired')
    }
  })

  it('is not asked of breathing apparatus, which has limits of its own', () => {
    expect(ruleOf('structural-service-life').kinds).toEqual(WORN)
  })
})

describe('the intervals of the 2020 edition', () => {
  // Beaumont TX SOG 601.01A 2.4 (inspection, 12 months) and 3.1 (cleaning, 6 months; industrialfireworld.com/601549).
  it.each([
    ['advanced-inspection-interval', 'advanced-inspection', '2027-02-28', '2027-03-01'],
    ['advanced-cleaning-interval', 'advanced-cleaning', '2026-08-28', '2026-08-29'],
  ] as const)('%s is kept on its last day and not the day after', (rule, care, last, after) => {
    const element = gear('hood', { cares: [cared(care, '2026-02-28')] })
    expect(verdictOf(rule, element, { today: last })!.state).toBe('due')
    expect(verdictOf(rule, element, { today: after })!.state).toBe('expired')
  })

  // fireuniformrepair.com/inspection.html for 2008; for 2020 it is from memory, which the policy says.
  it('has the first complete liner inspection at three years and then yearly, and calls it provisional', () => {
    expect(ruleOf('complete-liner-inspection-interval')).toMatchObject({
      first: 'P3Y',
      limit: 'P12M',
      source: { edition: '2008', standing: 'from memory' },
    })
    expect(BASE.provisional).toContain('from memory')
  })
})

const smoked = (kind: Kind) =>
  gear(kind, { exposures: [exposed('products-of-combustion', '2026-11-23T14:00:00.000-05:00')] })

describe('cleaning', () => {
  // Beaumont TX SOG 601.01A 3.1: an advanced cleaning also after exposure to products of combustion, whatever the interval.
  it.each(WORN)('of a %s is due at once after products of combustion', (kind) => {
    const fresh = { ...smoked(kind), cares: [cared('advanced-cleaning', '2026-11-22', { seq: 19 })] }
    expect(verdictOf('advanced-cleaning-interval', fresh, { today: '2026-11-23' })!.state).toBe('ready')
    expect(verdictOf('smoke-exposure', fresh, { today: '2026-11-23' })!.state).toBe('out-of-service')
    const cleaned = {
      ...fresh,
      cares: [...fresh.cares, cared('advanced-cleaning', '2026-11-24', { seq: 21 })],
    }
    expect(verdictOf('smoke-exposure', cleaned, { today: '2026-11-24' })!.state).toBe('ready')
  })

  // firerescue1.com; wscff.org: rinsing at the scene is not cleaning; specialised cleaning for hazardous materials and body fluids.
  it.each(['body-fluid-exposure', 'hazardous-material-exposure'])(
    '%s takes a specialised cleaning and no other',
    (rule) => {
      expect(ruleOf(rule).watch).toMatchObject({ clearedBy: ['specialised-cleaning'] })
    },
  )
})

describe('what belongs together', () => {
  // 8 CCR 3406: a shell is not worn without its liner.
  it.each(['coat-liner', 'trouser-liner'] as const)('a missing %s is missing, for safety', (kind) => {
    expect(presenceOf('element-missing', kind, undefined)).toMatchObject({
      state: 'missing',
      matter: 'safety',
    })
  })

  // firerescue1.com, "Should the firefighter drag device remain mandatory": coats labelled to the 2007 edition and later.
  it.each([
    ['1971-1997', 'ready'],
    ['1971-2000', 'ready'],
    ['1971-2007', 'missing'],
    ['1971-2013', 'missing'],
    ['1971-2018', 'missing'],
  ])('a coat labelled %s without a drag rescue device is %s', (edition, state) => {
    const coat = wearer([gear('coat-shell', { edition })])
    expect(presenceOf('drag-rescue-device-by-edition', 'drag-rescue-device', undefined, coat)!.state).toBe(
      state,
    )
  })
})

describe('the routine inspection list', () => {
  // The 2008 list as Las Vegas SOP 406.02 and College Station SOP 300.2.10 give it, in the catalogue's words.
  it.each<[Kind, string[]]>([
    [
      'coat-shell',
      ['rip, tear or cut', 'abrasion', 'hardware or closure', 'seam or stitch', 'reflective trim'],
    ],
    ['trouser-liner', ['char, burn hole, melt or discolouration', 'assembly or size of shell and liner']],
    ['hood', ['hole', 'heat damage', 'face opening elasticity', 'stretched or shrunk']],
    [
      'helmet',
      [
        'crack, crazing or dent',
        'bubbling, soft spot or warping',
        'ear covers',
        'suspension or chin strap',
        'impact cap',
        'faceshield or goggles',
      ],
    ],
    ['gloves', ['hole', 'heat damage', 'liner inverted or pulled out', 'shrinkage', 'dexterity', 'wristlet']],
    [
      'boots',
      [
        'cut, puncture or crack',
        'tread wear',
        'toe or shank exposed',
        'sole separation',
        'water resistance',
        'closure',
      ],
    ],
    ['facepiece', ['lens', 'head straps', 'valve']],
    ['air-pack', ['regulator', 'gauges do not agree', 'low-air alarm', 'PASS alarm']],
  ])('of a %s looks at what the list names', (kind, points) => {
    expect(points.filter((point) => !factsOf(kind).points.includes(point))).toEqual([])
  })
})
