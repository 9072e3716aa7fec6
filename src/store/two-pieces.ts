// Has the two halves of a long journal checked at once, the second in a thread; where anything is not as it should be it must leave all to the plain reader.
import { MessageChannel, receiveMessageOnPort, Worker, type MessagePort } from 'node:worker_threads'
import { readAt, type Files } from './files.ts'
import { checkPiece, type Piece, type PieceTask } from './piece.ts'
import { START, type Position } from './position.ts'
import { startQuietly } from './thread.ts'

export const [FREE, TAKEN, DONE] = [0, 1, 2]
/** Where in the shared memory, after its state, the thread counts its lines. */
export const CHECKED = 1
export type ThreadTask = { task: PieceTask; port: MessagePort; shared: SharedArrayBuffer }

/** Begins a piece elsewhere, and gives what waits for it. */
export type Begin = (task: PieceTask) => () => Piece | undefined

/** A thread that has not checked a single line for so long has died: it is not waited for any more. */
const LONGEST_STILL_MS = 5_000

/** @param part the built src/store/piece-thread.ts */
export const inThread =
  (part: URL, longestStillMs = LONGEST_STILL_MS): Begin =>
  (task) => {
    const shared = new SharedArrayBuffer(8)
    const state = new Int32Array(shared)
    const { port1, port2 } = new MessageChannel()
    const workerData: ThreadTask = { task, port: port2, shared }
    const worker = startQuietly(() => new Worker(part, { workerData, transferList: [port2] }))
    if (worker === undefined) {
      port1.close()
      return () => undefined
    }
    port1.unref()
    return () => {
      const isLate = Atomics.compareExchange(state, 0, FREE, DONE) === FREE
      if (!isLate) waitFor(state, longestStillMs)
      const got = receiveMessageOnPort(port1) as { message: Piece | undefined } | undefined
      void worker.terminate()
      port1.close()
      return got?.message
    }
  }

/** Until it is done, or goes no further. */
const waitFor = (state: Int32Array, longestStillMs: number): void => {
  for (let before = -1, lines = 0; lines !== before; lines = Atomics.load(state, CHECKED)) {
    before = lines
    if (Atomics.wait(state, 0, TAKEN, longestStillMs) !== 'timed-out') return
  }
}

/** The head of a journal of `size` bytes that is sound to its last byte, and what was noticed in it; else undefined. */
export const checkInTwo = (
  files: Files,
  fd: number,
  size: number,
  wanted: ReadonlySet<number>,
  begin: Begin,
  onProgress: (done: number) => void = () => undefined,
  middle = Math.floor(size / 2),
): { head: Position; noticed: Piece['noticed'] } | undefined => {
  const cut = lineAfter(files, fd, middle, size)
  if (cut === undefined) return undefined
  const finish = begin({ fd, from: cut, to: size, wanted })
  const one = checkPiece(files, { fd, from: 0, to: cut, wanted }, (after) => onProgress(2 * after))
  const other = finish()
  if (!one || !other || !isSame(one.start, START) || !isSame(one.head, other.start)) return undefined
  return { head: other.head, noticed: [...one.noticed, ...other.noticed] }
}

const isSame = (one: Position, other: Position): boolean =>
  one.seq === other.seq && one.hash === other.hash && one.offset === other.offset

const NEAR_BYTES = 64 * 1024

/** Where the next line begins; undefined where that is not near, or nothing follows. */
const lineAfter = (files: Files, fd: number, at: number, size: number): number | undefined => {
  const newline = readAt(files, fd, at, Math.min(NEAR_BYTES, size - at))?.indexOf(10) ?? -1
  const begins = at + newline + 1
  return newline === -1 || begins >= size ? undefined : begins
}
