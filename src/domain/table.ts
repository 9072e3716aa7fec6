// A map by id that is copied in no time: copies share what neither has changed. It must never let a change show in another copy.

const CHUNK = 128
const CHUNK_BITS = 7
/** Stands in a place whose value the source still holds. */
const PENDING = Symbol('pending')

type Chunk<V> = (V | undefined | typeof PENDING)[]

/** Where the values of a table come from that was not built up but found; each is asked for once, when it is first wanted. */
export interface Source<V> {
  value(slot: number): V
}

/**
 * A Map for string keys. The place of a key stays its own for good, so that a key that is deleted and set again comes
 * back where it was, not at the end.
 */
export class Table<V> extends Map<string, V> {
  /** Shared by all copies: a key has the same place in each, whether it is there or not. */
  #slots: Map<string, number>
  #chunks: Chunk<V>[]
  /** The chunks that no other copy holds; undefined while even the list of them is shared. */
  #own: Set<number> | undefined
  #count: number
  readonly source: Source<V> | undefined

  constructor(from?: Iterable<readonly [string, V]> | { keys: readonly string[]; source: Source<V> }) {
    super()
    this.#slots = new Map()
    this.#chunks = []
    this.#own = new Set()
    this.#count = 0
    if (!from) return
    if (Symbol.iterator in from) {
      for (const [key, value] of from) this.set(key, value)
      return
    }
    this.source = from.source
    for (const key of from.keys) this.#slots.set(key, this.#slots.size)
    this.#count = this.#slots.size
    for (let at = 0; at < this.#count; at += CHUNK)
      this.#chunks.push(Array.from({ length: Math.min(CHUNK, this.#count - at) }, () => PENDING))
  }

  /** A copy of its own; what is set in either from now on does not show in the other. */
  fork(): Table<V> {
    const copy = new Table<V>(this.source && { keys: [], source: this.source })
    copy.#slots = this.#slots
    copy.#chunks = this.#chunks
    copy.#own = undefined
    copy.#count = this.#count
    this.#own = undefined
    return copy
  }

  /** The place in the source of a value that has not been asked for yet. */
  pendingSlot(key: string): number | undefined {
    const slot = this.#slots.get(key)
    return slot !== undefined && this.#at(slot) === PENDING ? slot : undefined
  }

  #at(slot: number): V | undefined | typeof PENDING {
    return this.#chunks[slot >> CHUNK_BITS]?.[slot & (CHUNK - 1)]
  }

  #read(slot: number): V | undefined {
    const found = this.#at(slot)
    if (found !== PENDING) return found
    const value = this.source!.value(slot)
    // The value is the same for every copy, so it goes into the shared chunk.
    this.#chunks[slot >> CHUNK_BITS]![slot & (CHUNK - 1)] = value
    return value
  }

  /** The chunk of a place, to be written to. */
  #owned(slot: number): Chunk<V> {
    const at = slot >> CHUNK_BITS
    if (!this.#own) {
      this.#chunks = this.#chunks.slice()
      this.#own = new Set()
    }
    let chunk = this.#chunks[at]
    if (!chunk || !this.#own.has(at)) {
      chunk = chunk ? chunk.slice() : []
      this.#chunks[at] = chunk
      this.#own.add(at)
    }
    return chunk
  }

  override get size(): number {
    return this.#count
  }

  override get(key: string): V | undefined {
    const slot = this.#slots.get(key)
    return slot === undefined ? undefined : this.#read(slot)
  }

  override has(key: string): boolean {
    const slot = this.#slots.get(key)
    return slot !== undefined && this.#at(slot) !== undefined
  }

  override set(key: string, value: V): this {
    let slot = this.#slots.get(key)
    if (slot === undefined) this.#slots.set(key, (slot = this.#slots.size))
    if (this.#at(slot) === undefined) this.#count++
    this.#owned(slot)[slot & (CHUNK - 1)] = value
    return this
  }

  override delete(key: string): boolean {
    const slot = this.#slots.get(key)
    if (slot === undefined || this.#at(slot) === undefined) return false
    this.#owned(slot)[slot & (CHUNK - 1)] = undefined
    this.#count--
    return true
  }

  override clear(): void {
    this.#slots = new Map()
    this.#chunks = []
    this.#own = new Set()
    this.#count = 0
  }

  override *entries(): MapIterator<[string, V]> {
    for (const [key, slot] of this.#slots) {
      const value = this.#read(slot)
      if (value !== undefined) yield [key, value]
    }
    return undefined
  }

  override *keys(): MapIterator<string> {
    for (const [key, slot] of this.#slots) if (this.#at(slot) !== undefined) yield key
    return undefined
  }

  override *values(): MapIterator<V> {
    for (let slot = 0; slot < this.#slots.size; slot++) {
      const value = this.#read(slot)
      if (value !== undefined) yield value
    }
    return undefined
  }

  override [Symbol.iterator](): MapIterator<[string, V]> {
    return this.entries()
  }

  override forEach(visit: (value: V, key: string, map: Map<string, V>) => void): void {
    for (const [key, value] of this.entries()) visit(value, key, this)
  }
}

/** A copy of any map of ids, in no time where it is a table already. */
export const forkOf = <V>(map: Map<string, V>): Table<V> =>
  map instanceof Table ? (map as Table<V>).fork() : new Table(map)
