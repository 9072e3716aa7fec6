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
  if (file.damage !== undefined) return damaged(file, 0, file.damage.offset, file.damage.what)
  // What a failed sync left in the file may be gone after a power loss, so it is not shown as if it were on disk.
  if (file.failure !== undefined) return { kind: 'whole', count: 0 }
  const extent = extentOf(file)
  if ('error' in extent) return unreadable(0, extent.error)
  const { size } = extent
  if (size < file.head.offset)
    return damaged(file, 0, size, 'The file is shorter than it was when it was last read.')
  if (size === file.head.offset) return { kind: 'whole', count: 0 }
  const before = file.head.seq
  takeAhead(file, size, onEntry)
  const ahead = file.head.seq - before
  const { count, ...end } = readPlainly(file, size, onEntry)
  return { ...end, count: ahead + count }
}

/** Of a long tail what a thread has checked ahead; whatever it leaves, and what is wrong, is for the plain reader. */
const takeAhead = (file: OpenFile, size: number, onEntry: (entry: Entry) => void): void => {
  const { head, ahead } = file
  if (ahead === undefined || size - head.offset < ahead.long) return
  const thread = ahead.begin({ fd: file.readFd, after: head, to: size })
  try {
    for (let got = thread.next(head); got !== undefined; got = thread.next(file.head)) {
      if (got.entries === undefined) {
        readPlainly(file, got.to, onEntry)
        if (file.head.offset !== got.to) return
      } else {
        for (const entry of got.entries) onEntry(entry)
        file.head = got.head
      }
    }
  } finally {
    thread.stop()
  }
}

/** Reads the lines that end by the byte `to`. */
const readPlainly = (file: OpenFile, to: number, onEntry: (entry: Entry) => void): CaughtUp => {
  let count = 0
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
    to - file.head.offset,
    (bytes, offset) => {
      // What was appended after the size was taken is for the next time.
      if (offset + bytes.length >= to) return false
      const checked = checkLine(bytes, file.head.seq + 1, file.head.hash)
      if (!checked.ok) {
        const isLast = offset + bytes.length + 1 === to
        fault = { offset, what: checked.what, isHalfWritten: isLast && lacksSectors(bytes, offset) }
        return false
      }
      return take(checked.entry, offset + bytes.length + 1)
    },
    (text, offset) => {
      const after = offset + text.length + 1
      const entry = after <= to ? usualEntry(text, file.head.seq + 1, file.head.hash) : undefined
      return entry !== undefined && take(entry, after)
    },
  )

  const { offset } = file.head
  if (fault !== undefined) {
    const { offset, what, isHalfWritten } = fault
    if (isHalfWritten) return { kind: 'torn', count, torn: { offset, bytes: to - offset } }
    return damaged(file, count, offset, what)
  }
  if (end.kind === 'unreadable') return unreadable(count, end.error)
  if (end.kind === 'too-long') return damaged(file, count, end.offset, TOO_LONG)
  if (end.kind === 'stopped' || end.rest.length === 0) return { kind: 'whole', count }
  const what = damageInTail(end.rest, file.head.seq + 1, file.head.hash)
  if (what !== undefined) return damaged(file, count, offset, what)
  return { kind: 'torn', count, torn: { offset, bytes: end.rest.length } }
}

const damaged = (file: OpenFile, count: number, offset: number, what: string): CaughtUp => {
  file.damage ??= { line: file.head.seq + 1, offset, what }
  return { kind: 'damaged', count, damage: file.damage, sentence: damageSentence(file.path, file.damage) }
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
