// Turns what a terminal sends into tokens, as a pure function of bytes and times; it must never read the terminal or a clock.
import type { Token } from './keys.ts'
import { ESC } from './sequence.ts'
import { endSequence, expire, takeChar } from './take-char.ts'
import type { Draft, TokenizerState } from './tokenizer-state.ts'
import { decodePiece } from './utf8.ts'

export type Tokenized = { state: TokenizerState; tokens: Token[] }

/** Tokens of what was read at `atMs` (milliseconds that never go back). */
export function tokenize(state: TokenizerState, read: Uint8Array | string, atMs: number): Tokenized {
  const draft: Draft = { ...state, tokens: [] }
  expire(draft, atMs)
  let text = read as string
  if (typeof read !== 'string') {
    const piece = decodePiece(draft.bytes, read)
    draft.bytes = piece.rest
    text = piece.text
  }
  // Alt with a letter comes in one read. A letter in a later read was a key of its own, perhaps the first of a scan.
  if (draft.sequence === ESC && text !== '' && !/^[[O]/.test(text)) endSequence(draft)
  for (const char of text) takeChar(draft, char, atMs)
  return done(draft)
}

/** Tokens that waited for more, and waited long enough by `atMs`. */
export function flush(state: TokenizerState, atMs: number): Tokenized {
  const draft: Draft = { ...state, tokens: [] }
  expire(draft, atMs)
  return done(draft)
}

function done({ tokens, ...state }: Draft): Tokenized {
  return { state, tokens }
}
