// The tables of the rules about tags, exposures and wet, on both sides of what clears each.
import { CARES, EXPOSURES, type Care, type Exposure, type Kind } from '../../../src/domain/kinds.ts'
import type { Element } from '../../../src/domain/state.ts'
import { cared, exposed, gear, said, tagged, verdictOf, type Case, type Day } from './judging.ts'

const TODAY: Day = { today: '2026-11-24' }

const one = (
  rule: string,
  side: Case['side'],
  title: string,
  element: Element,
  state: Case['state'],
  more: { matter?: Case['matter']; day?: Day } = {},
): Case => ({
  rule,
  side,
  title,
  state,
  ...(more.matter && { matter: more.matter }),
  judge: () => verdictOf(rule, element, more.day ?? TODAY),
})

const torn = tagged('torn seam', 'safety')
const paper = tagged('label not legible', 'compliance', 39)
const TAGS = [
  one('tagged-out', 'within', 'no tag', gear('boots'), 'ready'),
  one('tagged-out', 'nothing', 'nothing on record', gear('hood', { issuedOn: null }), 'ready'),
  one('tagged-out', 'past', 'tagged for safety', gear('boots', { tags: [torn] }), 'out-of-service', {
    matter: 'safety',
  }),
  one('tagged-out', 'past', 'tagged for a record', gear('boots', { tags: [paper] }), 'out-of-service', {
    matter: 'compliance',
  }),
  one(
    'tagged-out',
    'past',
    'safety comes before records',
    gear('boots', { tags: [paper, torn] }),
    'out-of-service',
    {
      matter: 'safety',
    },
  ),
]

// 29 CFR 1910.134(h)(4): what was taken out of use for repair is not used until it is repaired.
const sent = said(41, '2026-11-20T09:00:00.000-05:00')
const backFromRepair = (...cares: Element['cares']): Element =>
  gear('boots', {
    fromRepair: { ...said(45, '2026-11-22T09:00:00.000-05:00'), place: 'Invented Gear Works', sent },
    cares,
  })
const REPAIRS = [
  one('tagged-out', 'nothing', 'back from repair, none on record', backFromRepair(), 'unproven'),
  one(
    'tagged-out',
    'within',
    'repaired on the day it was sent',
    backFromRepair(cared('repair', '2026-11-20', { seq: 46 })),
    'ready',
  ),
  one(
    'tagged-out',
    'within',
    'its repair came with it',
    backFromRepair(cared('repair', '2026-11-22', { seq: 45 })),
    'ready',
  ),
  one(
    'tagged-out',
    'nothing',
    'repaired earlier on the day it was sent',
    backFromRepair(cared('repair', '2026-11-20', { seq: 40 })),
    'unproven',
  ),
  one(
    'tagged-out',
    'nothing',
    'repaired the day before',
    backFromRepair(cared('repair', '2026-11-19', { seq: 46 })),
    'unproven',
  ),
  one(
    'tagged-out',
    'nothing',
    'not to be repaired',
    backFromRepair(cared('repair', '2026-11-21', { seq: 46, result: 'unserviceable' })),
    'unproven',
  ),
  one(
    'tagged-out',
    'nothing',
    'looked at in a roll call only',
    backFromRepair(cared('routine-inspection', '2026-11-23', { seq: 46 })),
    'unproven',
  ),
  one(
    'tagged-out',
    'within',
    'inspected since it is back',
    backFromRepair(cared('advanced-inspection', '2026-11-22', { seq: 46 })),
    'ready',
  ),
  one(
    'tagged-out',
    'nothing',
    'inspected before it came back',
    backFromRepair(cared('advanced-inspection', '2026-11-22', { seq: 44 })),
    'unproven',
  ),
]

// What clears each exposure, written out: public reports of NFPA 1851 for garments, common practice for apparatus and wet.
const CLEARS: [rule: string, kind: Kind, exposure: Exposure, clears: Care[]][] = [
  ['smoke-exposure', 'coat-liner', 'products-of-combustion', ['advanced-cleaning', 'specialised-cleaning']],
  [
    'smoke-exposure-breathing-apparatus',
    'facepiece',
    'products-of-combustion',
    ['routine-cleaning', 'advanced-cleaning', 'specialised-cleaning'],
  ],
  ['body-fluid-exposure', 'gloves', 'body-fluids', ['specialised-cleaning']],
  ['hazardous-material-exposure', 'boots', 'hazardous-material', ['specialised-cleaning']],
  ['other-exposure', 'hood', 'other', ['advanced-cleaning', 'specialised-cleaning']],
  ['wet', 'coat-liner', 'water', ['drying']],
]

const AT = '2026-11-23T14:00:00.000-05:00'
const EXPOSED = CLEARS.flatMap(([rule, kind, exposure, clears]): Case[] => {
  const after = (care: Care) =>
    gear(kind, { exposures: [exposed(exposure, AT)], cares: [cared(care, '2026-11-24', { seq: 21 })] })
  const others = EXPOSURES.filter((each) => each !== exposure)
  return [
    one(rule, 'nothing', 'nothing on record', gear(kind), 'ready'),
    one(
      rule,
      'within',
      'other exposures are for other rules',
      gear(kind, { exposures: others.map((each) => exposed(each, AT)) }),
      'ready',
    ),
    one(rule, 'past', 'exposed', gear(kind, { exposures: [exposed(exposure, AT)] }), 'out-of-service', {
      matter: 'safety',
    }),
    ...CARES.map((care) =>
      clears.includes(care)
        ? one(rule, 'within', `${care} clears it`, after(care), 'ready')
        : one(rule, 'past', `${care} does not clear it`, after(care), 'out-of-service'),
    ),
    one(
      rule,
      'past',
      'the care failed',
      gear(kind, {
        exposures: [exposed(exposure, AT)],
        cares: [cared(clears[0]!, '2026-11-24', { seq: 21, result: 'unserviceable' })],
      }),
      'out-of-service',
    ),
  ]
})

/** An exposure at 14:00 on the 24th and a cleaning the same day. */
const sameDay = (side: Case['side'], title: string, seq: number, at: string, state: Case['state']): Case =>
  one(
    'smoke-exposure',
    side,
    title,
    gear('coat-shell', {
      exposures: [exposed('products-of-combustion', '2026-11-24T14:00:00.000-05:00', 20)],
      cares: [cared('advanced-cleaning', '2026-11-24', { seq, at })],
    }),
    state,
  )

const clean = cared('advanced-cleaning', '2026-11-24', { seq: 19 })
const ORDER = [
  sameDay('within', 'cleaned and recorded later that day', 21, '2026-11-24T20:00:00.000-05:00', 'ready'),
  sameDay('within', 'at the same instant, recorded after it', 21, '2026-11-24T14:00:00.000-05:00', 'ready'),
  sameDay('past', 'cleaned and recorded before it', 19, '2026-11-24T09:00:00.000-05:00', 'out-of-service'),
  sameDay('past', 'recorded after it, done earlier', 21, '2026-11-24T09:00:00.000-05:00', 'out-of-service'),
  sameDay('past', 'recorded before it, dated later', 19, '2026-11-24T20:00:00.000-05:00', 'out-of-service'),
  one(
    'smoke-exposure',
    'past',
    'an exposure one day newer than the cleaning counts at once',
    gear('coat-shell', {
      exposures: [exposed('products-of-combustion', '2026-11-25T00:01:00.000-05:00')],
      cares: [clean],
    }),
    'out-of-service',
    { day: { today: '2026-11-25' } },
  ),
  one(
    'smoke-exposure',
    'past',
    'one cleared exposure does not clear a newer one',
    gear('coat-shell', {
      exposures: [
        exposed('products-of-combustion', '2026-11-20T10:00:00.000-05:00', 18),
        exposed('products-of-combustion', '2026-11-25T10:00:00.000-05:00', 20),
      ],
      cares: [clean],
    }),
    'out-of-service',
    { day: { today: '2026-11-25' } },
  ),
]

export const CONDITION_CASES: Case[] = [...TAGS, ...REPAIRS, ...EXPOSED, ...ORDER]
