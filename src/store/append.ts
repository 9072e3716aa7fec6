// Puts an entry at the end of the journal; it must never call an entry accepted before fdatasync has returned, nor try a failed sync again.
import { shortWrite } from './files.ts'
import { formatLine, MAX_LINE_BYTES, type Draft, type Entry } from './line.ts'
import type { Held } from './lock.ts'
import { behind, fail, openForAppend, refusalOf, type OpenFile, type Refusal } from './open-file.ts'

export type Appended = { ok: true; entry: Entry } | Refusal | { ok: false; why: 'too-long'; sentence: string }

/** Writes one entry in one write and syncs it. Only under the lock. */
export const append = (file: OpenFile, held: Held, draft: Draft): Appended => {
  const refusal = refusalOf(file, held)
  if (refusal !== undefined) return refusal
  const seq = file.head.seq + 1
  const { line, hash } = formatLine(draft, seq, file.head.hash)
  const bytes = Buffer.from(`${line}\n`)
  if (bytes.length > MAX_LINE_BYTES) return TOO_LONG_TO_RECORD
  try {
    if (!write(file, bytes)) return behind
  } catch (error) {
    return fail(file, error)
  }
  file.head = { seq, hash, offset: file.head.offset + bytes.length }
  // Read back from the line, so that the board shows what a later reading of the journal will show.
  return { ok: true, entry: JSON.parse(line) as Entry }
}

/** False when the file does not end where this process last read it. */
const write = (file: OpenFile, bytes: Buffer): boolean => {
  const { files } = file
  const from = file.head.offset
  const { fd, size } = openForAppend(file)
  if (size !== from) return false
  const written = files.write(fd, bytes)
  if (written !== bytes.length) throw shortWrite(written, bytes.length)
  files.fdatasync(fd)
  if (files.fstat(fd).size !== from + bytes.length) {
    throw new Error('another program wrote to it at the same moment')
  }
  return true
}

const TOO_LONG_TO_RECORD: Appended = {
  ok: false,
  why: 'too-long',
  sentence:
    'This is too long for one entry of the journal, so nothing was recorded. Record it in smaller parts.',
}
