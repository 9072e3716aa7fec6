// A copy of the state that saves reading the whole journal again; it must never be believed unless everything about it checks.
import { join } from 'node:path'
import { Low, type Adapter } from 'lowdb'
import * as z from 'zod'
import { placeFile, readAt, readWhole, realFiles, type Files } from './files.ts'
import { sha256 } from './line.ts'
import { JOURNAL_NAME } from './journal.ts'
import type { Parts } from './packed-state.ts'
import type { Position } from './position.ts'
import { codeOf, whyOf } from './trouble.ts'

const SNAPSHOT_NAME = 'snapshot.json'
const SNAPSHOT_FORMAT = 2
const STATE_MEMBER = ',"state":'
const BEGIN = Buffer.from('[')
const COMMA = Buffer.from(',')
const END = Buffer.from(']}\n')
/** No less than what stands before the state. */
const HEAD_BYTES = 64 * 1024

const partShape = z.strictObject({ size: z.int().min(0), sum: z.string() })
const headShape = z.strictObject({
  format: z.literal(SNAPSHOT_FORMAT),
  version: z.string(),
  seq: z.int().min(0),
  hash: z.string().regex(/^[0-9a-f]{64}$/),
  offset: z.int().min(0),
  journal: z.string().nullable(),
  parts: z.array(partShape).min(1),
})
type Part = z.infer<typeof partShape>

/** The file stays open, so that every part is of the same snapshot, whatever takes its name meanwhile. */
type Opened = Parts & { close(): void }

/** The state as the bytes of its JSON text in parts, so that it is written and summed without being made into text twice. */
type Kept = { version: string; position: Position; journal: string | null; state: Opened | readonly Buffer[] }

type Snapshot = { position: Position; state: Opened }

/** The snapshot that this version of the program made, or undefined: then the journal is read from its start. */
export const readSnapshot = async (
  folder: string,
  version: string,
  files: Files = realFiles,
): Promise<Snapshot | undefined> => {
  const low = new Low<Kept | null>(adapterFor(folder, files), null)
  await low.read()
  if (low.data === null) return undefined
  const { position } = low.data
  const state = low.data.state as Opened
  if (low.data.version === version && standsFor(files, folder, low.data)) return { position, state }
  state.close()
  return undefined
}

type SnapshotWritten = { ok: true } | { ok: false; sentence: string }

/** Keeps the JSON text of the state at `position`. A failure costs time at the next start and nothing else. */
export const writeSnapshot = async (
  folder: string,
  version: string,
  position: Position,
  state: readonly Buffer[],
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
      return openParts(files, files.open(join(folder, SNAPSHOT_NAME), 'read'))
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
  const bytes = state as readonly Buffer[]
  const parts = bytes.map(partOf)
  const head = { format: SNAPSHOT_FORMAT, version, seq, hash, offset, journal, parts }
  return Buffer.concat([
    Buffer.from(JSON.stringify(head).slice(0, -1) + STATE_MEMBER),
    ...bytes.flatMap((each, at) => [at === 0 ? BEGIN : COMMA, each]),
    END,
  ])
}

const partOf = (bytes: Buffer): Part => ({ size: bytes.length, sum: sha256(bytes) })

/** Closes the file when it is not believed. */
const openParts = (files: Files, fd: number): Kept | null => {
  let kept: Kept | null = null
  try {
    kept = partsIn(files, fd)
  } finally {
    if (kept === null) files.close(fd)
  }
  return kept
}

const partsIn = (files: Files, fd: number): Kept | null => {
  const { size } = files.fstat(fd)
  const start = readAt(files, fd, 0, Math.min(size, HEAD_BYTES))
  // Inside a JSON string the quotes would be escaped, so the first match is the member itself.
  const at = start?.indexOf(STATE_MEMBER) ?? -1
  if (!start || at === -1) return null
  const parsed = headShape.safeParse(jsonOrNothing(`${start.toString('utf8', 0, at)}}`))
  if (!parsed.success) return null
  const { version, seq, hash, offset, journal, parts } = parsed.data
  const places: number[] = []
  let end = at + STATE_MEMBER.length
  for (const { size } of parts) {
    places.push(end + BEGIN.length)
    end += BEGIN.length + size
  }
  const first = size === end + END.length ? partAt(files, fd, places[0]!, parts[0]!) : undefined
  if (!first) return null
  let isOpen = true
  const state: Opened = {
    length: parts.length,
    at: (part) => (part === 0 ? first : isOpen ? partAt(files, fd, places[part]!, parts[part]!) : undefined),
    close() {
      if (isOpen) files.close(fd)
      isOpen = false
    },
  }
  return { version, position: { seq, hash, offset }, journal, state }
}

/** Undefined when it cannot be read or is not what its sum says. */
const partAt = (files: Files, fd: number, from: number, { size, sum }: Part): Buffer | undefined => {
  try {
    const bytes = readAt(files, fd, from, size)
    return bytes && sha256(bytes) === sum ? bytes : undefined
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return undefined
  }
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
