// The places of a table's keys, known all or found one by one; it must never give a key another place.

/** Where a table comes from that was not built up but found; each value is asked for once, when it is first wanted. */
export interface Source<V> {
  /** How many keys it has; their places are the first. */
  count: number
  value(slot: number): V
  /** The place of a key, without looking at all of them. */
  find(key: string): number | undefined
  /** All keys by their places. */
  keys(): readonly string[]
}

export class Places {
  /** Of all keys, or while there is a source of those that came after it. */
  #slots = new Map<string, number>()
  #source: Source<unknown> | undefined

  constructor(source?: Source<unknown>) {
    this.#source = source
  }

  get size(): number {
    return (this.#source?.count ?? 0) + this.#slots.size
  }

  of(key: string): number | undefined {
    return this.#slots.get(key) ?? this.#source?.find(key)
  }

  /** The place of a key, a new one where it has none. */
  make(key: string): number {
    const known = this.of(key)
    if (known !== undefined) return known
    const slot = this.size
    this.#slots.set(key, slot)
    return slot
  }

  /** In the order of the places. */
  all(): ReadonlyMap<string, number> {
    if (this.#source) {
      const keys = [...this.#source.keys(), ...this.#slots.keys()]
      this.#slots = new Map(keys.map((key, slot) => [key, slot]))
      this.#source = undefined
    }
    return this.#slots
  }
}
