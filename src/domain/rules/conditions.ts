// Rules about the state an element is in just now: tags, exposures, wet, the cylinder's pressure.
import { plain, type Care, type Exposure } from '../kinds.ts'
import type { Condition } from '../policy/shape.ts'
import { clockOf, dateOf, isLater, sayDate } from '../time.ts'
import {
  isNewer,
  type CareRecord,
  type Element,
  type ExposureRecord,
  type FromRepair,
  type Reading,
  type Said,
} from '../state.ts'
import type { Judge, Told } from './verdict.ts'

/** On a day of its own only the journal's order can tell. What came back with its care came by the same event. */
const isSince = (care: CareRecord, { at, seq }: Pick<Said, 'at' | 'seq'>): boolean =>
  care.on > dateOf(at) || (care.on === dateOf(at) && care.seq >= seq)

/** A tag, or nothing to show that what was sent for repair is mended: 29 CFR 1910.134(h)(4), not used until repaired. */
export const judgeTags: Judge = (rule, element, _setting, _wearer, make) => {
  const { tags, fromRepair } = element
  if (tags.length) return make(rule, element, rule.past, () => tellTags(element))
  if (!fromRepair || isMended(element, fromRepair))
    return make(rule, element, 'ready', () => ({ says: 'no tag' }))
  return make(rule, element, 'unproven', () => ({
    says: `no repair on record since it was sent to ${fromRepair.place} for one on ${sayDate(dateOf(fromRepair.sent.at))}`,
    since: { on: dateOf(fromRepair.sent.at), what: 'sent for repair' },
  }))
}

/** Who looks gear over in these would find what is still wrong with it; a roll call's glance need not. Common practice. */
const LOOKED_OVER: readonly Care[] = [
  'advanced-inspection',
  'complete-liner-inspection',
  'flow-test',
  'hydrostatic-test',
]

const isMended = ({ cares }: Element, { sent, at, seq }: FromRepair): boolean =>
  cares.some(
    (done) =>
      done.result === 'serviceable' &&
      (done.care === 'repair'
        ? isSince(done, sent)
        : LOOKED_OVER.includes(done.care) && isSince(done, { at, seq })),
  )

function tellTags(element: Element): Told {
  const [tag] = element.tags.toSorted((a, b) =>
    a.matter === b.matter ? a.seq - b.seq : a.matter === 'safety' ? -1 : 1,
  )
  const { at, by, reason, matter } = tag!
  const others = element.tags.length > 1 ? ` and ${element.tags.length - 1} more` : ''
  const since = { on: dateOf(at), what: `tagged by ${by}` }
  return { says: `tagged, ${reason}${others}`, matter, since }
}

/**
 * A care clears an exposure when it was done on a later day, or on the same day and after it in every way the
 * journal can tell: an entry made in the evening of a cleaning done that morning clears nothing of the afternoon.
 */
function isCleared(exposure: ExposureRecord, care: CareRecord): boolean {
  const exposedOn = dateOf(exposure.at)
  if (care.result !== 'serviceable' || care.on < exposedOn) return false
  return care.on > exposedOn || (care.seq > exposure.seq && !isLater(exposure.at, care.at))
}

/** An exposure newer than the last clearing care counts at once, whatever the interval. */
export const judgeExposure: Judge = (rule, element, _setting, _wearer, make) => {
  if (!('exposure' in rule.watch)) return undefined
  const { exposure: sort, clearedBy } = rule.watch
  const { exposures, cares } = element
  // Most gear has never met most things, and what it has met was mostly cleared by its newest care.
  const isOpen = (each: ExposureRecord): boolean =>
    each.exposure === sort &&
    cares.findLast((care) => clearedBy.includes(care.care) && isCleared(each, care)) === undefined
  const open = exposures.length ? exposures.findLast(isOpen) : undefined
  return open
    ? make(rule, element, rule.past, () => tellExposure(open, sort, clearedBy))
    : make(rule, element, 'ready', () => ({
        says: sort === 'water' ? 'dry' : `no open exposure to ${plain(sort)}`,
      }))
}

function tellExposure(open: ExposureRecord, sort: Exposure, clearedBy: readonly Care[]): Told {
  const incident = open.incident ? ` at ${open.incident}` : ''
  const what = sort === 'water' ? 'wet' : sort === 'other' ? 'exposed' : `exposed to ${plain(sort)}`
  const since = { on: dateOf(open.at), what }
  const needs = clearedBy.map(plain).join(' or ')
  return { says: `${what}${incident} on ${sayDate(since.on)}, needs ${needs}`, since }
}

/**
 * At or below the limit it is recharged. Whole psi and whole percents, so the boundary is exact:
 * 4050 of 4500, 4950 of 5500, 2700 of 3000, 1994 of 2216. Source: 29 CFR 1910.134(h)(3)(iii); OSHA letter 2005-08-19.
 */
export const isLow = (psi: number, ratedPsi: number, atMost: number): boolean =>
  psi * 100 <= Math.round(atMost * 100) * ratedPsi

/** The temperature at which a cylinder's rated pressure is stated: 70 F. */
const RATED_KELVIN = 294.26

/**
 * A cold cylinder reads low and a hot one high: pressure goes with absolute temperature at constant volume (ideal-gas law,
 * any physics handbook).
 */
export const psiAtRated = (psi: number, celsius: number): number =>
  Math.round((psi * RATED_KELVIN) / (celsius + 273.15))

/** Between these a gauge reads near enough what it would at the rated temperature. */
const COLD = 15
const HOT = 27

function warmthNote(psi: number, celsius: number | undefined): string {
  if (celsius === undefined || (celsius >= COLD && celsius <= HOT)) return ''
  const done = celsius < COLD ? 'warmed' : 'cooled'
  return ` (at ${celsius} C; ${done} to 21 C it would read about ${psiAtRated(psi, celsius)})`
}

/** What is left of a reading once a hot cylinder has cooled; one that is not hot has nothing to lose. */
export const psiWhenCooled = (psi: number, celsius: number | undefined): number =>
  celsius !== undefined && celsius > HOT ? psiAtRated(psi, celsius) : psi

/** Common practice, from memory: a gauge that says more than this over the rated pressure was misread, or the cylinder was filled too far. */
export const OVER_PERCENT = 10

export const isOver = (psi: number, celsius: number | undefined, ratedPsi: number): boolean =>
  psiWhenCooled(psi, celsius) * 100 > ratedPsi * (100 + OVER_PERCENT)

/** What lets the air out of a cylinder: 49 CFR 180.205 fills it with water; of a repair it is common practice. */
const EMPTYING: readonly Care[] = ['hydrostatic-test', 'repair']

/** The newest by its day; of one day the same one, in whatever order they were entered. */
const emptiedBy = (cares: readonly CareRecord[], reading: Reading): CareRecord | undefined =>
  EMPTYING.map((sort) => cares.findLast((care) => care.care === sort && isSince(care, reading))).reduce(
    (newest, other) => (other && (!newest || other.on > newest.on) ? other : newest),
  )

export const judgePressure: Judge = (rule, element, setting, _wearer, make) => {
  if (!('reading' in rule.watch)) return undefined
  const { atMost } = rule.watch
  const { ratedPsi, readings, cares, back } = element
  const reading = readings.at(-1)
  if (reading === undefined)
    return make(rule, element, 'unproven', () => ({ says: 'its pressure has not been read' }))
  const { psi, at, celsius } = reading
  const found = (state: Condition, says: (note: string) => string) =>
    make(rule, element, state, () => ({
      says: says(warmthNote(psi, celsius)),
      since: { on: dateOf(at), what: `read ${psi} psi at ${clockOf(at)}` },
    }))
  if (back && (reading.seq < back.seq || isLater(back.at, at)))
    return found(
      'unproven',
      () =>
        `its pressure has not been read since it came back, last ${psi} psi on ${sayDate(dateOf(at))}: read it again`,
    )
  const emptied = emptiedBy(cares, reading)
  if (emptied)
    return found(
      'unproven',
      () =>
        `its pressure has not been read since its ${plain(emptied.care)} of ${sayDate(emptied.on)}, last ${psi} psi: read it again`,
    )
  if (ratedPsi === undefined)
    return found('unproven', () => `${psi} psi, but its rated pressure is not known`)
  const percent = Math.round(atMost * 100)
  if (isLow(psi, ratedPsi, atMost)) {
    return found(
      rule.past,
      (note) => `${psi} psi is at or below ${percent}% of ${ratedPsi}${note}: change or refill it`,
    )
  }
  // The law goes by the gauge; what it will say once cool is no more than reckoned, and nobody rides on it.
  if (isLow(psiWhenCooled(psi, celsius), ratedPsi, atMost))
    return found(
      'unproven',
      (note) =>
        `${psi} of ${ratedPsi} psi${note}, at or below ${percent}%: read it again once cool, or change or refill it`,
    )
  if (isOver(psi, celsius, ratedPsi))
    return found(
      'unproven',
      (note) =>
        `${psi} psi is more than ${OVER_PERCENT}% over its rated ${ratedPsi}${note}: read it again, and if it is so the maker's instructions decide`,
    )
  const { tourSince, isTourOpen, today } = setting
  const notSince = (when: string) =>
    found('unproven', () => `its pressure has not been read ${when}, last ${psi} psi`)
  // A hand-over reads no gauge: what had not been read in the tour is not read once the tour is over.
  if (!isTourOpen && dateOf(at) !== today) return notSince('today')
  if (tourSince !== undefined && isLater(tourSince, at))
    return notSince(isTourOpen ? 'this tour' : 'in the last tour')
  // Whoever met something breathed from it: what it held before says nothing of what is left.
  return element.exposures.some((each) => isNewer(each, reading))
    ? found('unproven', () => `its pressure has not been read since it was exposed, last ${psi} psi`)
    : found('ready', (note) => `${psi} of ${ratedPsi} psi${note}`)
}
