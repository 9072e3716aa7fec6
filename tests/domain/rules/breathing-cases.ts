// The tables of the monthly inspection and the function check of breathing apparatus, on both sides of what each asks.
import { CARES, type Care } from '../../../src/domain/kinds.ts'
import { called, cared, exposed, gear, verdictOf, type Case } from './judging.ts'
import { dayTable, done } from './day-table.ts'

// 29 CFR 1910.134(h)(3)(i)(B): apparatus for emergencies is inspected at least monthly. Past it, this policy warns.
const MONTHLY = (['air-pack', 'cylinder'] as const).flatMap((kind) =>
  dayTable('breathing-apparatus-monthly-inspection', kind, [
    ['within', `${kind}, the day itself`, done('routine-inspection', '2026-10-24'), '2026-11-24', 'ready'],
    [
      'past',
      `${kind}, the day after`,
      done('routine-inspection', '2026-10-24'),
      '2026-11-25',
      'due',
      '2026-11-24',
    ],
    [
      'within',
      `${kind}, 31 January and a month`,
      done('routine-inspection', '2026-01-31'),
      '2026-02-28',
      'ready',
    ],
    [
      'past',
      `${kind}, 1 March after 31 January`,
      done('routine-inspection', '2026-01-31'),
      '2026-03-01',
      'due',
    ],
    ['within', `${kind}, called a month ago`, { called: called('2026-10-24') }, '2026-11-24', 'ready'],
    [
      'past',
      `${kind}, called longer ago`,
      { called: called('2026-10-23') },
      '2026-11-24',
      'due',
      '2026-11-23',
    ],
    [
      'within',
      `${kind}, called since an old inspection`,
      { ...done('routine-inspection', '2026-01-31'), called: called('2026-11-01') },
      '2026-12-01',
      'ready',
      '2026-12-01',
    ],
    [
      'within',
      `${kind}, inspected since an old call`,
      { ...done('routine-inspection', '2026-11-02'), called: called('2026-01-31') },
      '2026-12-02',
      'ready',
      '2026-12-02',
    ],
    ['within', `${kind}, a month from issue`, {}, '2024-02-10', 'ready', '2024-02-10'],
    ['past', `${kind}, never inspected since`, {}, '2024-02-11', 'due', '2024-02-10'],
    [
      'past',
      `${kind}, an inspection it failed starts no month`,
      { cares: [cared('routine-inspection', '2026-11-20', { result: 'unserviceable' })] },
      '2026-11-24',
      'due',
    ],
    ['nothing', `${kind}, in use since nobody knows when`, { issuedOn: null }, '2026-11-24', 'unproven'],
    ['nothing', `${kind}, never issued`, { issuedOn: null, issuedTo: null }, '2026-11-24', 'none'],
  ]),
)

const AT = '2026-11-23T14:00:00.000-05:00'
const CHECKED: Care[] = ['function-check', 'flow-test']
const used = (care: Care, on: string, more: Parameters<typeof cared>[2] = {}) =>
  gear('air-pack', {
    exposures: [exposed('products-of-combustion', AT)],
    cares: [cared(care, on, { seq: 21, ...more })],
  })

const one = (side: Case['side'], title: string, element: ReturnType<typeof gear>, state: Case['state']) => ({
  rule: 'function-check-after-use',
  side,
  title,
  state,
  matter: 'compliance' as const,
  judge: () => verdictOf('function-check-after-use', element, { today: '2026-11-24' }),
})

// 29 CFR 1910.134(h)(3)(i)(B): checked for proper function before and after each use. A working fire is a use.
const FUNCTION_CHECK: Case[] = [
  one('nothing', 'nothing on record', gear('air-pack'), 'ready'),
  one(
    'within',
    'body fluids are not a use',
    gear('air-pack', { exposures: [exposed('body-fluids', AT)] }),
    'ready',
  ),
  one(
    'past',
    'used and not checked',
    gear('air-pack', { exposures: [exposed('products-of-combustion', AT)] }),
    'due',
  ),
  ...CARES.map((care) =>
    CHECKED.includes(care)
      ? one('within', `${care} is a check`, used(care, '2026-11-23', { at: AT }), 'ready')
      : one('past', `${care} is no check`, used(care, '2026-11-23', { at: AT }), 'due'),
  ),
  one('past', 'checked the day before', used('function-check', '2026-11-22'), 'due'),
  one(
    'past',
    'checked, and it failed',
    used('function-check', '2026-11-24', { result: 'unserviceable' }),
    'due',
  ),
  one(
    'past',
    'used again since',
    gear('air-pack', {
      exposures: [
        exposed('products-of-combustion', AT),
        exposed('products-of-combustion', '2026-11-24T02:00:00.000-05:00', 30),
      ],
      cares: [cared('function-check', '2026-11-23', { seq: 21, at: AT })],
    }),
    'due',
  ),
]

export const BREATHING_CASES: Case[] = [...MONTHLY, ...FUNCTION_CHECK]
