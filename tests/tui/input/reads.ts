// Plays reads with their times to the tokenizer, flushing when it asks, as the listener does; it must never use a real clock.
import type { Token } from '../../../src/tui/input/keys.ts'
import { START, dueMs, type TokenizerState } from '../../../src/tui/input/tokenizer-state.ts'
import { flush, tokenize } from '../../../src/tui/input/tokenizer.ts'

export type Read = readonly [atMs: number, read: string | Uint8Array]

/** All tokens of the reads, each with the time it was let go. */
export function playTimed(reads: readonly Read[], prefix = ''): { token: Token; atMs: number }[] {
  const played: { token: Token; atMs: number }[] = []
  let state: TokenizerState = { ...START, prefix }
  const keep = (result: { state: TokenizerState; tokens: Token[] }, atMs: number) => {
    state = result.state
    for (const token of result.tokens) played.push({ token, atMs })
  }
  const flushUntil = (limitMs: number) => {
    for (let due = dueMs(state); due !== undefined && due <= limitMs; due = dueMs(state)) {
      keep(flush(state, due), due)
    }
  }
  for (const [atMs, read] of reads) {
    flushUntil(atMs)
    keep(tokenize(state, read, atMs), atMs)
  }
  flushUntil(Infinity)
  return played
}

export function play(reads: readonly Read[], prefix = ''): Token[] {
  return playTimed(reads, prefix).map(({ token }) => token)
}

/** One read for each character, `gapMs` apart. */
export function apart(text: string, gapMs: number, fromMs = 0): Read[] {
  return Array.from(text, (char, at) => [fromMs + at * gapMs, char] as const)
}
