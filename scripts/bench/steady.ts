// How steady the machine itself is: fixed work, timed again and again. What it takes at its worst is nobody's fault but the machine's.
import { setTimeout as sleep } from 'node:timers/promises'

const TURNS = 4_000_000
let kept = 0

function workMs(): number {
  const from = performance.now()
  let sum = 1
  for (let turn = 0; turn < TURNS; turn++) sum = (Math.imul(sum, 31) + turn) | 0
  // Work that nobody looks at is left out.
  kept ^= sum
  return performance.now() - from
}

/** Milliseconds of some four each, with a pause before every one; the first call warms up. */
export async function timesOfFixedWork(count: number, pauseMs: number): Promise<number[]> {
  if (kept === 0) for (let warming = 0; warming < 50; warming++) workMs()
  const times: number[] = []
  while (times.length < count) {
    await sleep(pauseMs)
    times.push(workMs())
  }
  return times
}
