// How far a key moves in a list or a page; it must never leave it.
import type { Token } from '../input/keys.ts'

export const PAGE = 10

const STEPS: Readonly<Record<string, number>> = { up: -1, down: 1, home: -Infinity, end: Infinity }

/** Moves no further than `last`, so that the way back begins at once. */
export function scrolled(from: number, token: Token, last: number, page = PAGE): number {
  const pages: Readonly<Record<string, number>> = { 'page-up': -page, 'page-down': page }
  const step = 'key' in token ? (STEPS[token.key] ?? pages[token.key] ?? 0) : 0
  return Math.max(0, Math.min(last, Math.min(from, last) + step))
}

/** One step in a list whose last line is one step from its first; from where nothing is in hand, either way to the first. */
export const around = (from: number, by: 1 | -1, length: number): number =>
  from < 0 || length === 0 ? 0 : (from + by + length) % length
