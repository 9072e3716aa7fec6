// Reads the demonstration station's commands as if they had led up to a given moment; it must never touch a clock or a disk.
import { parseCommand, type Command } from './domain/commands.ts'
import type { EventData } from './domain/events.ts'
import { DEFAULT_BASE } from './domain/policy/bases.ts'
import { onDuty } from './domain/rotation.ts'
import { addDays, dateOf, instantIn, instantOf, type Instant, type LocalDate } from './domain/time.ts'

export interface Demo {
  /** The facts of the `station-made` event. */
  station: EventData['station-made']
  madeAt: Instant
  /** In the order of time; the command at index n becomes event n + 2. */
  commands: (Command & { at: Instant })[]
}

type When = { daysAgo: number; time: string } | { minutesAgo: number }
interface Header {
  station: { name: string; rotation: string; starts: string }
  when: When
}
interface Moment {
  nowMs: number
  zone: string
  today: LocalDate
  rotation: string
}

/** The demonstration's platoons in the order of the rotation. */
const PLATOONS = ['A', 'B', 'C']

/**
 * @param text JSON Lines: a header, then one command a line, with dates told as how long ago
 * @param nowMs the moment it is made for; no instant of it is later
 * @throws Error naming the line, when the text is not such a file
 */
export function readDemo(text: string, nowMs: number, zone: string): Demo {
  const [first, ...rest] = text.split('\n').filter((line) => line !== '')
  const header = JSON.parse(first ?? '{}') as Partial<Header>
  const { station, when } = header
  if (!station || !when) throw new Error('The demonstration file has no header line. Install Bayboard again.')
  const { name, rotation, starts } = station
  const moment = { nowMs, zone, today: dateOf(instantIn(nowMs, zone)), rotation }
  return {
    station: { format: 1, name, timeZone: zone, rotation, starts, policy: DEFAULT_BASE, invented: true },
    madeAt: instantFor(when, moment),
    commands: rest.map((line, index) => {
      const { when, command } = JSON.parse(line) as { when: When; command: Command }
      const parsed = parseCommand(resolved(command, moment))
      if ('refused' in parsed) {
        throw new Error(`Line ${index + 2} of the demonstration is not a command. ${parsed.refused}`)
      }
      return { ...parsed.command, at: instantFor(when, moment) }
    }),
  }
}

const instantFor = (when: When, { nowMs, zone, today }: Moment): Instant =>
  'minutesAgo' in when
    ? instantIn(nowMs - when.minutesAgo * 60_000, zone)
    : instantOf(addDays(today, -when.daysAgo), when.time, zone)

/** `{"daysAgo":3}` is a date, `{"monthsAgo":8}` a month, `{"platoonOf":3}` a platoon and `{"tourOf":3}` a tour's id. */
function resolved(value: unknown, moment: Moment): unknown {
  if (Array.isArray(value)) return value.map((each) => resolved(each, moment))
  if (typeof value !== 'object' || value === null) return value
  const [[name, count] = ['', undefined], ...more] = Object.entries(value)
  if (!more.length && typeof count === 'number') {
    const on = addDays(moment.today, -count)
    if (name === 'daysAgo') return on
    if (name === 'monthsAgo') return monthBefore(moment.today, count)
    if (name === 'platoonOf') return platoonOn(on, moment)
    if (name === 'tourOf') return `${on}-${platoonOn(on, moment)}`
  }
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, resolved(each, moment)]))
}

/** The platoon that the rotation puts on duty, so that the board proposes the crew that is in fact there. */
const platoonOn = (on: LocalDate, { rotation }: Moment): string => onDuty(rotation, PLATOONS, on)[0]!

function monthBefore(date: LocalDate, monthsAgo: number): string {
  const [year, month] = date.split('-').map(Number)
  const count = year! * 12 + month! - 1 - monthsAgo
  return `${Math.floor(count / 12)}-${String((count % 12) + 1).padStart(2, '0')}`
}
