// A map by id that is copied in no time: copies share what neither has changed. It must never let a change show in another copy.
import { Places, type Source } from './places.ts'

const CHUNK = 128
const CHUNK_BITS = 7
/** Stands in a place whose value the source still holds. */
const PENDING = Symbol('pending')
const ALL_PENDING: (typeof PENDING)[] = Array.from({ length: CHUNK }, () => PENDING)

type Chunk<V> = (V | undefined | typeof PENDING)[]
/** Of each place in a chunk, whether its value is this copy's own too, to be changed in place. */
type Mine = Uint8Array

/**
 * A Map for string keys. The place of a key stays its own for good, so that a key that is deleted and set again comes
 * back where it was, not at the end.
 */
export class Table<V> extends Map<string, V> {
  /** Shared by all copies: a key has the same place in each, whether it is there or not. */
  #places: Places
  #chunks: Chunk<V>[]
  /** By chunk, where no other copy holds it; undefined while even the list of chunks is shared. */
  #own: (Mine | undefined)[] | undefined
  #count: number
  source: Source<V> | undefined

  constructor(from?: Iterable<readonly [string, V]> | Source<V>, places = new Places()) {
    super()
    this.#places = places
    this.#chunks = []
    this.#own = []
    this.#count = 0
    if (!from) return
    if (Symbol.iterator in from) {
      for (const [key, value] of from) this.set(key, value)
      return
    }
    const { count } = (this.source = from)
    this.#places = new Places(from)
    this.#count = count
    for (let at = 0; at < count; at += CHUNK) this.#chunks.push(ALL_PENDING.slice(0, count - at))
  }

  /** A copy of its own; what is set or changed in either from now on does not show in the other. */
  fork(): Table<V> {
    const copy = new Table<V>(undefined, this.#places)
    copy.source = this.source
    copy.#chunks = this.#chunks
    copy.#own = undefined
    copy.#count = this.#count
    this.#own = undefined
    return copy
  }

  /** The place in the source of a value that has not been asked for yet. */
  pendingSlot(key: string): number | undefined {
    const slot = this.#places.of(key)
    return slot !== undefined && this.#at(slot) === PENDING ? slot : undefined
  }

  /** Whether a copy surely holds the same under a key. No value is read for it, so of what was read apart it says no. */
  holdsAsIn(copy: Table<V>, key: string): boolean {
    const slot = this.#places.of(key)
    return this.#places === copy.#places && (slot === undefined || this.#at(slot) === copy.#at(slot))
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

  /** Makes the chunk of a place one to be written to. */
  #take(slot: number): Mine {
    const at = slot >> CHUNK_BITS
    if (!this.#own) {
      this.#chunks = this.#chunks.slice()
      this.#own = []
    }
    const known = this.#own[at]
    if (known) return known
    this.#chunks[at] = this.#chunks[at]?.slice() ?? []
    return (this.#own[at] = new Uint8Array(CHUNK))
  }

  #put(slot: number, value: V | undefined, isMine: boolean): void {
    this.#take(slot)[slot & (CHUNK - 1)] = isMine ? 1 : 0
    this.#chunks[slot >> CHUNK_BITS]![slot & (CHUNK - 1)] = value
  }

  /**
   * A value to be changed in place, since nobody else holds it: made by `copy` when it is first asked for after a fork.
   * Whoever shows it to others has to fork the table before changing it again.
   */
  own(key: string, copy: (value: V) => V): V | undefined {
    const slot = this.#places.of(key)
    if (slot === undefined) return undefined
    const value = this.#read(slot)
    if (value === undefined || this.#own?.[slot >> CHUNK_BITS]?.[slot & (CHUNK - 1)]) return value
    const mine = copy(value)
    this.#put(slot, mine, true)
    return mine
  }

  override get size(): number {
    return this.#count
  }

  override get(key: string): V | undefined {
    const slot = this.#places.of(key)
    return slot === undefined ? undefined : this.#read(slot)
  }

  override has(key: string): boolean {
    const slot = this.#places.of(key)
    return slot !== undefined && this.#at(slot) !== undefined
  }

  override set(key: string, value: V): this {
    const slot = this.#places.make(key)
    if (this.#at(slot) === undefined) this.#count++
    this.#put(slot, value, false)
    return this
  }

  override delete(key: string): boolean {
    const slot = this.#places.of(key)
    if (slot === undefined || this.#at(slot) === undefined) return false
    this.#put(slot, undefined, false)
    this.#count--
    return true
  }

  override clear(): void {
    this.#places = new Places()
    this.#chunks = []
    this.#own = []
    this.#count = 0
  }

  override *entries(): MapIterator<[string, V]> {
    for (const [key, slot] of this.#places.all()) {
      const value = this.#read(slot)
      if (value !== undefined) yield [key, value]
    }
    return undefined
  }

  override *keys(): MapIterator<string> {
    for (const [key, slot] of this.#places.all()) if (this.#at(slot) !== undefined) yield key
    return undefined
  }

  override *values(): MapIterator<V> {
    const { size } = this.#places.all()
    for (let slot = 0; slot < size; slot++) {
      const value = this.#read(slot)
      if (value !== undefined) yield value
    }
    return undefined
  }

  /** The values that came last, in their order, without looking at those before. */
  newest(count: number): V[] {
    const found: V[] = []
    for (let slot = this.#places.size - 1; slot >= 0 && found.length < count; slot--) {
      const value = this.#read(slot)
      if (value !== undefined) found.unshift(value)
    }
    return found
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

/** The values of any map that came last. */
export const newestOf = <V>(map: Map<string, V>, count: number): V[] =>
  map instanceof Table ? (map as Table<V>).newest(count) : [...map.values()].slice(-count)

/** A value of any map of ids, to be changed in place: of a table its own, of another map a copy each time. */
export function ownOf<V>(map: Map<string, V>, key: string, copy: (value: V) => V): V | undefined {
  if (map instanceof Table) return (map as Table<V>).own(key, copy)
  const value = map.get(key)
  if (value === undefined) return undefined
  const mine = copy(value)
  map.set(key, mine)
  return mine
}
