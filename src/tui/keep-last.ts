// Keeps what was worked out last, so that a key which changes nothing of it does not work it out again.

/**
 * The same as last time while all that it was made of is the same, by identity; it must be made of nothing else.
 * @param isWorth keeps only what this is true of
 */
export function keepLast<T>(isWorth: (made: T) => boolean = () => true) {
  let last: { of: readonly unknown[]; made: T } | undefined
  return (of: readonly unknown[], make: () => T): T => {
    if (last?.of.every((each, at) => each === of[at])) return last.made
    const made = make()
    last = isWorth(made) ? { of, made } : undefined
    return made
  }
}
