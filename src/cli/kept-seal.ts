// What a file kept elsewhere says of a journal: its seal, or the length and hash that a log was exported at; it must never judge either.
import { headIn } from '../exports/log-frame-lines.ts'
import { readTable } from '../store/imports/table.ts'
import type { Head } from '../store/seals/check-seals.ts'
import { parseNote } from '../store/seals/note.ts'
import { sealIn } from '../store/seals/seal-text.ts'

/** Said where a file could not be read for a seal. */
export const SEALS_ARE_READ_FROM =
  'A seal is read from its note, or from a readiness log as text, CSV or JSON.'

/** The seal as a note, else the unsigned head of a log; a text with neither is given back to be found wanting. */
export function keptIn(bytes: Buffer): { text: string } | { head: Head } | 'pdf' {
  if (bytes.subarray(0, 5).toString() === '%PDF-') return 'pdf'
  const text = new TextDecoder().decode(bytes)
  if (parseNote(text)) return { text }
  const json = inJson(text)
  if (json) return json
  const words = wordsOfCsv(bytes) ?? text
  const seal = sealIn(words)
  if (seal !== undefined) return { text: seal }
  const head = headIn(words)
  return head ? { head } : { text }
}

function inJson(text: string): { text: string } | { head: Head } | undefined {
  try {
    const { journal } = JSON.parse(text) as { journal?: Record<string, unknown> }
    const { seal, length, head } = journal ?? {}
    if (typeof seal === 'string') return { text: seal }
    if (typeof length === 'number' && typeof head === 'string') return { head: { count: length, head } }
    return undefined
  } catch {
    return undefined
  }
}

/** The log's own words, one row a line, whatever a spreadsheet has made of the separators since. */
function wordsOfCsv(bytes: Buffer): string | undefined {
  const { head, rows } = readTable(bytes)
  const at = head?.cells.indexOf('words') ?? -1
  return at < 0 ? undefined : rows.map(({ cells }) => cells[at]).join('\n')
}
