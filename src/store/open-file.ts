// The journal's file as this process has it open, and what keeps it from being written; it must never be shared between processes.
import type { ReadAhead } from './ahead.ts'
import type { Files } from './files.ts'
import type { Upcaster } from './formats.ts'
import type { Held } from './lock.ts'
import type { Position } from './position.ts'
import { whyOf } from './trouble.ts'

/** Where a journal is damaged: `line` counts from 1, `offset` is the byte the line begins at. */
export type Damage = { line: number; offset: number; what: string }

export type OpenFile = {
  files: Files
  folder: string
  path: string
  readFd: number
  /** Of the file that `readFd` reads. */
  identity: string
  /** Opened at the first append, so that reading needs no right to write. */
  appendFd: number | undefined
  /** The last entry delivered or appended. */
  head: Position
  damage: Damage | undefined
  /** Set when the first event names a format that this program does not know. */
  unknownFormat: string | undefined
  /** How its entries are read, where they are of an older format. */
  upcast: Upcaster | undefined
  /** Where a thread may read ahead of a long tail. */
  ahead: ReadAhead | undefined
  /** Set by the first failed write or sync, for good. */
  failure: string | undefined
}

/** `behind`: others appended, or a torn tail is there; catch up under the lock and try again. The others are for the user to read. */
export type Refusal = { ok: false; why: 'behind' | 'read-only' | 'failed' | 'lock-lost'; sentence: string }

/** Why nothing may be written now, if so. */
export const refusalOf = (file: OpenFile, held: Held): Refusal | undefined => {
  if (file.failure !== undefined) return { ok: false, why: 'failed', sentence: file.failure }
  const readOnly = readOnlyReason(file)
  if (readOnly !== undefined) return { ok: false, why: 'read-only', sentence: readOnly }
  if (!held.isLost()) return undefined
  const sentence =
    'Another program took over the lock of this station, so nothing was recorded. What was accepted before is safe. Try again.'
  return { ok: false, why: 'lock-lost', sentence }
}

/** The sentence that tells why the journal is open for reading only, if it is. */
export const readOnlyReason = (file: OpenFile): string | undefined =>
  file.unknownFormat ?? (file.damage === undefined ? undefined : damageSentence(file.path, file.damage))

export const damageSentence = (path: string, damage: Damage): string =>
  `The journal is damaged at line ${damage.line} (byte ${damage.offset}): ${damage.what} ` +
  `The ${damage.line - 1} entries before it are sound and shown; nothing can be recorded and nothing was repaired. ` +
  `Keep a copy of ${path} and bring back a good copy of the station's folder.`

export const behind: Refusal = {
  ok: false,
  why: 'behind',
  sentence: 'The journal has grown since it was last read, so nothing was recorded. Try again.',
}

/** Stops the journal for good: after a failed write or sync nobody knows what the disk holds until it is read again. */
export const fail = (file: OpenFile, error: unknown): Refusal => {
  file.failure =
    `The journal cannot be written: ${whyOf(error)}. This was not recorded, and nothing more will be accepted. ` +
    'What was accepted before is safe on disk. Put the disk right, then start again.'
  return { ok: false, why: 'failed', sentence: file.failure }
}

/** The descriptor to append with, and the file's size. Throws if the name now belongs to another file: what is written to the old one would be lost. */
export const openForAppend = (file: OpenFile): { fd: number; size: number } => {
  const { files, path, identity } = file
  if (file.appendFd === undefined) {
    file.appendFd = files.open(path, 'append')
    // A descriptor stays with its file, so this is asked once; after another answer nothing is written any more.
    if (files.fstat(file.appendFd).identity !== identity) throw new Error(REPLACED)
  }
  const named = files.stat(path)
  if (named?.identity !== identity) throw new Error(REPLACED)
  return { fd: file.appendFd, size: named.size }
}

const REPLACED = 'another file has taken the place of journal.jsonl'
