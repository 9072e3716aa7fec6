// A place between two lines of the journal; it must never be trusted before the journal's own bytes confirm it.
import { codeOf } from './trouble.ts'
import { readAt, type Files } from './files.ts'
import { frameOf, MAX_LINE_BYTES, ZEROS } from './line.ts'

/** The place after the line `seq` whose hash is `hash`; `offset` is in bytes from the start of the file. */
export type Position = { seq: number; hash: string; offset: number }

export const START: Position = { seq: 0, hash: ZEROS, offset: 0 }

const FIRST_STEP = 4096

/** Whether the line that ends at the position's offset really is that seq with that hash. Unreadable counts as no. */
export const isAt = (files: Files, fd: number, position: Position): boolean => {
  const { seq, hash, offset } = position
  if (offset === 0) return seq === 0 && hash === ZEROS
  try {
    if (files.fstat(fd).size < offset) return false
    const line = lineBefore(files, fd, offset)
    const frame = line === undefined ? undefined : frameOf(line)
    return frame !== undefined && frame.seq === seq && frame.own === hash && frame.stated === hash
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return false
  }
}

/** The line whose newline is the byte before `offset`, read backwards in growing steps. */
const lineBefore = (files: Files, fd: number, offset: number): Buffer | undefined => {
  for (let step = FIRST_STEP; ; step *= 8) {
    const from = Math.max(0, offset - step)
    const tail = readAt(files, fd, from, offset - from)
    if (tail === undefined || tail.at(-1) !== 10) return undefined
    const newline = tail.subarray(0, -1).lastIndexOf(10)
    if (newline !== -1 || from === 0) return tail.subarray(newline + 1, -1)
    if (step > MAX_LINE_BYTES) return undefined
  }
}
