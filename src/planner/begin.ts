// Plans in a thread of its own that can be given up at any moment; it must never keep the program from ending.
import { Worker } from 'node:worker_threads'
import type { PlanModel, Solved } from '../domain/plan/model.ts'
import type { Task } from './part.ts'

export interface Planning {
  /** Rejects when the thread cannot do it. */
  answer: Promise<Solved>
  giveUp: () => void
}

/** @param part the built planner */
export function beginPlanning(part: URL, plan: PlanModel, seconds: number): Planning {
  const worker = new Worker(part, { workerData: { plan, seconds } satisfies Task })
  worker.unref()
  const answer = new Promise<Solved>((resolve, reject) => {
    worker.once('message', resolve)
    worker.once('error', reject)
    worker.once('exit', () => reject(new Error('the planner ended without an answer')))
  })
  return { answer, giveUp: () => void worker.terminate() }
}
