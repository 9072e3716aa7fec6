// Calendar dates and instants; it must never read a clock or the machine's own time zone.
import { TZDate, tzOffset } from '@date-fns/tz'
import { UTCDateMini } from '@date-fns/utc/date/mini'
import { add, differenceInCalendarDays, formatISO } from 'date-fns'

/** A local calendar date, `YYYY-MM-DD`: dates order as text. */
export type LocalDate = string
/** Dates order as text; the order of words in a language is something else, and slow. */
export const byDate = (a: LocalDate, b: LocalDate): number => (a < b ? -1 : a > b ? 1 : 0)
/** The first of some days; null where there is none. */
export function soonest(days: readonly (LocalDate | null)[]): LocalDate | null {
  let first: LocalDate | null = null
  for (const day of days) if (day !== null && (first === null || day < first)) first = day
  return first
}

/** A label's month and year, `YYYY-MM`. */
export type Month = string
/** An instant with its offset, as the journal keeps it: `2026-11-24T07:02:11.482-05:00`. */
export type Instant = string
/** An ISO 8601 duration of whole years, months, weeks or days, such as `P10Y` or `P60D`. */
export type Duration = string

const DATE = /^(\d{4})-(\d{2})-(\d{2})$/
const MONTH = /^(19|20|21)\d{2}-(0[1-9]|1[0-2])$/
export const DURATION = /^P(?=\d)(?:(\d{1,3})Y)?(?:(\d{1,4})M)?(?:(\d{1,4})W)?(?:(\d{1,5})D)?$/
const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?::\d{2}(?:\.\d{1,9})?)?(?:Z|[+-]\d{2}:\d{2})$/

export function isLocalDate(text: string): boolean {
  const parts = DATE.exec(text)
  if (!parts) return false
  const [, year, month, day] = parts.map(Number)
  const made = new UTCDateMini(year!, month! - 1, day!)
  return year! >= 1900 && made.getMonth() === month! - 1 && made.getDate() === day!
}

export const isMonth = (text: string): boolean => MONTH.test(text)

export function isTimeZone(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone !== ''
  } catch {
    return false
  }
}

/** Milliseconds since 1970, or undefined when the text is not an instant with its offset. */
export function instantToMs(text: string): number | undefined {
  if (!INSTANT.test(text) || !isLocalDate(text.slice(0, 10))) return undefined
  const ms = Date.parse(text)
  return Number.isNaN(ms) ? undefined : ms
}

/** As the program writes an instant, with milliseconds; and where its offset begins. */
const [WHOLE, OFFSET_FROM] = [29, 23]
const MINUTE_MS = 60_000
/** No zone has changed its offset within a minute since then, nor had one of odd seconds. */
const WHOLE_MINUTES_SINCE = Date.UTC(1980, 0, 1)
/** What was added in the last minute asked for: acts come in runs, and looking a zone up takes longer than deciding. */
let lately = { zone: '', minute: NaN, offsetMs: 0, written: '' }

/** The instant in the station's own zone: the first ten characters are then its local date. */
export function instantIn(ms: number, zone: string): Instant {
  const minute = Math.floor(ms / MINUTE_MS)
  if (minute !== lately.minute || zone !== lately.zone) {
    const made = new TZDate(ms, zone)
    const instant = made.toISOString()
    if (!(ms >= WHOLE_MINUTES_SINCE)) return instant
    const offsetMs = -made.getTimezoneOffset() * MINUTE_MS
    lately = { zone, minute, offsetMs, written: instant.slice(-6) }
  }
  return new Date(ms + lately.offsetMs).toISOString().slice(0, -1) + lately.written
}

/** The local date of an instant that is written in the station's zone. */
export const dateOf = (at: Instant): LocalDate => at.slice(0, 10)
/** The wall clock of an instant that is written in the station's zone: `07:02`. */
export const clockOf = (at: Instant): string => at.slice(11, 16)

/** With one offset, as nearly all of a station have, instants order as text. */
export function isLater(one: Instant, other: Instant): boolean {
  return haveOneOffset(one, other) ? one > other : Date.parse(one) > Date.parse(other)
}

/** Letter by letter: a fold asks it of record after record, and cutting the offsets out took longer than all the rest. */
function haveOneOffset(one: Instant, other: Instant): boolean {
  if (one.length !== WHOLE || other.length !== WHOLE) return false
  for (let at = OFFSET_FROM; at < WHOLE; at++) if (one.charCodeAt(at) !== other.charCodeAt(at)) return false
  return true
}

const DAY_MS = 86_400_000

/** A local date and wall clock time by the offset of the day before and of the day after. The library would choose by the machine's own zone. */
const instantsNear = (date: LocalDate, time: string, zone: string): [Instant, Instant] => {
  const ms = Date.parse(`${date}T${time}:00Z`)
  const by = (near: number): Instant =>
    instantIn(ms - tzOffset(zone, new UTCDateMini(ms + near)) * 60_000, zone)
  return [by(-DAY_MS), by(DAY_MS)]
}

/** Every instant at which the wall clock shows this: none where a clock change skips it, two where it comes twice. */
export const instantsAt = (date: LocalDate, time: string, zone: string): Instant[] => [
  ...new Set(instantsNear(date, time, zone).filter((each) => each.startsWith(`${date}T${time}`))),
]

/**
 * The instant at which a local date and wall clock time falls. A time skipped by a clock change moves on; of one
 * that comes twice it is the first.
 */
export const instantOf = (date: LocalDate, time: string, zone: string): Instant =>
  instantsAt(date, time, zone)[0] ?? instantsNear(date, time, zone)[0]

/** Deadlines repeat across a department, so the same few sums are asked for again and again. */
const sums = new Map<Duration | number, Map<LocalDate, LocalDate>>()
let sumsKept = 0
/** By what is added first: two short look-ups cost less than one by a text that is put together for it. */
function sumOf(date: LocalDate, added: Duration | number, sum: () => Date): LocalDate {
  let ofAdded = sums.get(added)
  const known = ofAdded?.get(date)
  if (known !== undefined) return known
  if (++sumsKept > 50_000) {
    sums.clear()
    sumsKept = 1
    ofAdded = undefined
  }
  if (!ofAdded) sums.set(added, (ofAdded = new Map()))
  const made = formatISO(sum(), { representation: 'date' })
  ofAdded.set(date, made)
  return made
}

/** Calendar arithmetic, months clipped to their last day: 31 January and one month is 28 or 29 February. */
export const addDuration = (date: LocalDate, duration: Duration): LocalDate =>
  sumOf(date, duration, () => {
    const [, years, months, weeks, days] = DURATION.exec(duration)!.map((part) => Number(part ?? 0))
    return add(new UTCDateMini(date), { years: years!, months: months!, weeks: weeks!, days: days! })
  })

/** Whole days from one date to another; negative when `to` is earlier. */
export const daysBetween = (from: LocalDate, to: LocalDate): number =>
  differenceInCalendarDays(new UTCDateMini(to), new UTCDateMini(from))

export const addDays = (date: LocalDate, days: number): LocalDate =>
  sumOf(date, days, () => add(new UTCDateMini(date), { days }))

/** A label states month and year only; the safe reading is the month's first day. */
export const firstDay = (month: Month): LocalDate => `${month}-01`

const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ')

/** `2026-12-03` reads `3 Dec 2026`: no reader can take day for month. */
export const sayDate = (date: LocalDate): string =>
  `${Number(date.slice(8))} ${MONTHS[Number(date.slice(5, 7)) - 1]} ${date.slice(0, 4)}`

const said = new Map<Duration, string>()

/** `P10Y` reads `10 years`. */
export function sayDuration(duration: Duration): string {
  const known = said.get(duration)
  if (known !== undefined) return known
  const [, ...counts] = DURATION.exec(duration)!
  const units = ['year', 'month', 'week', 'day']
  const words = counts
    .flatMap((count, index) =>
      count ? [`${Number(count)} ${units[index]}${Number(count) === 1 ? '' : 's'}`] : [],
    )
    .join(' ')
  said.set(duration, words)
  return words
}
