// The rows of keys on a pseudo-terminal: what somebody who moves about the board waits for.
import { setTimeout as sleep } from 'node:timers/promises'
import { openBoard, openHello } from '../opened.ts'
import { MILLION, type Row, type Tools } from '../row.ts'
import type { Measures } from '../stations/setting-up.ts'
import { FIXED_WORK, timesOfFixedWork } from '../steady.ts'
import type { OpenTerminal } from '../terminal.ts'

/** The board's 60 Hz: nobody types faster than this, and nothing of one key is left for the next. */
const BETWEEN_KEYS_MS = 25
/** So that nothing takes two letters for a scan. */
const BETWEEN_LETTERS_MS = 90

const [UP, DOWN, PAGE_UP, PAGE_DOWN] = ['\x1b[A', '\x1b[B', '\x1b[5~', '\x1b[6~']
const [HOME, END, TAB, BACK_TAB] = ['\x1b[H', '\x1b[F', '\t', '\x1b[Z']
const [ENTER, ESCAPE] = ['\r', '\x1b']
/** Comes back to where it began, and every key of it moves. */
export const ROUND = [
  ...Array(5).fill(DOWN),
  ...Array(5).fill(UP),
  PAGE_DOWN,
  PAGE_UP,
  TAB,
  BACK_TAB,
  END,
  HOME,
] as string[]

/** Through the spares for what is in hand at a swap, and through all that Find knows with three letters; and back. */
const LISTS = [
  [...'s', ENTER, DOWN, DOWN, UP, UP, ESCAPE, ESCAPE],
  [...'/hel', DOWN, DOWN, UP, UP, ESCAPE, ESCAPE],
].flat()

/** A letter waits in case a scanner sent it, an escape in case more of a sequence follows: their times are the wait's. */
const isHeldBack = (key: string): boolean => /^[a-z/\x1b]$/.test(key)

export async function pressRounds(
  terminal: OpenTerminal,
  rounds: number,
  keys: readonly string[],
  bytes: number[] = [],
): Promise<number[]> {
  const times: number[] = []
  for (let round = 0; round < rounds; round++) {
    for (const key of keys) {
      await sleep(isHeldBack(key) ? BETWEEN_LETTERS_MS : BETWEEN_KEYS_MS)
      const pressed = await terminal.press(key)
      if (isHeldBack(key)) continue
      times.push(pressed.ms)
      bytes.push(pressed.bytes)
    }
  }
  return times
}

async function beginKeys(tools: Tools, size: Measures, keys: readonly string[]) {
  const board = await openBoard(tools, await tools.copy(size))
  const hello = await openHello(tools)
  const rounds = tools.isQuick ? 1 : 4
  const bytes = { ours: [] as number[], base: [] as number[] }
  const fixed: number[] = []
  // The first keys find a program that has not been warmed up: they are answered, but say nothing of a tour.
  for (const terminal of [board, hello]) await pressRounds(terminal, 1, terminal === board ? keys : ROUND)
  return {
    async ours() {
      fixed.push(...(await timesOfFixedWork(rounds * keys.length, BETWEEN_KEYS_MS)))
      return pressRounds(board, rounds, keys, bytes.ours)
    },
    base: () => pressRounds(hello, rounds, ROUND, bytes.base),
    also: () => [
      { what: 'bytes a key', unit: 'B', aim: 'as many as changed', ...bytes },
      { what: FIXED_WORK, unit: 'ms', ours: fixed },
    ],
    end: async () => {
      await board.close()
      await hello.close()
    },
  }
}

export const KEYS: Row = {
  id: 'keys',
  what: 'key to frame',
  unit: 'ms',
  aim: 'p99 under 16 ms',
  reached: ({ ours }) => ours.p99 < 16,
  baseline: 'the keys of the list, hello-world Ink program',
  sizes: MILLION,
  begin: (tools, size) => beginKeys(tools, size, ROUND),
}
export const LIST_KEYS: Row = {
  ...KEYS,
  id: 'keys-in-lists',
  what: 'key to frame in a list of spares, and in Find',
  begin: (tools, size) => beginKeys(tools, size, LISTS),
}
