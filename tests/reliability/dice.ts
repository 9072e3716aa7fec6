// Chance that falls the same way again for the same seed.
export type Dice = {
  /** A whole number from 0 to `below` less one. */
  under(below: number): number
  oneOf<T>(items: readonly [T, ...T[]]): T
}

/** Mulberry32, a public-domain generator of 32 bits. */
export function diceOf(seed: number): Dice {
  let state = seed >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
  const under = (below: number): number => Math.floor(next() * below)
  return { under, oneOf: (items) => items[under(items.length)]! }
}
