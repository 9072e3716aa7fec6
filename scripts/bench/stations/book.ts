// Decides invented commands by the program's own rules and writes what is accepted as the program's own lines, without syncing each.
import { closeSync, openSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import { tzOffset } from '@date-fns/tz'
import type { Command, Dated } from '../../../src/domain/commands.ts'
import { decide } from '../../../src/domain/decide.ts'
import type { Draft, Event } from '../../../src/domain/events.ts'
import { apply } from '../../../src/domain/evolve.ts'
import { emptyState, type State } from '../../../src/domain/state.ts'
import { addDays, type Instant, type LocalDate } from '../../../src/domain/time.ts'
import { JOURNAL_NAME } from '../../../src/store/journal.ts'
import { formatLine, ZEROS } from '../../../src/store/line.ts'
import type { Position } from '../../../src/store/position.ts'

export const ZONE = 'America/New_York'

type Given<C extends Command = Command> = C extends Command ? Omit<C, 'by' | 'at'> : never

export interface Book {
  readonly state: State
  readonly position: Position
  /** When the next event will be. */
  readonly at: Instant
  /** Goes to a day and a wall clock there; each event after it is some seconds later than the one before. */
  turnTo(date: LocalDate, time: string): void
  made(data: Extract<Draft, { type: 'station-made' }>['data']): void
  /** Throws when the program refuses it: what is measured must be what could have been recorded. */
  give(by: string, command: Given): void
  /** Gives it if the program accepts it just now. */
  offer(by: string, command: Given): void
  /** Puts what is waiting into the file. */
  flush(): void
  close(): void
}

const WRITE_BYTES = 4 * 1024 * 1024
const SECONDS_APART = 3

export function openBook(folder: string): Book {
  const fd = openSync(join(folder, JOURNAL_NAME), 'wx')
  const state = emptyState()
  let position: Position = { seq: 0, hash: ZEROS, offset: 0 }
  let lines: string[] = []
  let waiting = 0
  let today = ''
  let offset = ''
  let seconds = 0

  function flush(): void {
    const bytes = Buffer.from(lines.join(''))
    for (let from = 0; from < bytes.length;) from += writeSync(fd, bytes, from)
    lines = []
    waiting = 0
  }
  function add(by: string, draft: Draft): void {
    const at = instant()
    const { line, hash } = formatLine({ ...draft, at, by }, position.seq + 1, position.hash)
    const length = Buffer.byteLength(line) + 1
    position = { seq: position.seq + 1, hash, offset: position.offset + length }
    lines.push(`${line}\n`)
    waiting += length
    if (waiting >= WRITE_BYTES) flush()
    apply(state, { ...draft, seq: position.seq, at, by } as Event)
    seconds += SECONDS_APART
  }
  function submit(by: string, command: Given): string | undefined {
    const decision = decide({ ...command, by, at: instant() } as Dated, state)
    if ('refused' in decision) return decision.refused
    add(by, decision.draft)
    return undefined
  }
  function instant(): string {
    if (seconds >= 86_400) turn(addDays(today, 1), seconds - 86_400)
    const two = (value: number): string => String(value).padStart(2, '0')
    const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60]
    return `${today}T${two(hours)}:${two(minutes)}:${two(seconds % 60)}.000${offset}`
  }
  function turn(date: LocalDate, to: number): void {
    if (date !== today) {
      // Nothing happens in the hour in which the clocks change.
      const minutes = tzOffset(ZONE, new Date(`${date}T17:00:00Z`))
      const sign = minutes < 0 ? '-' : '+'
      offset = `${sign}${String(Math.abs(minutes) / 60).padStart(2, '0')}:00`
    }
    today = date
    seconds = to
  }

  return {
    state,
    get position() {
      return position
    },
    get at() {
      return instant()
    },
    turnTo(date, time) {
      const [hours, minutes] = time.split(':').map(Number)
      turn(date, hours! * 3600 + minutes! * 60)
    },
    made: (data) => add('setup', { type: 'station-made', data }),
    give(by, command) {
      const refused = submit(by, command)
      if (refused !== undefined) throw new Error(`${JSON.stringify(command)}: ${refused}`)
    },
    offer: submit,
    flush,
    close() {
      flush()
      closeSync(fd)
    },
  }
}
