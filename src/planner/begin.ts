// Plans in a process of its own that can be given up at any moment; it must never outlive who began it.
import { fork } from 'node:child_process'
import type { PlanModel, Solved } from '../domain/plan/model.ts'
import type { Task } from './part.ts'

export interface Planning {
  /** Rejects when it was given up or could not be done. */
  answer: Promise<Solved>
  giveUp: () => void
}

/** @param part the built planner */
export function beginPlanning(part: URL, plan: PlanModel, seconds: number): Planning {
  const child = fork(part, [], {
    execArgv: [],
    serialization: 'advanced',
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  })
  const answer = new Promise<Solved>((resolve, reject) => {
    child.once('message', (solved: Solved) => resolve(solved))
    child.once('error', reject)
    child.once('exit', () => reject(new Error('the planner ended without an answer')))
    child.send({ plan, seconds } satisfies Task, (error) => error && reject(error))
  })
  return { answer, giveUp: () => void child.kill('SIGKILL') }
}
