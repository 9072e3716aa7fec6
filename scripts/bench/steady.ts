// How fast and how steady the machine itself is at work of the program's kind: fixed work, timed again and again.
import { setTimeout as sleep } from 'node:timers/promises'

const RECORDS = JSON.stringify(
  Array.from({ length: 6_000 }, (_, at) => ({ id: `G-${at}`, on: '2026-01-01', seq: at, tags: [] })),
)
export const FIXED_WORK = 'JSON.parse of 6,000 records'
let isWarm = false

function workMs(): number {
  const from = performance.now()
  const records = JSON.parse(RECORDS) as { seq: number }[]
  const sum = records.reduce((all, { seq }) => all + seq, 0)
  if (sum !== 17_997_000) throw new Error('What was parsed is not what was written.')
  return performance.now() - from
}

/** Milliseconds of a few each, with a pause before every one; the first call warms up. */
export async function timesOfFixedWork(count: number, pauseMs: number): Promise<number[]> {
  if (!isWarm) for (let warming = 0; warming < 50; warming++) workMs()
  isWarm = true
  const times: number[] = []
  while (times.length < count) {
    await sleep(pauseMs)
    times.push(workMs())
  }
  return times
}
