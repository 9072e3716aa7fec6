// Checks a piece of a journal by itself, for whoever joins it to the piece before; it says only that all is well, and must never say what is not.
import type { Files } from './files.ts'
import { checkLine, frameOf, plainFrame, type Frame } from './line.ts'
import { eachLine } from './line-reader.ts'
import type { Position } from './position.ts'
import { isOfSeals } from './seals/journal-keys.ts'

/** Whole lines from byte to byte of an open file; `wanted` are lines to be shown besides those of the seals. */
export type PieceTask = {
  fd: number
  from: number
  to: number
  wanted: ReadonlySet<number>
  /** What the first line follows, where that is known. */
  after?: Position
}

/** `start` is what the first line says it follows: it is for the piece before to confirm. */
export type Piece = {
  start: Position
  head: Position
  noticed: { line: number; text: string; frame: Frame }[]
}

/** Undefined where any line is not sound, or not next after the one before it, or where the piece does not end with a line. */
export const checkPiece = (
  files: Files,
  { fd, from, to, wanted, after: known }: PieceTask,
  onLine?: (after: number, bytes: Buffer, frame: Frame) => void,
): Piece | undefined => {
  let start: Position | undefined
  let head: Position | undefined
  const noticed: Piece['noticed'] = []
  const end = eachLine(files, fd, from, to - from, (bytes, offset) => {
    const after = offset + bytes.length + 1
    if (after > to) return false
    head ??= start = known ?? startOf(bytes, offset)
    const text = bytes.toString('latin1')
    const frame = head && (plainFrame(bytes, text, head.seq + 1, head.hash) ?? soundFrame(bytes, head))
    if (frame === undefined) {
      head = undefined
      return false
    }
    head = { seq: frame.seq, hash: frame.own, offset: after }
    // In a sound journal a line's number is its seq.
    if (wanted.has(frame.seq) || isOfSeals(frame.seq, text)) noticed.push({ line: frame.seq, text, frame })
    onLine?.(after, bytes, frame)
    return true
  })
  const isWhole = end.kind === 'stopped' || end.kind === 'end'
  return isWhole && start && head?.offset === to ? { start, head, noticed } : undefined
}

const startOf = (bytes: Buffer, offset: number): Position | undefined => {
  const frame = frameOf(bytes)
  return frame && { seq: frame.seq - 1, hash: frame.prev, offset }
}

const soundFrame = (bytes: Buffer, { seq, hash }: Position): Frame | undefined =>
  checkLine(bytes, seq + 1, hash).ok ? frameOf(bytes) : undefined
