// Finds the events that name an id by searching the journal's bytes, without parsing the rest; it must never leave out one that does.
import { join } from 'node:path'
import { realFiles, type Files } from './files.ts'
import { JOURNAL_NAME } from './journal.ts'
import { frameOf, MAX_LINE_BYTES, readEntry, type Entry } from './line.ts'
import { codeOf } from './trouble.ts'

const FIRST_READ = 4 * 1024 * 1024
const NEWLINE = 10

/** An id is letters of ASCII, so a line names it in plain bytes, or else by the number of a letter: those lines are parsed all the same. */
const BY_NUMBER = '\\u00'

/**
 * Every entry up to `lastSeq` whose line may name any of these, ids or a type of event, in the order of the journal. Undefined when a line that was
 * found does not check, or the file cannot be read: then the journal is to be read whole.
 */
export function entriesNaming(
  folder: string,
  names: readonly string[],
  lastSeq: number,
  files: Files = realFiles,
): Entry[] | undefined {
  let fd: number | undefined
  try {
    fd = files.open(join(folder, JOURNAL_NAME), 'read')
    return search(
      files,
      fd,
      [...names.map((each) => `"${each}"`), BY_NUMBER].map((each) => Buffer.from(each)),
      lastSeq,
    )
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return undefined
  } finally {
    if (fd !== undefined) files.close(fd)
  }
}

function search(files: Files, fd: number, needles: readonly Buffer[], lastSeq: number): Entry[] | undefined {
  const found: Entry[] = []
  let buffer = Buffer.allocUnsafe(FIRST_READ)
  let base = 0
  let filled = 0
  for (;;) {
    if (filled === buffer.length) {
      if (filled > MAX_LINE_BYTES) return undefined
      buffer = Buffer.concat([buffer], buffer.length * 2)
    }
    const got = files.read(fd, buffer.subarray(filled), base + filled)
    // What follows the last newline is no line yet.
    if (got === 0) return found
    filled += got
    const end = buffer.lastIndexOf(NEWLINE, filled - 1) + 1
    for (const [from, to] of linesWith(buffer.subarray(0, end), needles)) {
      const line = buffer.subarray(from, to)
      const frame = frameOf(line)
      if (!frame || frame.own !== frame.stated) return undefined
      if (frame.seq > lastSeq) return found
      const read = readEntry(line, frame)
      if (!read.ok) return undefined
      found.push(read.entry)
    }
    buffer.copyWithin(0, end, filled)
    base += end
    filled -= end
  }
}

/** Where each line begins and ends that holds any of the needles; the bytes are whole lines. */
function* linesWith(bytes: Buffer, needles: readonly Buffer[]): Generator<[number, number]> {
  const next = needles.map((needle) => bytes.indexOf(needle))
  for (;;) {
    const hits = next.filter((at) => at !== -1)
    if (!hits.length) return
    const hit = Math.min(...hits)
    const from = bytes.lastIndexOf(NEWLINE, hit) + 1
    const to = bytes.indexOf(NEWLINE, hit)
    yield [from, to]
    needles.forEach((needle, index) => {
      if (next[index]! !== -1 && next[index]! < to) next[index] = bytes.indexOf(needle, to)
    })
  }
}
