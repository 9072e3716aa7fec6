// Reads a file line by line as raw bytes in bounded memory; it must never skip or change a byte, nor decode any but plain letters.
import { isAscii } from 'node:buffer'
import type { Files } from './files.ts'
import { MAX_LINE_BYTES } from './line.ts'

const SMALLEST_READ = 64 * 1024
const LARGEST_READ = 2 * 1024 * 1024
const NEWLINE = 10

/** `false` stops the reading before the line counts as read. `bytes` are good only during the call. */
type LineVisitor = (bytes: Buffer, offset: number) => boolean
/** Is shown a line as text first, where each byte around it is a plain letter; false leaves it to the visitor of bytes. */
type TextTaker = (text: string, offset: number) => boolean

/** How the reading ended. `rest` are the bytes after the last newline, from `offset` on. */
type ReadEnd =
  | { kind: 'end'; offset: number; rest: Buffer }
  | { kind: 'stopped' }
  | { kind: 'too-long'; offset: number }
  | { kind: 'unreadable'; error: unknown }

type Got = { bytes: number } | { error: unknown }

const readInto = (files: Files, fd: number, into: Uint8Array, position: number): Got => {
  try {
    return { bytes: files.read(fd, into, position) }
  } catch (error) {
    return { error }
  }
}

/** Visits every complete line from the byte `from` on; `sizeHint` is how much there may be to read. */
export const eachLine = (
  files: Files,
  fd: number,
  from: number,
  sizeHint: number,
  visit: LineVisitor,
  takeText?: TextTaker,
): ReadEnd => {
  let buffer = Buffer.allocUnsafe(Math.min(Math.max(sizeHint + 1, SMALLEST_READ), LARGEST_READ))
  let base = from
  let filled = 0
  for (;;) {
    if (filled === buffer.length) {
      if (filled > MAX_LINE_BYTES) return { kind: 'too-long', offset: base }
      buffer = Buffer.concat([buffer], buffer.length * 2)
    }
    const got = readInto(files, fd, buffer.subarray(filled), base + filled)
    if ('error' in got) return { kind: 'unreadable', error: got.error }
    if (got.bytes === 0) return { kind: 'end', offset: base, rest: buffer.subarray(0, filled) }
    const view = buffer.subarray(0, filled + got.bytes)
    const text = takeText && isAscii(view) ? view.toString('latin1') : undefined
    let start = 0
    for (let end = view.indexOf(NEWLINE, filled); end !== -1; end = view.indexOf(NEWLINE, start)) {
      const isTaken = text !== undefined && takeText!(text.slice(start, end), base + start)
      if (!isTaken && !visit(view.subarray(start, end), base + start)) return { kind: 'stopped' }
      start = end + 1
    }
    buffer.copyWithin(0, start, view.length)
    base += start
    filled = view.length - start
  }
}
