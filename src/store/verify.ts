// Checks every line of a journal and goes on after each fault; it must never stop at the first one, change the file or need it whole in memory.
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { damageInTail, lacksSectors, TOO_LONG, unreadableSentence, type Torn } from './catch-up.ts'
import { realFiles, type Files } from './files.ts'
import {
  frameOf,
  plainFrame,
  readEntry,
  WRONG_HASH,
  WRONG_PREV,
  wrongSeq,
  ZEROS,
  type Frame,
} from './line.ts'
import { eachLine } from './line-reader.ts'
import { JOURNAL_NAME } from './journal.ts'
import type { Damage } from './open-file.ts'
import { START, type Position } from './position.ts'
import { codeOf } from './trouble.ts'
import { checkInTwo, inThread, type Begin } from './two-pieces.ts'

/** `lines` counts complete lines; `head` is the last sound one. A torn tail is no fault: it is the mark of a crash. */
export type Verified = {
  kind: 'verified'
  lines: number
  head: Position
  faults: Damage[]
  torn?: Torn
}
export type Verification = Verified | { kind: 'no-station' } | { kind: 'unreadable'; sentence: string }

export type VerifyOptions = {
  files?: Files
  onProgress?: (done: number, total: number) => void
  /** Is shown every complete line, each byte as a letter; `frame` is undefined for what is not built like one. Of a long and sound journal it may be shown only the lines that seals need, and those `wanted`. */
  notice?: (line: number, text: string, frame: Frame | undefined) => void
  wanted?: ReadonlySet<number>
  /** From how many bytes on it is checked in two halves at once, and who checks the second. */
  long?: number
  begin?: Begin
  /** The byte that the halves are parted near; the middle where none is named. */
  middle?: number
}

/** What is shorter gains nothing: measured, a thread that starts costs what it saves up to some 35 MB. */
const LONG_BYTES = 48 * 1024 * 1024
const PROGRESS_EVERY_BYTES = 16 * 1024 * 1024

/** What the next line must follow. After a changed line both the hash it states and the one it has are taken, and after a line that is none also `before`, so that one change is one fault. */
type Link =
  | { hashes: [string]; seq: number; isSound: true; before?: undefined }
  | { hashes: string[] | 'unknown'; seq: number; isSound: false; before?: Link }

const FIRST: Link = { hashes: [ZEROS], seq: 0, isSound: true }

export const verifyJournal = (folder: string, options: VerifyOptions = {}): Verification => {
  const { files = realFiles } = options
  let fd: number | undefined
  try {
    fd = files.open(join(folder, JOURNAL_NAME), 'read')
    const { size } = files.fstat(fd)
    if (size === 0) return { kind: 'no-station' }
    return verifyInTwo(files, fd, size, options) ?? verifyFile(files, fd, size, options)
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return codeOf(error) === 'ENOENT'
      ? { kind: 'no-station' }
      : { kind: 'unreadable', sentence: unreadableSentence(error) }
  } finally {
    if (fd !== undefined) files.close(fd)
  }
}

const reporter = (size: number, onProgress: VerifyOptions['onProgress']): ((done: number) => void) => {
  let reportAt = PROGRESS_EVERY_BYTES
  return (done) => {
    if (done < reportAt) return
    onProgress?.(Math.min(done, size), size)
    reportAt = done + PROGRESS_EVERY_BYTES
  }
}

/** Undefined unless it is long and all is well: what is wrong, the plain reader says. */
const verifyInTwo = (
  files: Files,
  fd: number,
  size: number,
  { wanted = new Set(), long = LONG_BYTES, begin, middle, notice, onProgress, ...options }: VerifyOptions,
): Verified | undefined => {
  const hasTwo = options.files === undefined && availableParallelism() > 1
  const beginOther = begin ?? (hasTwo && inThread(new URL('./piece.js', import.meta.url)))
  if (size < long || !beginOther) return undefined
  const checked = checkInTwo(files, fd, size, wanted, beginOther, reporter(size, onProgress), middle)
  if (checked === undefined) return undefined
  for (const { line, text, frame } of checked.noticed) notice?.(line, text, frame)
  onProgress?.(size, size)
  return { kind: 'verified', lines: checked.head.seq, head: checked.head, faults: [] }
}

/** Verifies the lines that end within `size`. */
const verifyFile = (
  files: Files,
  fd: number,
  size: number,
  { onProgress, notice }: VerifyOptions,
): Verification => {
  const faults: Damage[] = []
  let lines = 0
  let head = START
  let link: Link = FIRST as Link
  let torn: Torn | undefined
  const report = reporter(size, onProgress)
  const end = eachLine(files, fd, 0, size, (bytes, offset) => {
    const after = offset + bytes.length + 1
    if (after > size) return false
    lines++
    const text = bytes.toString('latin1')
    // Sound, next after a sound line, and plain: nearly every line of nearly every journal.
    const usual = link.isSound ? plainFrame(bytes, text, link.seq + 1, link.hashes[0]!) : undefined
    const frame = usual ?? frameOf(bytes)
    notice?.(lines, text, frame)
    const found = usual ? NONE : faultsOf(bytes, frame, link)
    if (found.length > 0 && after === size && lacksSectors(bytes, offset)) {
      lines--
      torn = { offset, bytes: size - offset }
      return true
    }
    for (const what of found) faults.push({ line: lines, offset, what })
    link = nextLink(bytes, frame, link)
    if (frame !== undefined && found.length === 0) head = { seq: frame.seq, hash: frame.own, offset: after }
    report(after)
    return true
  })
  if (end.kind === 'unreadable') throw end.error
  onProgress?.(size, size)
  const verified: Verified = { kind: 'verified', lines, head, faults, ...(torn && { torn }) }
  const faultAfter = (offset: number, what: string) => {
    faults.push({ line: lines + 1, offset, what })
    return verified
  }
  if (end.kind === 'too-long') return faultAfter(end.offset, TOO_LONG)
  if (end.kind === 'stopped' || end.rest.length === 0) return verified
  const changed = damageInTail(end.rest, link.seq + 1, head.hash)
  if (changed !== undefined) return faultAfter(end.offset, changed)
  return { ...verified, torn: { offset: end.offset, bytes: end.rest.length } }
}

const NONE: string[] = []

const faultsOf = (bytes: Buffer, frame: Frame | undefined, link: Link): string[] => {
  if (frame === undefined) return [NOT_BUILT]
  const isNext = frame.seq === link.seq + 1
  const follows = link.hashes === 'unknown' || link.hashes.includes(frame.prev)
  if (frame.own !== frame.stated) {
    // One change cannot spoil seq, prev and hash together: then lines are missing or moved as well.
    const isElsewhere = link.hashes !== 'unknown' && !follows && !isNext
    return isElsewhere ? [WRONG_HASH, wrongSeq(frame.seq, link.seq + 1)] : [WRONG_HASH]
  }
  const { before } = link
  const isAfterInserted =
    before !== undefined && frame.seq === before.seq + 1 && before.hashes.includes(frame.prev)
  if (isAfterInserted) return contentFaults(bytes, frame)
  const isExcused = !link.isSound && link.hashes !== 'unknown' && follows
  if (!isNext && !isExcused) return [wrongSeq(frame.seq, link.seq + 1)]
  if (!follows) return [WRONG_PREV]
  return contentFaults(bytes, frame)
}

const contentFaults = (bytes: Buffer, frame: Frame): string[] => {
  const read = readEntry(bytes, frame)
  return read.ok ? [] : [read.what]
}

const nextLink = (bytes: Buffer, frame: Frame | undefined, link: Link): Link => {
  if (frame === undefined) {
    const stated = bytes.toString('latin1', Math.max(0, bytes.length - 66), Math.max(0, bytes.length - 2))
    const isHash = /^[0-9a-f]{64}$/.test(stated)
    return {
      hashes: isHash ? [stated] : 'unknown',
      seq: link.seq + 1,
      isSound: false,
      before: link.before ?? link,
    }
  }
  const isSound = frame.own === frame.stated
  if (isSound) return { hashes: [frame.own], seq: frame.seq, isSound }
  const follows = link.hashes === 'unknown' || link.hashes.includes(frame.prev)
  // A changed line that follows the one before it stands in its place, whatever its seq has been changed to.
  const seq = follows ? link.seq + 1 : frame.seq
  return { hashes: [frame.stated, frame.own], seq, isSound }
}

const NOT_BUILT = 'The line is not built like a line of the journal.'
