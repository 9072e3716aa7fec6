// The characters held back until it is known whether a scanner or a person sent them; it must never lose one a person typed.
import type { Token } from './keys.ts'

// A scanner that types sends a character every 1 to 30 ms; a fast typist needs 50 ms or more, and 35 ms is not seen as a delay.
export const GAP_MS = 35
// A burst whose end is late is still a scan for this long; after it, a fast typist or a held key is let through.
export const END_MS = 100
// The same code within this time is one label read twice by an eager scanner, and is marked so.
export const AGAIN_MS = 400
const SHORTEST_SCAN = 3
const LONGEST_SCAN = 200
// A held key repeats every 25 to 40 ms; so many equal characters so far apart on average are a held key, not a label.
const REPEATS = 6
const REPEAT_MS = 20

export type Burst = {
  readonly tokens: readonly Token[]
  readonly chars: number
  readonly sinceMs: number
  readonly lastMs: number
  /** Opened by STX: it ends at ETX and nowhere else. */
  readonly framed: boolean
}

export function openBurst(atMs: number, framed: boolean): Burst {
  return { tokens: [], chars: 0, sinceMs: atMs, lastMs: atMs, framed }
}

export function addChar(burst: Burst, char: string, atMs: number): Burst {
  const chars = burst.chars + 1
  const tokens = chars > LONGEST_SCAN ? burst.tokens : [...burst.tokens, { char }]
  return { ...burst, tokens, chars, lastMs: atMs }
}

/** A key that arrives inside a burst waits with it, so that order is kept if the burst turns out to be typed. */
export function addKey(burst: Burst, token: Token): Burst {
  return burst.tokens.length > 2 * LONGEST_SCAN ? burst : { ...burst, tokens: [...burst.tokens, token] }
}

export function isFast(burst: Burst): boolean {
  return burst.chars >= SHORTEST_SCAN
}

export function isTooLong(burst: Burst): boolean {
  return burst.chars > LONGEST_SCAN
}

export function isHeldKey(burst: Burst): boolean {
  if (burst.framed || burst.chars < REPEATS || isTooLong(burst)) return false
  if (burst.lastMs - burst.sinceMs < REPEAT_MS * (burst.chars - 1)) return false
  const first = burst.tokens[0]
  return (
    first !== undefined && 'char' in first && burst.tokens.every((t) => 'char' in t && t.char === first.char)
  )
}

/** The moment from which the burst is no longer waited for. */
export function burstDueMs(burst: Burst): number {
  return burst.lastMs + (burst.framed || isFast(burst) ? END_MS : GAP_MS) + 1
}

/** The code a burst spells: control characters and keys inside it are dropped, and so are the prefix that the scanner is set to and an AIM symbology identifier. */
export function burstCode(burst: Burst, prefix: string): string {
  const text = burst.tokens.map((token) => ('char' in token ? token.char : '')).join('')
  const code =
    prefix !== '' && text.length > prefix.length && text.startsWith(prefix) ? text.slice(prefix.length) : text
  return code.replace(/^\][A-Za-z]\d(?=.)/u, '')
}

/** What the burst was, if nothing ended it: the keys as typed, or one refused scan. */
export function releaseBurst(burst: Burst): readonly Token[] {
  if (isTooLong(burst)) return [{ scan: '', tooLong: true }]
  return burst.framed ? [{ key: 'ctrl-b' }, ...burst.tokens] : burst.tokens
}
