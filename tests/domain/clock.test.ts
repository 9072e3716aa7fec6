// Instants: offsets, the station's own clock, both clock changes, and the machine's zone that must not matter.
import { join } from 'node:path'
import { TZDate } from '@date-fns/tz'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { addDays, clockOf, dateOf, instantIn, instantOf, instantToMs } from '../../src/domain/time.ts'
import { programUnderZones, type Program } from './machine-zone.ts'

describe('an instant', () => {
  it('is the same moment whatever offset it is written with', () => {
    const here = instantToMs('2026-11-24T07:02:11.482-05:00')
    expect(here).toBe(Date.UTC(2026, 10, 24, 12, 2, 11, 482))
    expect(instantToMs('2026-11-24T12:02:11.482Z')).toBe(here)
    expect(instantToMs('2026-11-24T23:02:11.482+11:00')).toBe(here)
    expect(instantIn(here!, 'America/New_York')).toBe('2026-11-24T07:02:11.482-05:00')
    expect(instantIn(here!, 'Australia/Sydney')).toBe('2026-11-24T23:02:11.482+11:00')
  })

  it.each([
    '2026-11-24',
    '2026-11-24T07:02:11',
    '2026-11-24 07:02:11-05:00',
    '2023-02-30T07:00:00-05:00',
    '2026-11-24T25:00:00Z',
    '2026-11-24T07:60:00Z',
    '2026-11-24T07:00:00+99:00',
    'yesterday',
    'at 2026-11-24T07:00:00Z',
    '2026-11-24T07:00:00Z or so',
    '2026-11-24T07:00:00Z (about)',
  ])('%s is refused', (text) => expect(instantToMs(text)).toBeUndefined())

  it.each(['2026-11-24T07:02Z', '2026-11-24T07:02:00Z', '2026-11-24T07:02:00.000000Z'])(
    '%s needs no more than its minute and its offset',
    (text) => expect(instantToMs(text)).toBe(Date.UTC(2026, 10, 24, 7, 2)),
  )

  it('in the station zone begins with its local date and clock', () => {
    const late = instantIn(Date.UTC(2026, 10, 25, 4, 30), 'America/New_York')
    expect([dateOf(late), clockOf(late)]).toEqual(['2026-11-24', '23:30'])
    const next = instantIn(Date.UTC(2026, 10, 25, 5, 30), 'America/New_York')
    expect([dateOf(next), clockOf(next)]).toEqual(['2026-11-25', '00:30'])
  })
})

/** Instants from two minutes before a change to two after it, each twice, so that the next follows from what was asked last. */
const around = (changeMs: number): number[] =>
  [-120_000, -60_001, -60_000, -1, 0, 1, 59_999, 60_000, 120_000].flatMap((by) => [
    changeMs + by,
    changeMs + by + 0.5,
  ])

describe('an instant right after another', () => {
  // Changes that the IANA time zone database has: at a minute past, by half and a quarter of an hour, a whole day, to odd seconds.
  it.each([
    ['America/New_York', '2026-11-01T06:00:00Z'],
    ['America/St_Johns', '2009-03-08T03:31:00Z'],
    ['America/St_Johns', '2009-11-01T02:31:00Z'],
    ['Australia/Lord_Howe', '2026-10-03T15:30:00Z'],
    ['Asia/Kathmandu', '1985-12-31T18:30:00Z'],
    ['Pacific/Apia', '2011-12-30T10:00:00Z'],
    ['Africa/Monrovia', '1972-01-07T00:44:30Z'],
    ['America/New_York', '1883-11-18T17:00:00Z'],
  ])('has the offset of its own moment in %s around %s', (zone, change) => {
    for (const ms of around(Date.parse(change))) {
      expect(instantIn(ms, zone)).toBe(new TZDate(ms, zone).toISOString())
      expect(instantIn(ms, 'UTC')).toBe(new TZDate(ms, 'UTC').toISOString())
      expect(instantIn(ms, zone)).toBe(new TZDate(ms, zone).toISOString())
    }
    const offsets = new Set(around(Date.parse(change)).map((ms) => instantIn(ms, zone).slice(-6)))
    expect(offsets.size).toBe(2)
  })
})

describe('the wall clock at a clock change', () => {
  // The rules of the IANA time zone database for 2026.
  it.each([
    ['the last minute of winter', '2026-03-08', '01:59', 'America/New_York', '2026-03-08T01:59:00.000-05:00'],
    ['a time that is skipped', '2026-03-08', '02:30', 'America/New_York', '2026-03-08T03:30:00.000-04:00'],
    ['the first of summer', '2026-03-08', '03:00', 'America/New_York', '2026-03-08T03:00:00.000-04:00'],
    ['a time that comes twice', '2026-11-01', '01:30', 'America/New_York', '2026-11-01T01:30:00.000-04:00'],
    ['after it', '2026-11-01', '02:00', 'America/New_York', '2026-11-01T02:00:00.000-05:00'],
    ['a time that is skipped', '2026-10-04', '02:30', 'Australia/Sydney', '2026-10-04T03:30:00.000+11:00'],
    ['a time that comes twice', '2026-04-05', '02:30', 'Australia/Sydney', '2026-04-05T02:30:00.000+11:00'],
    ['after it', '2026-04-05', '03:00', 'Australia/Sydney', '2026-04-05T03:00:00.000+10:00'],
  ])('%s: %s %s in %s', (_name, date, time, zone, instant) => {
    expect(instantOf(date, time, zone)).toBe(instant)
  })

  it.each([
    ['America/New_York', '2026-03-07', 23],
    ['America/New_York', '2026-10-31', 25],
    ['America/New_York', '2026-11-24', 24],
    ['Australia/Sydney', '2026-10-03', 23],
    ['Australia/Sydney', '2026-04-04', 25],
  ])('a tour from 07:00 to 07:00 in %s that starts on %s lasts %d hours', (zone, on, hours) => {
    const from = instantToMs(instantOf(on, '07:00', zone))!
    const to = instantToMs(instantOf(addDays(on, 1), '07:00', zone))!
    expect((to - from) / 3_600_000).toBe(hours)
  })
})

describe('the zone of the machine', () => {
  let program: Program
  beforeAll(async () => {
    program = await programUnderZones(join(import.meta.dirname, 'say-clock.ts'))
  })
  afterAll(() => program.remove())

  it('bears on no date and no instant', () => {
    const here = program.runUnder('UTC')
    expect(here.said.split('\n')).toHaveLength(5 * 4 * 144)
    for (const [zone, offset] of [
      ['America/Sao_Paulo', 180],
      ['Asia/Tokyo', -540],
      ['Australia/Sydney', -600],
      ['America/New_York', 240],
    ] as const) {
      expect(program.runUnder(zone)).toEqual({ offset, said: here.said })
    }
  })
})
