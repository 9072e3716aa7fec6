// Reads the last lines of a journal without reading the rest; for showing only, so it checks nothing and decides nothing.
import { join } from 'node:path'
import { realFiles, type Files } from './files.ts'
import { JOURNAL_NAME } from './journal.ts'
import type { Logged } from './station.ts'

const STEP = 256 * 1024

/** The newest `count` events, the newest first; a line that is not whole is left out. */
export function readNewest(folder: string, count: number, files: Files = realFiles): Logged[] {
  const fd = files.open(join(folder, JOURNAL_NAME), 'read')
  try {
    const { size } = files.fstat(fd)
    let tail = Buffer.alloc(0)
    let from = size
    // One line more than asked for: the first of a tail that begins inside the file is not whole.
    while (from > 0 && linesIn(tail) <= count + 1) {
      const step = Math.min(STEP, from)
      from -= step
      const piece = Buffer.alloc(step)
      tail = Buffer.concat([piece.subarray(0, files.read(fd, piece, from)), tail])
    }
    const lines = tail.toString('utf8').split('\n').slice(0, -1)
    return lines
      .slice(from > 0 ? 1 : 0)
      .slice(-count)
      .toReversed()
      .flatMap(parsed)
  } finally {
    files.close(fd)
  }
}

function linesIn(bytes: Buffer): number {
  let count = 0
  for (let at = bytes.indexOf(10); at !== -1; at = bytes.indexOf(10, at + 1)) count++
  return count
}

function parsed(line: string): Logged[] {
  try {
    return [JSON.parse(line) as Logged]
  } catch {
    return []
  }
}
