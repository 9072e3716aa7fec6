// A copy of the state that saves reading the whole journal again; it must never be believed unless everything about it checks.
import { join } from 'node:path'
import { Low, type Adapter } from 'lowdb'
import * as z from 'zod'
import { placeFile, readWhole, realFiles, type Files } from './files.ts'
import { sha256 } from './line.ts'
import { JOURNAL_NAME } from './journal.ts'
import type { Position } from './position.ts'
import { codeOf, whyOf } from './trouble.ts'

const SNAPSHOT_NAME = 'snapshot.json'
const SNAPSHOT_FORMAT = 1
const STATE_MEMBER = ',"state":'

const headShape = z.strictObject({
  format: z.literal(SNAPSHOT_FORMAT),
  version: z.string(),
  seq: z.int().min(0),
  hash: z.string().regex(/^[0-9a-f]{64}$/),
  offset: z.int().min(0),
  journal: z.string().nullable(),
  sum: z.string(),
})

/** The state as the bytes of its JSON text, so that it is written and summed without being made into text twice. */
type Kept = { version: string; position: Position; journal: string | null; state: Buffer }

type Snapshot = { position: Position; state: Buffer }

/** The snapshot that this version of the program made, or undefined: then the journal is read from its start. */
export const readSnapshot = async (
  folder: string,
  version: string,
  files: Files = realFiles,
): Promise<Snapshot | undefined> => {
  const low = new Low<Kept | null>(adapterFor(folder, files), null)
  await low.read()
  if (low.data === null || low.data.version !== version) return undefined
  if (!standsFor(files, folder, low.data)) return undefined
  return { position: low.data.position, state: low.data.state }
}

type SnapshotWritten = { ok: true } | { ok: false; sentence: string }

/** Keeps the JSON text of the state at `position`. A failure costs time at the next start and nothing else. */
export const writeSnapshot = async (
  folder: string,
  version: string,
  position: Position,
  state: Buffer,
  files: Files = realFiles,
): Promise<SnapshotWritten> => {
  try {
    const journal = sumOfPart(files, folder, position)
    await new Low<Kept | null>(adapterFor(folder, files), { version, position, journal, state }).write()
    return { ok: true }
  } catch (error) {
    const sentence = `The snapshot was not kept: ${whyOf(error)}. The journal is not touched by this; the next start takes longer.`
    return { ok: false, sentence }
  }
}

const adapterFor = (folder: string, files: Files): Adapter<Kept | null> => ({
  read: async () => {
    try {
      return parse(readWhole(files, join(folder, SNAPSHOT_NAME)))
    } catch (error) {
      if (codeOf(error) === undefined) throw error
      return null
    }
  },
  write: async (kept) => {
    if (kept !== null) placeFile(files, folder, SNAPSHOT_NAME, bytesOf(kept))
  },
})

const bytesOf = ({ version, position, journal, state }: Kept): Buffer => {
  const { seq, hash, offset } = position
  const head = { format: SNAPSHOT_FORMAT, version, seq, hash, offset, journal, sum: sha256(state) }
  return Buffer.concat([
    Buffer.from(JSON.stringify(head).slice(0, -1) + STATE_MEMBER),
    state,
    Buffer.from('}\n'),
  ])
}

const parse = (bytes: Buffer): Kept | null => {
  // Inside a JSON string the quotes would be escaped, so the first match is the member itself.
  const at = bytes.indexOf(STATE_MEMBER)
  if (at === -1 || !bytes.subarray(-2).equals(Buffer.from('}\n'))) return null
  const head = headShape.safeParse(jsonOrNothing(`${bytes.toString('utf8', 0, at)}}`))
  const state = bytes.subarray(at + STATE_MEMBER.length, -2)
  if (!head.success || sha256(state) !== head.data.sum) return null
  const { version, seq, hash, offset, journal } = head.data
  return { version, position: { seq, hash, offset }, journal, state }
}

const jsonOrNothing = (text: string): unknown => {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/** What is short enough is checked whole at every opening; `bayboard verify` checks what is longer. */
const CHECKED_AT_OPENING_BYTES = 8 * 1024 * 1024

/** The sum of the part of the journal that a snapshot stands for; null where that is long, or not there. */
const sumOfPart = (files: Files, folder: string, { offset }: Position): string | null => {
  if (offset > CHECKED_AT_OPENING_BYTES) return null
  try {
    return sha256(readWhole(files, join(folder, JOURNAL_NAME), offset))
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw error
    return null
  }
}

/** A journal that cannot be read says so when it is opened. */
const standsFor = (files: Files, folder: string, { journal, position }: Kept): boolean => {
  try {
    return journal === sumOfPart(files, folder, position)
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return false
  }
}
