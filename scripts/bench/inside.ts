// What is timed inside a process of its own, without the start of Node: `node inside.js TASK ARGS` prints its samples as JSON.
import { appendTasks } from './tasks/append.ts'
import { judgeTasks } from './tasks/judge.ts'
import { planTasks } from './tasks/plan.ts'
import { readTasks } from './tasks/read.ts'

export type Task = (...args: string[]) => Promise<number[]> | number[]

const TASKS: Readonly<Record<string, Task>> = { ...readTasks, ...judgeTasks, ...appendTasks, ...planTasks }

const [name = '', ...args] = process.argv.slice(2)
const task = TASKS[name]
if (!task) throw new Error(`There is no task "${name}". There are: ${Object.keys(TASKS).join(', ')}.`)
process.stdout.write(JSON.stringify(await task(...args)))
