// The records of a table as JSON text in a snapshot: each is parsed when it is first wanted, and kept as it is while it is not.
import type { Source } from '../domain/places.ts'
import { Table } from '../domain/table.ts'

/** Records as bytes, by their places. */
export class PackedValues<V> {
  readonly #bytes: Buffer
  /** Where each record begins, and one more for the end of the last. */
  readonly #starts: Float64Array

  /** `sizes` are in bytes, 0 where there is none; one comma stands between two records. */
  constructor(bytes: Buffer, from: number, sizes: readonly number[]) {
    this.#bytes = bytes
    this.#starts = new Float64Array(sizes.length + 1)
    let at = from
    sizes.forEach((size, slot) => {
      this.#starts[slot] = at
      if (size > 0) at += size + 1
    })
    this.#starts[sizes.length] = at
  }

  /** After the comma that would follow the last record. */
  get end(): number {
    return this.#starts.at(-1)!
  }

  bytes(slot: number): Buffer {
    return this.#bytes.subarray(this.#starts[slot], this.#starts[slot + 1]! - 1)
  }

  value(slot: number): V {
    return JSON.parse(this.bytes(slot).toString('utf8')) as V
  }
}

/** Some records of a table: their keys, their places in it, and how many bytes each takes. */
export type Part = { keys: string[]; slots: number[]; sizes: number[] }

/** The place of a key that is known not to be there. */
export const NOWHERE = -1

/** A table whose records lie in several parts; `fetch` has to add the one in which a key would be, or every one. */
export class FoundTable<V> implements Source<V> {
  readonly count: number
  readonly #fetch: (key?: string) => void
  readonly #slots = new Map<string, number>()
  readonly #parts: (PackedValues<V> | undefined)[] = [undefined]
  /** Of each place, in which of the parts it is, and which of its values. */
  readonly #part: Int32Array
  readonly #at: Int32Array
  /** The same table from another reading of the books, and the key of each place that was not known by then. */
  #again: { table: Map<string, V>; keys: Map<number, string> } | undefined

  constructor(count: number, fetch: (key?: string) => void) {
    this.count = count
    this.#fetch = fetch
    this.#part = new Int32Array(count)
    this.#at = new Int32Array(count)
  }

  add({ keys, slots }: Part, values: PackedValues<V>): void {
    const part = this.#parts.push(values) - 1
    keys.forEach((key, at) => {
      const slot = slots[at]!
      this.#slots.set(key, slot)
      if (slot === NOWHERE) return
      this.#part[slot] = part
      this.#at[slot] = at
    })
  }

  /** Takes all that has not been added from a table that holds the same. */
  addAgain(table: Map<string, V>): void {
    const keys = new Map<number, string>()
    const free = [...this.#part.keys()].filter((slot) => this.#part[slot] === 0)
    for (const key of table.keys()) {
      if (this.#slots.has(key)) continue
      const slot = free[keys.size]!
      keys.set(slot, key)
      this.#slots.set(key, slot)
    }
    this.#again = { table, keys }
  }

  find(key: string): number | undefined {
    if (!this.#slots.has(key)) {
      this.#fetch(key)
      if (!this.#slots.has(key)) this.#slots.set(key, NOWHERE)
    }
    const slot = this.#slots.get(key)
    return slot === NOWHERE ? undefined : slot
  }

  keys(): readonly string[] {
    this.#fetch()
    const keys = Array.from({ length: this.count }, () => '')
    for (const [key, slot] of this.#slots) if (slot !== NOWHERE) keys[slot] = key
    return keys
  }

  bytes(slot: number): Buffer {
    return this.#valuesOf(slot)?.bytes(this.#at[slot]!) ?? Buffer.from(JSON.stringify(this.value(slot)))
  }

  value(slot: number): V {
    const known = this.#valuesOf(slot)
    if (!known && !this.#again) this.#fetch()
    const values = known ?? this.#valuesOf(slot)
    return values ? values.value(this.#at[slot]!) : this.#again!.table.get(this.#again!.keys.get(slot)!)!
  }

  #valuesOf(slot: number): PackedValues<V> | undefined {
    return this.#parts[this.#part[slot]!]
  }
}

/** The keys of a table and the JSON text of each value; what was never unpacked is taken over as it stands. */
export function packTable<V>(table: Map<string, V>): { keys: string[]; values: Buffer[] } {
  const keys = [...table.keys()]
  const pending = table instanceof Table ? (table as Table<V>) : undefined
  const source = pending?.source instanceof FoundTable ? pending.source : undefined
  const values = keys.map((key) => {
    const slot = source && pending?.pendingSlot(key)
    return slot === undefined ? Buffer.from(JSON.stringify(table.get(key))) : source!.bytes(slot)
  })
  return { keys, values }
}
