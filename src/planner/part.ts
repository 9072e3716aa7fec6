// The planner as a part of the build of its own, for a subcommand to call or for a thread of its own, so that the board stays alive.
import { isMainThread, parentPort, workerData } from 'node:worker_threads'
import type { PlanModel } from '../domain/plan/model.ts'
import { solve } from './solve.ts'

export { solve } from './solve.ts'

/** What a thread that is to plan is started with. */
export interface Task {
  plan: PlanModel
  seconds: number
}

const task: unknown = workerData
if (!isMainThread && typeof task === 'object' && task !== null && 'plan' in task) {
  const { plan, seconds } = task as Task
  // A port between threads has no origin.
  // oxlint-disable-next-line unicorn/require-post-message-target-origin
  parentPort!.postMessage(await solve(plan, seconds))
}
