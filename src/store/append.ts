// Puts entries at the end of the journal; it must never call an entry accepted before fdatasync has returned, nor try a failed sync again.
import { clearMark, dropMark, markBatch } from './batch.ts'
import { shortWrite } from './files.ts'
import { formatLine, MAX_LINE_BYTES, type Draft, type Entry } from './line.ts'
import type { Held } from './lock.ts'
import { behind, fail, openForAppend, refusalOf, type OpenFile, type Refusal } from './open-file.ts'

export type Appended =
  { ok: true; entries: Entry[] } | Refusal | { ok: false; why: 'too-long'; sentence: string }

/** Writes all drafts or none, in one write, and syncs them. Only under the lock. */
export const append = (file: OpenFile, held: Held, drafts: readonly Draft[]): Appended => {
  const refusal = refusalOf(file, held)
  if (refusal !== undefined) return refusal
  if (drafts.length === 0) return { ok: true, entries: [] }

  let { seq, hash } = file.head
  const lines: string[] = []
  for (const draft of drafts) {
    const formatted = formatLine(draft, ++seq, hash)
    if (Buffer.byteLength(formatted.line) > MAX_LINE_BYTES) return TOO_LONG_TO_RECORD
    hash = formatted.hash
    lines.push(formatted.line)
  }
  const bytes = Buffer.from(`${lines.join('\n')}\n`)
  try {
    if (!write(file, bytes, drafts.length)) return behind
  } catch (error) {
    return fail(file, error)
  }
  file.head = { seq, hash, offset: file.head.offset + bytes.length }
  // Read back from the line, so that the board shows what a later reading of the journal will show.
  return { ok: true, entries: lines.map((line): Entry => JSON.parse(line)) }
}

/** False when the file does not end where this process last read it. */
const write = (file: OpenFile, bytes: Buffer, lines: number): boolean => {
  const { files, folder } = file
  const from = file.head.offset
  const to = from + bytes.length
  const { fd, size } = openForAppend(file)
  if (size !== from) return false
  clearMark(files, folder)
  if (lines > 1) markBatch(files, folder, { from, to, hash: file.head.hash })
  const written = files.write(fd, bytes)
  if (written !== bytes.length) throw shortWrite(written, bytes.length)
  files.fdatasync(fd)
  if (files.fstat(fd).size !== to) throw new Error('another program wrote to it at the same moment')
  if (lines > 1) dropMark(files, folder)
  return true
}

const TOO_LONG_TO_RECORD: Appended = {
  ok: false,
  why: 'too-long',
  sentence:
    'This is too long for one entry of the journal, so nothing was recorded. Record it in smaller parts.',
}
