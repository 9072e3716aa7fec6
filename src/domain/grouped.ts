// Sorts things into groups; it must never lose one or change their order.

/** Things with the same key, in the order of the first of each. */
export function grouped<T>(things: readonly T[], keyOf: (thing: T) => string): T[][] {
  const groups = new Map<string, T[]>()
  for (const thing of things) {
    const key = keyOf(thing)
    const known = groups.get(key)
    if (known) known.push(thing)
    else groups.set(key, [thing])
  }
  return [...groups.values()]
}
