// The listener on a stream, with the real clock: only what does not depend on how fast this machine is.
import { PassThrough } from 'node:stream'
import { setTimeout as sleep } from 'node:timers/promises'
import { afterEach, expect, it } from 'vitest'
import type { Token } from '../../../src/tui/input/keys.ts'
import { listen } from '../../../src/tui/input/listen.ts'

let stop = () => {}
afterEach(() => stop())

function listening() {
  const stdin = new PassThrough()
  const tokens: Token[] = []
  const gone: string[] = []
  stop = listen({
    stdin: stdin as unknown as NodeJS.ReadStream,
    onToken: (token) => tokens.push(token),
    onGone: () => gone.push('gone'),
  })
  return { stdin, tokens, gone }
}

function beBusy(ms: number): void {
  const until = performance.now() + ms
  while (performance.now() < until);
}

it('lets a typed letter and a lone Escape go without more input', async () => {
  const { stdin, tokens } = listening()
  stdin.write('j')
  await sleep(150)
  expect(tokens).toEqual([{ char: 'j' }])
  stdin.write('\x1b')
  await sleep(150)
  expect(tokens).toEqual([{ char: 'j' }, { key: 'escape' }])
})

it('does not tear a scan apart when the program was busy while it arrived', async () => {
  const { stdin, tokens } = listening()
  for (const piece of ['C-', '10', '41', '\r']) {
    stdin.write(piece)
    await new Promise((resolve) => setImmediate(resolve))
    beBusy(150)
  }
  await sleep(200)
  expect(tokens).toEqual([{ scan: 'C-1041' }])
})

it('gives nothing more once it is stopped', async () => {
  const { stdin, tokens } = listening()
  stdin.write('j')
  await new Promise((resolve) => setImmediate(resolve))
  stop()
  stdin.write('k')
  await sleep(150)
  expect(tokens).toEqual([])
})

it('says when the terminal has gone', async () => {
  const { stdin, gone } = listening()
  stdin.end()
  await sleep(20)
  expect(gone).toEqual(['gone'])
})
