// What the tokenizer remembers between reads, and until when; it must never read a clock.
import { burstDueMs } from './burst.ts'
import type { Burst } from './burst.ts'
import type { Token } from './keys.ts'
import { PASTE_MS } from './paste.ts'
import type { Paste } from './paste.ts'
import { ESC } from './sequence.ts'

// Escape and the start of a sequence are one byte; the rest of a sequence follows within a few milliseconds.
const ESCAPE_MS = 50
// Past ESC [ nobody waits for an answer, so a slow line may take its time.
const SEQUENCE_MS = 400

export type TokenizerState = {
  /** What the scanners of this station put before a code, if anything. */
  readonly prefix: string
  readonly bytes: Uint8Array
  readonly sequence: string
  readonly sequenceMs: number
  readonly paste: Paste | undefined
  readonly burst: Burst | undefined
  /** A line feed until then belongs to the carriage return before it. */
  readonly lineFeedUntilMs: number
  /** A line end until then belongs to the ETX before it. */
  readonly endingUntilMs: number
  readonly heldKey: { readonly char: string; readonly untilMs: number } | undefined
  readonly lastScan: { readonly code: string; readonly atMs: number } | undefined
}

/** A state being worked on, and the tokens so far. */
export type Draft = { -readonly [K in keyof TokenizerState]: TokenizerState[K] } & { tokens: Token[] }

export const START: TokenizerState = {
  prefix: '',
  bytes: new Uint8Array(0),
  sequence: '',
  sequenceMs: 0,
  paste: undefined,
  burst: undefined,
  lineFeedUntilMs: -Infinity,
  endingUntilMs: -Infinity,
  heldKey: undefined,
  lastScan: undefined,
}

/** When `flush` next has something to do, if it has. */
export function dueMs(state: TokenizerState): number | undefined {
  const due = [
    state.burst && burstDueMs(state.burst),
    state.sequence === '' ? undefined : sequenceDueMs(state),
    state.paste && state.paste.lastMs + PASTE_MS,
  ].filter((ms) => ms !== undefined)
  return due.length === 0 ? undefined : Math.min(...due)
}

export function sequenceDueMs({ sequence, sequenceMs }: TokenizerState): number {
  return sequenceMs + (sequence === ESC ? ESCAPE_MS : SEQUENCE_MS)
}
