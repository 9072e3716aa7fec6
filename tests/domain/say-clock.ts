// A program for the tests that prints instants and dates around clock changes under the machine's time zone.
import { addDuration, daysBetween, instantIn, instantOf } from '../../src/domain/time.ts'

const ZONES = ['America/New_York', 'Australia/Sydney', 'Australia/Lord_Howe', 'Asia/Kolkata', 'UTC']
const STARTS = ['2026-03-07', '2026-10-31', '2026-04-04', '2026-10-03']
const HALF_HOUR = 1_800_000

const lines = ZONES.flatMap((zone) =>
  STARTS.flatMap((start) =>
    Array.from({ length: 144 }, (_, index) => {
      const ms = Date.parse(`${start}T00:00:00Z`) + index * HALF_HOUR
      const [date = '', time = ''] = new Date(ms).toISOString().split(/[T.]/)
      const wall = instantOf(date, time.slice(0, 5), zone)
      return [instantIn(ms, zone), wall, addDuration(date, 'P1M1D'), daysBetween('2026-01-31', date)].join(
        ' ',
      )
    }),
  ),
)
process.stdout.write(`${new Date(2026, 6, 1).getTimezoneOffset()}\n${lines.join('\n')}`)
