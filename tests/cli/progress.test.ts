// Progress is said on a terminal, after a second, and leaves no trace.
import { expect, test } from 'vitest'
import { progressOf } from '../../src/cli/progress.ts'

/** A terminal that keeps what was written, and a clock that moves by so much at each look. */
function terminal(isTTY: boolean, msEachLook: number) {
  let written = ''
  let now = 0
  const stderr = { isTTY, write: (text: string) => ((written += text), true) } as NodeJS.WriteStream
  const progress = progressOf({ stderr, clock: () => (now += msEachLook) }, 'Reading the journal', 100_000)
  const run = (): string => {
    for (let done = 1; done <= 100_000; done++) progress.step(done)
    const during = written
    progress.end()
    return during
  }
  return { run, written: () => written }
}

test('what takes over a second says how far it has come, never more than it has', () => {
  const { run } = terminal(true, 300)
  const shares = [...run().matchAll(/Reading the journal: (\d+)%/g)].map(([, share]) => Number(share))
  expect(shares.length).toBeGreaterThan(5)
  expect(shares).toEqual(shares.toSorted((a, b) => a - b))
  expect(shares.at(-1)).toBeLessThan(100)
})

test('at its end the line is wiped with spaces, without a control code but the return', () => {
  const { run, written } = terminal(true, 300)
  run()
  expect(written()).toMatch(/\r {20,}\r$/)
  expect(written()).toMatch(/^[\r -~]*$/)
})

test.each([
  ['what is done within the second', true, 1],
  ['what is read into a pipe', false, 300],
])('%s says nothing', (_, isTTY, ms) => {
  const { run, written } = terminal(isTTY, ms)
  run()
  expect(written()).toBe('')
})
