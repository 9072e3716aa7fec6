// Our instants against Temporal, a calendar written by others: many zones, every clock change of twenty years, hours skipped and hours that come twice.
import { assert, constantFrom, integer, property } from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import { addDays, instantIn, instantOf, instantToMs } from '../../src/domain/time.ts'
import { PATIENCE_MS, two } from './calendar-dates.ts'

const { ZonedDateTime } = Temporal
/** Zones whose clocks change on other days, by half an hour, at midnight, and zones whose clocks do not. */
const ZONES = [
  'America/New_York',
  'America/Chicago',
  'America/Phoenix',
  'America/Anchorage',
  'America/St_Johns',
  'America/Havana',
  'America/Santiago',
  'Pacific/Honolulu',
  'Europe/London',
  'Europe/Paris',
  'Asia/Tokyo',
  'Asia/Kolkata',
  'Asia/Kathmandu',
  'Asia/Beirut',
  'Australia/Sydney',
  'Australia/Lord_Howe',
  'Pacific/Auckland',
  'Pacific/Chatham',
  'UTC',
]
const zones = constantFrom(...ZONES)
const clocks = integer({ min: 0, max: 24 * 60 - 1 }).map(
  (minute) => `${two(Math.floor(minute / 60))}:${two(minute % 60)}`,
)
/** Our instant as a moment: the wall clock alone would not tell the two of an hour that comes twice. */
const moment = (instant: string) => instantToMs(instant)!
const asTemporal = (date: string, time: string, zone: string) =>
  ZonedDateTime.from(`${date}T${time}[${zone}]`, { disambiguation: 'compatible' })

function clockChanges() {
  return ZONES.flatMap((zone) => {
    const found: { zone: string; at: Temporal.ZonedDateTime }[] = []
    let at = ZonedDateTime.from(`2012-01-01T00:00[${zone}]`).getTimeZoneTransition('next')
    while (at && at.year < 2032) {
      found.push({ zone, at })
      at = at.getTimeZoneTransition('next')
    }
    return found
  })
}
describe('the moment of a wall clock in a zone', () => {
  it(
    'is the one Temporal calls compatible',
    () => {
      const recent = integer({ min: 0, max: 60 * 365 }).map((days) => addDays('1980-01-01', days))
      assert(
        property(recent, clocks, zones, (date, time, zone) => {
          expect(moment(instantOf(date, time, zone))).toBe(asTemporal(date, time, zone).epochMilliseconds)
        }),
        { numRuns: 6000 },
      )
    },
    PATIENCE_MS,
  )

  it(
    'is so around every clock change from 2012 to 2031, in the hour skipped and in the hour that comes twice',
    () => {
      const changes = clockChanges()
      expect(changes.length).toBeGreaterThan(400)
      const seen = { skipped: 0, twice: 0 }
      for (const { zone, at } of changes) {
        for (const minutes of [-61, -60, -31, -30, -1, 0, 1, 29, 30, 59, 60, 61]) {
          // Counted on the wall clock before the change, so that the skipped hour is asked for too.
          const wall = at
            .subtract({ nanoseconds: 1 })
            .toPlainDateTime()
            .add({ nanoseconds: 1 })
            .add({ minutes })
          const [date, time] = [wall.toPlainDate().toString(), wall.toPlainTime().toString().slice(0, 5)]
          const there = asTemporal(date, time, zone)
          const [early, late] = (['earlier', 'later'] as const).map((disambiguation) =>
            wall.toZonedDateTime(zone, { disambiguation }),
          )
          if (!there.toPlainDateTime().equals(wall)) seen.skipped++
          else if (early!.epochMilliseconds !== late!.epochMilliseconds) seen.twice++
          const instant = instantOf(date, time, zone)
          expect(`${zone} ${wall.toString()} ${moment(instant)}`).toBe(
            `${zone} ${wall.toString()} ${there.epochMilliseconds}`,
          )
        }
      }
      expect(seen.skipped).toBeGreaterThan(500)
      expect(seen.twice).toBeGreaterThan(500)
    },
    PATIENCE_MS,
  )
})

describe('a moment written in a zone', () => {
  const sayTemporal = (ms: number, zone: string) =>
    Temporal.Instant.fromEpochMilliseconds(ms).toString({
      timeZone: zone,
      fractionalSecondDigits: 3,
    })
  const ours = (ms: number, zone: string) => instantIn(ms, zone).replace(/Z$/, '+00:00')

  it(
    'has the date, the clock and the offset that Temporal writes',
    () => {
      const span = integer({ min: Date.UTC(1970, 0), max: Date.UTC(2060, 0) })
      assert(
        property(span, zones, (ms, zone) => {
          expect(ours(ms, zone)).toBe(sayTemporal(ms, zone))
          expect(moment(instantIn(ms, zone))).toBe(ms)
        }),
        { numRuns: 6000 },
      )
    },
    PATIENCE_MS,
  )

  it('has them a millisecond before every clock change, at it and after it', () => {
    for (const { zone, at } of clockChanges()) {
      for (const more of [-1, 0, 1]) {
        const ms = at.epochMilliseconds + more
        expect(ours(ms, zone)).toBe(sayTemporal(ms, zone))
      }
    }
  })
})
