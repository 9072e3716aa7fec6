// The table of the cylinder's pressure, one psi on either side of each limit.
import type { Care, Exposure } from '../../../src/domain/kinds.ts'
import { cared, exposed, gear, read, verdictOf, type Case, type Day } from './judging.ts'
import type { Element } from '../../../src/domain/state.ts'

const TODAY: Day = { today: '2026-11-24' }
const cylinder = (psi: number, ratedPsi: number | undefined, at = '2026-11-24T07:10:00.000-05:00') =>
  gear('cylinder', { readings: [read(psi, at)], ...(ratedPsi !== undefined && { ratedPsi }) })
const TOUR: Day = { ...TODAY, until: '2026-11-25', tourSince: '2026-11-24T07:00:00.000-05:00' }
const OVER: Day = { ...TODAY, tourSince: TOUR.tourSince!, isTourOpen: false }

// 29 CFR 1910.134(h)(3)(iii), recharged when pressure falls to 90%; OSHA letter of interpretation, 2005-08-19.
const LIMITS: [atOrBelow: number, rated: number][] = [
  [4050, 4500],
  [4950, 5500],
  [2700, 3000],
  [1994, 2216],
]
const reading = (
  side: Case['side'],
  title: string,
  element: Element,
  state: Case['state'],
  day: Day = TOUR,
): Case => ({
  rule: 'cylinder-pressure',
  side,
  title,
  state,
  matter: 'safety',
  judge: () => verdictOf('cylinder-pressure', element, day),
})
const AT = '2026-11-24T07:10:00'
/** Read full at ten past seven by event 30, and exposed. */
const exposedAt = (sort: Exposure, at: string, seq = 60): Element => ({
  ...cylinder(4500, 4500),
  exposures: [exposed(sort, `${at}.000-05:00`, seq)],
})
const caredFor = (care: Care, on: string, seq: number): Element => ({
  ...cylinder(4500, 4500),
  cares: [cared(care, on, { seq })],
})
export const PRESSURE_CASES = [
  ...LIMITS.flatMap(([psi, rated]) => [
    reading('past', `${psi} of ${rated}`, cylinder(psi, rated), 'out-of-service'),
    reading('within', `${psi + 1} of ${rated}`, cylinder(psi + 1, rated), 'ready'),
  ]),
  reading('within', 'read as the tour opened', cylinder(4500, 4500, TOUR.tourSince), 'ready'),
  reading('past', 'read a second before', cylinder(4500, 4500, '2026-11-24T06:59:59.000-05:00'), 'unproven'),
  reading(
    'past',
    'low before this tour is low still',
    cylinder(4050, 4500, '2026-11-23T07:00:00.000-05:00'),
    'out-of-service',
  ),
  reading(
    'within',
    'as the tour opened, written in another zone',
    cylinder(4500, 4500, '2026-11-24T06:00:00.000-06:00'),
    'ready',
  ),
  reading('within', 'no tour, read today', cylinder(4500, 4500), 'ready', TODAY),
  reading('within', 'read in the tour that was handed over today', cylinder(4500, 4500), 'ready', OVER),
  reading(
    'past',
    'not read in the tour that was handed over today, but in the one before it',
    cylinder(4500, 4500, '2026-11-24T06:59:59.000-05:00'),
    'unproven',
    OVER,
  ),
  reading('past', 'no tour, read yesterday', cylinder(4500, 4500), 'unproven', { today: '2026-11-25' }),
  reading(
    'past',
    'the newest reading counts',
    gear('cylinder', {
      ratedPsi: 4500,
      readings: [read(4500, '2026-11-24T07:10:00.000-05:00'), read(900, '2026-11-24T09:00:00.000-05:00')],
    }),
    'out-of-service',
  ),
  ...(['products-of-combustion', 'body-fluids', 'water', 'other'] as const).flatMap((sort) => [
    reading(
      'past',
      `exposed to ${sort} since it was read`,
      exposedAt(sort, '2026-11-24T09:00:00'),
      'unproven',
    ),
    reading('within', `exposed to ${sort} before`, exposedAt(sort, '2026-11-24T07:09:59'), 'ready'),
  ]),
  reading('past', 'exposed at that instant, and recorded after', exposedAt('other', AT), 'unproven'),
  reading('within', 'exposed at that instant, and recorded before', exposedAt('other', AT, 20), 'ready'),
  // 49 CFR 180.205: a hydrostatic test fills it with water. That a repair empties it is common practice.
  ...(['hydrostatic-test', 'repair'] as const).flatMap((care) => [
    reading('past', `${care} on a later day than it was read`, caredFor(care, '2026-11-25', 10), 'unproven'),
    reading(
      'past',
      `${care} recorded after it was read that day`,
      caredFor(care, '2026-11-24', 60),
      'unproven',
    ),
    reading(
      'within',
      `${care} recorded before it was read that day`,
      caredFor(care, '2026-11-24', 20),
      'ready',
    ),
    reading('within', `${care} of the day before, recorded late`, caredFor(care, '2026-11-23', 60), 'ready'),
  ]),
  reading(
    'within',
    'looked over after it was read, which lets no air out',
    caredFor('routine-inspection', '2026-11-24', 60),
    'ready',
  ),
  reading('nothing', 'never read', gear('cylinder', { ratedPsi: 4500 }), 'unproven'),
  reading('nothing', 'rated pressure unknown', cylinder(4500, undefined), 'unproven'),
]
