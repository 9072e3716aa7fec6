// When the board looks for others' work and at the clock: promptly where it is told of it, and all the same where it is not.
import { beforeEach, afterEach, expect, test, vi } from 'vitest'
import { keepLooking } from '../../src/tui/looking.ts'

const NOON = Date.parse('2026-11-25T12:00:00Z')

beforeEach(() => void vi.useFakeTimers({ now: NOON + 10 }))
afterEach(() => void vi.useRealTimers())

function looking({ isTold }: { isTold: boolean }) {
  const at: number[] = []
  let told = isTold
  let isStopped = false
  let tell = (): void => undefined
  const stop = keepLooking({
    look: () => at.push(Date.now() - NOON - 10),
    nowMs: Date.now,
    heed(changed) {
      tell = changed
      return { isTold: () => told, stop: () => (isStopped = true) }
    },
  })
  return { at, stop, isStopped: () => isStopped, tell: () => tell(), lose: () => (told = false) }
}

test('what another program recorded is looked for within a second of being told, and once for much at once', () => {
  const { at, tell } = looking({ isTold: true })
  vi.advanceTimersByTime(3_000)
  for (let line = 0; line < 100; line += 1) tell()
  expect(at).toEqual([1_000])
  vi.advanceTimersByTime(1_000)
  expect(at).toEqual([1_000, 3_250])
})

test('where nothing happens the board looks a dozen times a minute and at the minute itself', () => {
  const { at } = looking({ isTold: true })
  vi.advanceTimersByTime(60_000)
  expect(at).toHaveLength(13)
  expect(at).toContain(59_990)
})

test('where the disk does not tell, the board looks each second', () => {
  const { at } = looking({ isTold: false })
  vi.advanceTimersByTime(5_000)
  expect(at).toEqual([1_000, 2_000, 3_000, 4_000, 5_000])
})

test('once it is no longer told, the board looks each second again', () => {
  const { at, lose } = looking({ isTold: true })
  vi.advanceTimersByTime(1_000)
  lose()
  vi.advanceTimersByTime(7_000)
  expect(at).toEqual([1_000, 6_000, 7_000, 8_000])
})

test('a board that is left looks no more, and asks to be told no more', () => {
  const { at, stop, tell, isStopped } = looking({ isTold: true })
  tell()
  stop()
  vi.advanceTimersByTime(60_000)
  expect([at, isStopped()]).toEqual([[], true])
})
