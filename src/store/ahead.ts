// Takes the lines of a long journal that a thread has read and checked ahead, from the very memory in which it checked them; where the thread does not come or goes no further it must leave the rest to the plain reader.
import { isAscii } from 'node:buffer'
import { availableParallelism } from 'node:os'
import type { Entry } from './line.ts'
import type { Position } from './position.ts'
import { startQuietly } from './thread.ts'

/** The lines after `after`, as far as they end by the byte `to`. */
export type AheadTask = { fd: number; after: Position; to: number }

/** What comes next: sound lines in their order, or a line too long for the memory between the threads, up to the byte `to`, that the reader has to check itself. */
type Checked = { entries: Entry[]; head: Position } | { entries?: undefined; to: number }

/** Gives what was checked after the head, then undefined; `stop` is called in any case. */
type Ahead = { next(head: Position): Checked | undefined; stop(): void }
type BeginAhead = (task: AheadTask) => Ahead
/** From how many bytes on a thread is worth its start. */
export type ReadAhead = { long: number; begin: BeginAhead }

const LONG_BYTES = 32 * 1024 * 1024

/** How the program reads; undefined where there is no second core to do it. */
export const readAhead = (): ReadAhead | undefined =>
  availableParallelism() > 1
    ? { long: LONG_BYTES, begin: aheadInThread(new URL('./ahead.js', import.meta.url)) }
    : undefined

/** A thread that has died is not waited for for ever; a late one is only of no use. */
const LONGEST_WAIT_MS = 2_000

export type AheadThread = { task: AheadTask; shared: SharedArrayBuffer }

const SLOTS = 8
export const MOST_LINES = 1024
/** So short that V8 keeps its text among the young, where it costs nothing to forget. */
const TEXT_BYTES = 96 * 1024
export const HASH_LETTERS = 64
const FACTS = 3
const SLOT_BYTES = FACTS * 8 + MOST_LINES * HASH_LETTERS + TEXT_BYTES
/** The state of each slot; then what is in them. */
const STATES_BYTES = SLOTS * 4

/** A slot is written while FREE and read while FULL, so that no byte changes between its check and its reading. */
export const [FREE, FULL, END] = [0, 1, 2]
/** Of a slot's facts. */
export const [LINES, LENGTH, AFTER] = [0, 1, 2] as const

export const slotsIn = (shared: SharedArrayBuffer) => ({
  states: new Int32Array(shared, 0, SLOTS),
  slots: Array.from({ length: SLOTS }, (_, at) => {
    const from = STATES_BYTES + at * SLOT_BYTES
    const hashesFrom = from + FACTS * 8
    return {
      facts: new Float64Array(shared, from, FACTS),
      hashes: Buffer.from(shared, hashesFrom, MOST_LINES * HASH_LETTERS),
      /** A list in JSON of the lines without their last two members. */
      text: Buffer.from(shared, hashesFrom + MOST_LINES * HASH_LETTERS, TEXT_BYTES),
    }
  }),
})

/** @param part the built src/store/ahead-thread.ts */
export const aheadInThread =
  (part: URL, longestWaitMs = LONGEST_WAIT_MS): BeginAhead =>
  (task) => {
    const shared = new SharedArrayBuffer(STATES_BYTES + SLOTS * SLOT_BYTES)
    const { states, slots } = slotsIn(shared)
    const workerData: AheadThread = { task, shared }
    // Not imported: of every start it would take two milliseconds.
    const { Worker } = process.getBuiltinModule('node:worker_threads')
    const worker = startQuietly(() => new Worker(part, { workerData }))
    if (worker === undefined) return NO_THREAD
    let at = 0
    return {
      next(head) {
        Atomics.wait(states, at, FREE, longestWaitMs)
        if (Atomics.load(states, at) !== FULL) return undefined
        const { facts, hashes, text } = slots[at]!
        const [lines, length, offset] = [facts[LINES]!, facts[LENGTH]!, facts[AFTER]!]
        const json = lettersOf(text.subarray(0, length))
        const own = hashes.toString('latin1', 0, lines * HASH_LETTERS)
        Atomics.store(states, at, FREE)
        Atomics.notify(states, at)
        at = (at + 1) % SLOTS
        return lines === 0 ? { to: offset } : checkedOf(json, own, head, offset)
      },
      stop() {
        void worker.terminate()
      },
    }
  }

const NO_THREAD: Ahead = { next: () => undefined, stop: () => undefined }

const lettersOf = (bytes: Buffer): string => bytes.toString(isAscii(bytes) ? 'latin1' : 'utf8')

/** The check has said that all of it is as it should be; so this is only what the check saw, put together. */
const checkedOf = (json: string, own: string, before: Position, offset: number): Checked => {
  const found = JSON.parse(json) as Omit<Entry, 'prev' | 'hash'>[]
  let { hash } = before
  const entries = found.map(({ seq, at, by, type, data }, line): Entry => {
    const prev = hash
    hash = own.slice(line * HASH_LETTERS, (line + 1) * HASH_LETTERS)
    return { seq, at, by, type, data, prev, hash }
  })
  return { entries, head: { seq: before.seq + entries.length, hash, offset } }
}
