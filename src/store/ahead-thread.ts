// Reads and checks a journal ahead of whoever folds it: a part of the build that store/ahead.ts starts. It must never hand over a line that is not sound.
import { workerData } from 'node:worker_threads'
import {
  AFTER,
  END,
  FREE,
  FULL,
  HASH_LETTERS,
  LENGTH,
  LINES,
  MOST_LINES,
  slotsIn,
  type AheadThread,
} from './ahead.ts'
import { realFiles } from './files.ts'
import { END_PART, type Frame } from './line.ts'
import { checkPiece } from './piece.ts'

const { task, shared } = workerData as AheadThread
const { states, slots } = slotsIn(shared)
const [OPENED, COMMA, BRACE, CLOSED] = Buffer.from('[,}]')

let at = 0
let lines = 0
let length = 0
let end = task.after.offset

function handOver(state: number): void {
  const { facts, text } = slots[at]!
  if (lines > 0) text[length++] = CLOSED!
  facts[LINES] = lines
  facts[LENGTH] = length
  facts[AFTER] = end
  Atomics.store(states, at, state)
  Atomics.notify(states, at)
  at = (at + 1) % slots.length
  lines = 0
  length = 0
  Atomics.wait(states, at, FULL)
}

/** The line without its last two members, which the check has compared already. */
function add(after: number, bytes: Buffer, { own }: Frame): void {
  const kept = bytes.length - END_PART
  const isFull = lines === MOST_LINES || length + kept + 3 > slots[at]!.text.length
  if (isFull && lines > 0) handOver(FULL)
  const { hashes, text } = slots[at]!
  const isTooLong = kept + 3 > text.length
  if (!isTooLong) {
    text[length++] = lines === 0 ? OPENED! : COMMA!
    length += bytes.copy(text, length, 0, kept)
    text[length++] = BRACE!
    hashes.write(own, HASH_LETTERS * lines++, 'latin1')
  }
  end = after
  if (isTooLong) handOver(FULL)
}

const { after, fd, to } = task
try {
  checkPiece(realFiles, { fd, from: after.offset, to, wanted: new Set(), after }, add)
  if (lines > 0) handOver(FULL)
} finally {
  if (Atomics.load(states, at) === FREE) handOver(END)
}
