// How far a key moves in a list or a page; it must never leave it.
import type { Token } from '../input/keys.ts'

export const PAGE = 10

const STEPS: Readonly<Record<string, number>> = {
  up: -1,
  down: 1,
  'page-up': -PAGE,
  'page-down': PAGE,
  home: -Infinity,
  end: Infinity,
}

/** Moves no further than `last`, so that the way back begins at once. */
export function scrolled(from: number, token: Token, last: number): number {
  const step = 'key' in token ? (STEPS[token.key] ?? 0) : 0
  return Math.max(0, Math.min(last, Math.min(from, last) + step))
}
