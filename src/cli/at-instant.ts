// Reads the instant that somebody asks about, with an offset or by the station's own clock; it must never choose between two.
import { instantsAt, instantToMs } from '../domain/time.ts'

/** An instant in milliseconds and, where the station's zone was taken, a note that says so; or what is wrong with it. */
export type At = { ms: number; note?: string } | { wrong: string }

const LOCAL = /^(\d{4}-\d{2}-\d{2})T((?:[01]\d|2[0-3]):[0-5]\d)(?::([0-5]\d))?$/

/** @example `2026-11-24 07:00`, `2026-11-24T07:00:00-05:00` */
export function readAt(text: string, zone: string): At {
  const written = text.trim().replace(/^(\S{10}) +/, '$1T')
  const ms = instantToMs(written)
  if (ms !== undefined) return { ms }
  const [, date, time, seconds = '0'] = LOCAL.exec(written) ?? []
  if (date === undefined || time === undefined || instantToMs(`${written}Z`) === undefined) {
    return {
      wrong: `--at ${text} is not a date and time. Write it by the station's clock as "2026-11-24 07:00", or with an offset as 2026-11-24T07:00:00-05:00.`,
    }
  }
  const [at, second] = instantsAt(date, time, zone)
  if (at === undefined) {
    return { wrong: `--at ${text} never was: the clocks of ${zone} skipped it. Name another time.` }
  }
  if (second !== undefined) {
    const both = [at, second].map((each) => `${date}T${time}${each.slice(-6)}`).join(' or ')
    return { wrong: `--at ${text} came twice by the clocks of ${zone}. Say which: ${both}.` }
  }
  const note = `--at ${text} was taken by the clock of the station, ${zone}.`
  return { ms: instantToMs(at)! + Number(seconds) * 1000, note }
}
