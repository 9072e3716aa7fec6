// Rules about the state an element is in just now: tags, exposures, wet, the cylinder's pressure.
import { plain } from '../kinds.ts'
import { clockOf, dateOf, sayDate } from '../time.ts'
import type { CareRecord, ExposureRecord } from '../state.ts'
import { verdict, type Judge } from './verdict.ts'

export const judgeTags: Judge = (rule, element) => {
  const [tag] = element.tags.toSorted((a, b) =>
    a.matter === b.matter ? a.seq - b.seq : a.matter === 'safety' ? -1 : 1,
  )
  if (!tag) return verdict(rule, element, 'ready', 'no tag')
  const others = element.tags.length > 1 ? ` and ${element.tags.length - 1} more` : ''
  const since = { on: dateOf(tag.at), what: `tagged by ${tag.by}` }
  return verdict(rule, element, rule.past, `tagged, ${tag.reason}${others}`, { matter: tag.matter, since })
}

/**
 * A care clears an exposure when it was done on a later day, or on the same day and after it in every way the
 * journal can tell: an entry made in the evening of a cleaning done that morning clears nothing of the afternoon.
 */
function isCleared(exposure: ExposureRecord, care: CareRecord): boolean {
  const exposedOn = dateOf(exposure.at)
  if (care.result !== 'serviceable' || care.on < exposedOn) return false
  return care.on > exposedOn || (care.seq > exposure.seq && Date.parse(care.at) >= Date.parse(exposure.at))
}

/** An exposure newer than the last clearing care counts at once, whatever the interval. */
export const judgeExposure: Judge = (rule, element) => {
  if (!('exposure' in rule.watch)) return undefined
  const { exposure: sort, clearedBy } = rule.watch
  // Most gear has never met most things.
  const isClean = !element.exposures.some((each) => each.exposure === sort)
  const clearing = isClean ? [] : element.cares.filter((care) => clearedBy.includes(care.care))
  const open = element.exposures.findLast(
    (each) => each.exposure === sort && !clearing.some((care) => isCleared(each, care)),
  )
  if (!open)
    return verdict(rule, element, 'ready', sort === 'water' ? 'dry' : `no open exposure to ${plain(sort)}`)
  const incident = open.incident ? ` at ${open.incident}` : ''
  const what = sort === 'water' ? 'wet' : sort === 'other' ? 'exposed' : `exposed to ${plain(sort)}`
  const since = { on: dateOf(open.at), what }
  const needs = clearedBy.map(plain).join(' or ')
  const says = `${what}${incident} on ${sayDate(since.on)}, needs ${needs}`
  return verdict(rule, element, rule.past, says, { since })
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
 * A cold cylinder reads low: pressure goes with absolute temperature at constant volume (ideal-gas law, any physics
 * handbook). Advice only; the verdict goes by the gauge.
 */
export const psiWhenWarm = (psi: number, celsius: number): number =>
  Math.round((psi * RATED_KELVIN) / (celsius + 273.15))

const coldNote = (psi: number, celsius: number | undefined): string =>
  celsius !== undefined && celsius < 15
    ? ` (at ${celsius} C; warmed to 21 C it would read about ${psiWhenWarm(psi, celsius)})`
    : ''

export const judgePressure: Judge = (rule, element, setting) => {
  if (!('reading' in rule.watch)) return undefined
  const { atMost } = rule.watch
  const reading = element.readings.at(-1)
  if (reading === undefined) return verdict(rule, element, 'unproven', 'its pressure has not been read')
  const { psi, at, celsius } = reading
  const note = coldNote(psi, celsius)
  const since = { on: dateOf(at), what: `read ${psi} psi at ${clockOf(at)}` }
  if (element.ratedPsi === undefined) {
    return verdict(rule, element, 'unproven', `${psi} psi, but its rated pressure is not known`, { since })
  }
  if (isLow(psi, element.ratedPsi, atMost)) {
    const says = `${psi} psi is at or below ${Math.round(atMost * 100)}% of ${element.ratedPsi}${note}: change or refill it`
    return verdict(rule, element, rule.past, says, { since })
  }
  const isFresh =
    setting.tourSince === undefined
      ? dateOf(at) === setting.today
      : Date.parse(at) >= Date.parse(setting.tourSince)
  if (!isFresh) {
    return verdict(rule, element, 'unproven', `its pressure has not been read this tour, last ${psi} psi`, {
      since,
    })
  }
  return verdict(rule, element, 'ready', `${psi} of ${element.ratedPsi} psi${note}`, { since })
}
