// Tells where an escape sequence ends; it must never let part of one through as typed characters.
import { sequenceKey } from './keys.ts'
import type { Key } from './keys.ts'

export const ESC = '\x1b'
export const PASTE_END = '\x1b[201~'
const PASTE_START = '\x1b[200~'
// Replies of a terminal are short; a longer "string" is noise, and must not swallow keys for ever.
const LONGEST_STRING = 512

type SequenceRead = 'more' | 'broken' | 'unknown' | 'paste' | { key: Key }

/** Reads `text`, which starts with ESC: 'more' is wanted, or it is whole, or its last character breaks it. */
export function readSequence(text: string): SequenceRead {
  if (text === ESC) return 'more'
  const last = text.at(-1) ?? ''
  switch (text[1]) {
    case '[':
      return readControl(text, last)
    case 'O':
      if (text.length === 2 || /[\d;]/.test(last)) return 'more'
      return /[@-~]/.test(last) ? named(text) : 'broken'
    case ']':
    case 'P':
    case 'X':
    case '^':
    case '_':
      if (last === '\x07' || (text.length > 3 && text.endsWith('\x1b\\'))) return 'unknown'
      return text.length > LONGEST_STRING ? 'unknown' : 'more'
    case ESC:
    case '\x02':
    case '\x03':
      return 'broken'
    default:
      return /[ -/]/.test(last) ? 'more' : 'unknown'
  }
}

function readControl(text: string, last: string): SequenceRead {
  if (text.length === 2) return 'more'
  // The Linux console sends F1 to F5 as CSI [ A to CSI [ E.
  if (text[2] === '[') return text.length === 3 ? 'more' : 'unknown'
  if (text === PASTE_START) return 'paste'
  if (/[@-~]/.test(last)) return named(text)
  return /[ -?]/.test(last) ? 'more' : 'broken'
}

function named(text: string): SequenceRead {
  const key = sequenceKey(text)
  return key === undefined ? 'unknown' : { key }
}
