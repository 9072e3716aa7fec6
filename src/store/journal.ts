// Opens a station's journal for reading and appending; it must never repair, reorder or make up an entry.
import { join } from 'node:path'
import { readAhead, type ReadAhead } from './ahead.ts'
import { append, type Appended } from './append.ts'
import { catchUp, damageInTail, unreadableSentence, type CaughtUp, type Torn } from './catch-up.ts'
import { makeFolderToStay, realFiles, type Files } from './files.ts'
import { ZEROS, type Draft, type Entry } from './line.ts'
import { eachLine } from './line-reader.ts'
import type { Held } from './lock.ts'
import { readOnlyReason, type OpenFile } from './open-file.ts'
import { JOURNAL_FORMAT, readingOf, type Reading } from './formats.ts'
import { isAt, START, type Position } from './position.ts'
import { setTornAside, type SetAside } from './torn-tail.ts'
import { codeOf, whyOf } from './trouble.ts'

export const JOURNAL_NAME = 'journal.jsonl'

export type Journal = {
  readonly path: string
  /** The last entry delivered or appended, and the byte after it. */
  readonly head: Position
  /** The sentence that tells why nothing can be recorded, if so: damage, an unknown format, or a failed write. */
  readonly stopped: string | undefined
  /** Delivers what was appended since the head. Needs no lock; only under the lock is a torn tail surely torn. */
  catchUp(onEntry: (entry: Entry) => void): CaughtUp
  append(held: Held, draft: Draft): Appended
  setTornAside(held: Held, torn: Torn, at: string): SetAside
  close(): void
}

/** `startedAt` is `start` when the position asked for is not one of this journal: what was built upon it must be built again. */
export type Opened =
  | { kind: 'opened'; journal: Journal; startedAt: 'start' | 'position' }
  | { kind: 'no-station'; sentence: string }
  | { kind: 'unreadable'; sentence: string }

export type OpenOptions = {
  files?: Files
  /** Where to go on reading, as a snapshot has it. */
  from?: Position | undefined
  /** Makes the folder and an empty journal where there is none. Only under the lock. */
  make?: boolean
  ahead?: ReadAhead | undefined
}

/** Opens the journal of the station in `folder`; reading changes nothing on disk. */
export const openJournal = (folder: string, options: OpenOptions = {}): Opened => {
  const { files = realFiles, from = START, make = false } = options
  // A thread has the real disk only.
  const { ahead = files === realFiles ? readAhead() : undefined } = options
  const path = join(folder, JOURNAL_NAME)
  let readFd: number | undefined
  try {
    if (make) makeEmpty(files, folder, path)
    readFd = files.open(path, 'read')
    const { size, identity } = files.fstat(readFd)
    const first = firstLineOf(files, readFd, size)
    if (first === undefined && !make) {
      files.close(readFd)
      return noStation(folder)
    }
    const format = formatOf(first)
    const reading: Reading = format === undefined ? { kind: 'as-it-is' } : readingOf(format)
    const isThere = isAt(files, readFd, from)
    const file: OpenFile = {
      files,
      folder,
      path,
      readFd,
      identity,
      appendFd: undefined,
      head: isThere ? from : START,
      damage: undefined,
      unknownFormat: reading.kind === 'unknown' ? sayUnknown(format) : undefined,
      upcast: reading.kind === 'through' ? reading.upcast : undefined,
      ahead,
      failure: undefined,
    }
    return { kind: 'opened', journal: journalOf(file), startedAt: isThere ? 'position' : 'start' }
  } catch (error) {
    if (readFd !== undefined) closeQuietly(files, readFd)
    if (codeOf(error) === undefined) throw error
    if (codeOf(error) === 'ENOENT' && !make) return noStation(folder)
    const sentence = make
      ? `A station cannot be made in ${folder}: ${whyOf(error)}. Put that right or name another folder.`
      : unreadableSentence(error)
    return { kind: 'unreadable', sentence }
  }
}

const journalOf = (file: OpenFile): Journal => ({
  path: file.path,
  get head() {
    return file.head
  },
  get stopped() {
    return file.failure ?? readOnlyReason(file)
  },
  catchUp: (onEntry) => {
    const { upcast } = file
    return catchUp(file, upcast === undefined ? onEntry : (entry) => onEntry(upcast(entry)))
  },
  append: (held, draft) => append(file, held, draft),
  setTornAside: (held, torn, at) => setTornAside(file, held, torn, at),
  close: () => {
    for (const fd of [file.readFd, file.appendFd]) if (fd !== undefined) closeQuietly(file.files, fd)
  },
})

const makeEmpty = (files: Files, folder: string, path: string): void => {
  makeFolderToStay(files, folder)
  files.close(files.open(path, 'append'))
  files.syncFolder(folder)
}

/** Everything acknowledged was synced, so a failing close can lose nothing. */
const closeQuietly = (files: Files, fd: number): void => {
  try {
    files.close(fd)
  } catch (error) {
    if (codeOf(error) === undefined) throw error
  }
}

const noStation = (folder: string): Opened => ({
  kind: 'no-station',
  sentence:
    `There is no station in ${folder}. Nothing was changed. ` +
    'Make one with "bayboard init", try one with "bayboard demo", or name its folder with --station.',
})

const firstLineOf = (files: Files, fd: number, size: number): Buffer | undefined => {
  let first: Buffer | undefined
  const end = eachLine(files, fd, 0, Math.min(size, 1), (bytes) => {
    first ??= Buffer.from(bytes)
    return false
  })
  if (end.kind === 'unreadable') throw end.error
  // A first line that has lost its newline is damage to be shown, not a folder without a station.
  const isDamaged =
    end.kind === 'too-long' || (end.kind === 'end' && damageInTail(end.rest, 1, ZEROS) !== undefined)
  return isDamaged ? Buffer.alloc(0) : first
}

/** Reads leniently: a newer format may build its lines in another way. Undefined for a line that names none. */
const formatOf = (first: Buffer | undefined): unknown => {
  let event: { type?: unknown; data?: { format?: unknown } | null } | null
  try {
    event = JSON.parse(first?.toString('utf8') ?? 'null')
  } catch {
    return undefined
  }
  return event?.type === 'station-made' ? (event.data?.format ?? null) : undefined
}

const sayUnknown = (format: unknown): string =>
  `This station's journal has format ${JSON.stringify(format)}; this program knows format ${JOURNAL_FORMAT}. ` +
  'It is open for reading only and nothing was changed. Use the newer program to record.'
