// Reads what was appended to the journal since this process last looked, checking every line; it must never change the file.
import { checkLine, MAX_LINE_BYTES, type Entry } from './line.ts'
import { eachLine } from './line-reader.ts'
import { usualEntry } from './usual-line.ts'
import { damageSentence, type Damage, type OpenFile } from './open-file.ts'
import { whyOf } from './trouble.ts'

/** The unfinished end of a journal: a crash cut it short, or, without the lock, another program is writing it just now. */
export type Torn = { offset: number; bytes: number }

/** `count` entries were delivered; `what` came after them. */
export type CaughtUp = { count: number } & (
  | { kind: 'whole' }
  | { kind: 'torn'; torn: Torn }
  | { kind: 'damaged'; damage: Damage; sentence: string }
  | { kind: 'unreadable'; sentence: string }
)

/** Delivers every entry that checks after `file.head` and moves the head along with it. */
export const catchUp = (file: OpenFile, onEntry: (entry: Entry) => void): CaughtUp => {
  let count = 0
  const damaged = (offset: number, what: string): CaughtUp => {
    file.damage ??= { line: file.head.seq + 1, offset, what }
    return { kind: 'damaged', count, damage: file.damage, sentence: damageSentence(file.path, file.damage) }
  }
  if (file.damage !== undefined) return damaged(file.damage.offset, file.damage.what)
  // What a failed sync left in the file may be gone after a power loss, so it is not shown as if it were on disk.
  if (file.failure !== undefined) return { kind: 'whole', count }
  const extent = extentOf(file)
  if ('error' in extent) return unreadable(count, extent.error)
  const { size } = extent
  if (size < file.head.offset) return damaged(size, 'The file is shorter than it was when it was last read.')
  if (size === file.head.offset) return { kind: 'whole', count }

  const take = (entry: Entry, after: number): true => {
    file.head = { seq: entry.seq, hash: entry.hash, offset: after }
    count++
    onEntry(entry)
    return true
  }
  let fault: { offset: number; what: string; isHalfWritten: boolean } | undefined
  const end = eachLine(
    file.files,
    file.readFd,
    file.head.offset,
    size - file.head.offset,
    (bytes, offset) => {
      // What was appended after the size was taken is for the next time.
      if (offset + bytes.length >= size) return false
      const checked = checkLine(bytes, file.head.seq + 1, file.head.hash)
      if (!checked.ok) {
        const isLast = offset + bytes.length + 1 === size
        fault = { offset, what: checked.what, isHalfWritten: isLast && lacksSectors(bytes, offset) }
        return false
      }
      return take(checked.entry, offset + bytes.length + 1)
    },
    (text, offset) => {
      const after = offset + text.length + 1
      const entry = after <= size ? usualEntry(text, file.head.seq + 1, file.head.hash) : undefined
      return entry !== undefined && take(entry, after)
    },
  )

  const { offset } = file.head
  if (fault !== undefined) {
    const { offset, what, isHalfWritten } = fault
    if (isHalfWritten) return { kind: 'torn', count, torn: { offset, bytes: size - offset } }
    return damaged(offset, what)
  }
  if (end.kind === 'unreadable') return unreadable(count, end.error)
  if (end.kind === 'too-long') return damaged(end.offset, TOO_LONG)
  if (end.kind === 'stopped' || end.rest.length === 0) return { kind: 'whole', count }
  const what = damageInTail(end.rest, file.head.seq + 1, file.head.hash)
  if (what !== undefined) return damaged(offset, what)
  return { kind: 'torn', count, torn: { offset, bytes: end.rest.length } }
}

export const TOO_LONG = `The line is longer than ${MAX_LINE_BYTES} bytes.`

/** A crash leaves the first bytes of what was being written: a sound line with another byte in place of its newline is no tear. */
export const damageInTail = (rest: Buffer, expectedSeq: number, expectedPrev: string): string | undefined =>
  checkLine(rest.subarray(0, -1), expectedSeq, expectedPrev).ok
    ? 'The newline at the end of the line has been changed.'
    : undefined

const SECTOR = 512

/**
 * After a power loss the end of what was being written may be on disk and a part before it not: whole sectors then read as
 * zeros, up to the end of a sector. No line holds a zero byte, and no single changed byte makes such a gap.
 */
export const lacksSectors = (line: Buffer, offset: number): boolean => {
  const isEdge = (at: number): boolean => at === 0 || at === line.length || (offset + at) % SECTOR === 0
  let gaps = 0
  for (let from = line.indexOf(0); from !== -1;) {
    let to = from
    while (line[to] === 0) to++
    if (!isEdge(from) || !isEdge(to)) return false
    gaps++
    from = line.indexOf(0, to)
  }
  return gaps > 0
}

const unreadable = (count: number, error: unknown): CaughtUp => ({
  kind: 'unreadable',
  count,
  sentence: unreadableSentence(error),
})

export const unreadableSentence = (error: unknown): string =>
  `The journal cannot be read: ${whyOf(error)}. Nothing was changed. Put that right, then start again.`

const extentOf = (file: OpenFile) => {
  try {
    return { size: file.files.fstat(file.readFd).size }
  } catch (error) {
    return { error }
  }
}
