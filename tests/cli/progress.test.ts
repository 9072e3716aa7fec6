// Progress is said on a terminal, after a second, and leaves no trace.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { demo } from '../../src/cli/board.ts'
import { printPaper } from '../../src/cli/print.ts'
import { progressOf } from '../../src/cli/progress.ts'
import type { World } from '../../src/cli/world.ts'

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

test('a record that takes long to read from the journal says how far it has come', async () => {
  const place = mkdtempSync(join(tmpdir(), 'bayboard-progress-'))
  let [now, msEachLook, said] = [Date.now(), 0, '']
  const sink = (take: (text: string) => void, isTTY: boolean) =>
    ({ isTTY, write: (text: string) => (take(text), true) }) as NodeJS.WriteStream
  const world: World = {
    stdin: process.stdin,
    stdout: sink(() => undefined, false),
    stderr: sink((text) => (said += text), true),
    env: {},
    clock: () => (now += msEachLook),
    zone: 'UTC',
    data: new URL('../../data/', import.meta.url),
  }
  try {
    expect(await demo(world, join(place, 'station'), { open: false })).toBe(0)
    msEachLook = 1_500
    said = ''
    const wanted = { ids: [], all: true, format: 'json', station: join(place, 'station') }
    expect(await printPaper(world, 'element-record', wanted)).toBe(0)
    expect(said).toMatch(/Reading the journal: \d+%/)
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
})
