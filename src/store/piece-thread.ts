// Checks one piece of a journal in a thread of its own: a part of the build that store/two-pieces.ts starts.
import { workerData } from 'node:worker_threads'
import { realFiles } from './files.ts'
import { checkPiece } from './piece.ts'
import { CHECKED, DONE, FREE, TAKEN, type ThreadTask } from './two-pieces.ts'

const { task, port, shared } = workerData as ThreadTask
const state = new Int32Array(shared)
if (Atomics.compareExchange(state, 0, FREE, TAKEN) === FREE) {
  try {
    port.postMessage(checkPiece(realFiles, task, () => Atomics.add(state, CHECKED, 1)))
  } finally {
    Atomics.store(state, 0, DONE)
    Atomics.notify(state, 0)
  }
}
