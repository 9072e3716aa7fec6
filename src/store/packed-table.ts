// The records of a table as JSON text in a snapshot: each is parsed when it is first wanted, and kept as it is while it is not.
import { Table, type Source } from '../domain/table.ts'

export class PackedValues<V> implements Source<V> {
  readonly #bytes: Buffer
  /** Where each record begins, and one more for the end of the last. */
  readonly #starts: Float64Array

  /** `sizes` are in bytes; one comma stands between two records. */
  constructor(bytes: Buffer, from: number, sizes: readonly number[]) {
    this.#bytes = bytes
    this.#starts = new Float64Array(sizes.length + 1)
    let at = from
    sizes.forEach((size, slot) => {
      this.#starts[slot] = at
      at += size + 1
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

/** The keys of a table and the JSON text of each value; what was never unpacked is taken over as it stands. */
export function packTable<V>(table: Map<string, V>): { keys: string[]; values: Buffer[] } {
  const keys = [...table.keys()]
  const pending = table instanceof Table ? (table as Table<V>) : undefined
  const source = pending?.source instanceof PackedValues ? pending.source : undefined
  const values = keys.map((key) => {
    const slot = source && pending?.pendingSlot(key)
    return slot === undefined ? Buffer.from(JSON.stringify(table.get(key))) : source!.bytes(slot)
  })
  return { keys, values }
}
