// Starts a thread that only makes something faster; it must never be missed.
import type { Worker } from 'node:worker_threads'
import { codeOf } from './trouble.ts'

/** One that cannot start does nothing; where the system has no more threads to give, making one throws, and there is none. */
export function startQuietly(make: () => Worker): Worker | undefined {
  try {
    const worker = make()
    worker.on('error', () => undefined)
    worker.unref()
    return worker
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return undefined
  }
}
