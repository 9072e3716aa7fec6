// Invented numbers that are the same on every machine; it must use no clock and no true randomness.

export interface Dice {
  /** A whole number from `least` to `most`, both included. */
  between(least: number, most: number): number
  pick<T>(list: readonly T[]): T
  /** True once in `of` times. */
  once(of: number): boolean
}

/** A small seeded generator (mulberry32). */
export function diceOf(seed: number): Dice {
  let state = seed
  const random = (): number => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
  const between = (least: number, most: number): number => least + Math.floor(random() * (most - least + 1))
  return {
    between,
    pick: (list) => list[between(0, list.length - 1)]!,
    once: (of) => between(1, of) === 1,
  }
}
