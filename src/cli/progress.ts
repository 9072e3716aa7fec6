// Says how far a long reading has come, on a terminal only and only when it takes over a second; it must leave no trace on the screen.
import type { World } from './world.ts'

export interface Progress {
  /** Of the total, how many are done. */
  step(done: number): void
  end(): void
}

const AFTER_MS = 1_000
const EVERY_MS = 200
/** The clock is asked this seldom, so that a million steps cost next to nothing. */
const STEPS = 2_048

/** @param what a few words, such as `Reading the journal` */
export function progressOf(
  { stderr, clock }: Pick<World, 'stderr' | 'clock'>,
  what: string,
  total: number,
): Progress {
  const began = clock()
  let last = 0
  let shown = 0
  let steps = 0
  return {
    step(done) {
      if (!stderr.isTTY || steps++ % STEPS !== 0) return
      const now = clock()
      if (now - began < AFTER_MS || now - last < EVERY_MS) return
      last = now
      const text = `${what}: ${Math.min(99, Math.floor((done / Math.max(1, total)) * 100))}%`
      stderr.write(`\r${text.padEnd(shown)}`)
      shown = text.length
    },
    end() {
      if (shown) stderr.write(`\r${' '.repeat(shown)}\r`)
      shown = 0
    },
  }
}
