// Gathers text that the terminal marks as pasted; it must never let pasted text act as keys.
import type { Token } from './keys.ts'
import { PASTE_END } from './sequence.ts'

// A paste whose end mark never comes must not hold the keyboard.
export const PASTE_MS = 1000
const LONGEST_PASTE = 100_000

export type Paste = {
  readonly text: string
  readonly length: number
  readonly tail: string
  readonly lastMs: number
  readonly isWhole: boolean
}

export function openPaste(atMs: number): Paste {
  return { text: '', length: 0, tail: '', lastMs: atMs, isWhole: false }
}

export function addPasted(paste: Paste, char: string, atMs: number): Paste {
  const tail = (paste.tail + char).slice(-PASTE_END.length)
  return {
    text: paste.length < LONGEST_PASTE ? paste.text + char : paste.text,
    length: paste.length + char.length,
    tail,
    lastMs: atMs,
    isWhole: tail === PASTE_END,
  }
}

/** The pasted text with line ends as LF, and without other control characters or escape sequences. */
export function pastedToken({ text, length, isWhole }: Paste): Token {
  const inside = isWhole ? text.slice(0, length - PASTE_END.length) : text
  const paste = inside
    .replace(/\r\n?/g, '\n')
    .replace(/\x1b\[[0-?]*[ -/]*[@-~]/g, '')
    .replace(/[\0-\x08\x0b-\x1f\x7f-\x9f]/g, '')
  return length > LONGEST_PASTE + PASTE_END.length ? { paste, tooLong: true } : { paste }
}
