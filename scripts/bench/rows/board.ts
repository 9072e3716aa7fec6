// The rows of the board on a pseudo-terminal: first frame, keys, recorded acts, memory.
import { setTimeout as sleep } from 'node:timers/promises'
import { join } from 'node:path'
import { ALL, inside, MILLION, program, within, type Row, type Tools } from '../row.ts'
import type { Measures } from '../stations/setting-up.ts'
import { FIXED_WORK, timesOfFixedWork } from '../steady.ts'
import { countedOf, isBoardFrame, isHelloFrame, openTerminal, type OpenTerminal } from '../terminal.ts'

const GLASS = { columns: 120, rows: 40 }
/** The board's 60 Hz: nobody types faster than this, and nothing of one key is left for the next. */
const BETWEEN_KEYS_MS = 25

export const openBoard = (tools: Tools, station: string): Promise<OpenTerminal> =>
  openTerminal({
    args: [program(tools), '--station', station],
    root: tools.root,
    ...GLASS,
    isFrame: isBoardFrame,
  })
export const openHello = (tools: Tools): Promise<OpenTerminal> =>
  openTerminal({ args: [join(tools.built, 'hello.js')], root: tools.root, ...GLASS, isFrame: isHelloFrame })

async function firstFrame(opening: Promise<OpenTerminal>): Promise<number[]> {
  const terminal = await opening
  await terminal.close()
  return [terminal.firstFrameMs]
}

const [UP, DOWN, PAGE_UP, PAGE_DOWN] = ['\x1b[A', '\x1b[B', '\x1b[5~', '\x1b[6~']
const [HOME, END, TAB, BACK_TAB] = ['\x1b[H', '\x1b[F', '\t', '\x1b[Z']
/** Comes back to where it began, and every key of it moves. */
const ROUND = [
  ...Array(5).fill(DOWN),
  ...Array(5).fill(UP),
  PAGE_DOWN,
  PAGE_UP,
  TAB,
  BACK_TAB,
  END,
  HOME,
] as string[]

async function pressRounds(terminal: OpenTerminal, rounds: number, bytes: number[]): Promise<number[]> {
  const times: number[] = []
  for (let round = 0; round < rounds; round++) {
    for (const key of ROUND) {
      await sleep(BETWEEN_KEYS_MS)
      const pressed = await terminal.press(key)
      times.push(pressed.ms)
      bytes.push(pressed.bytes)
    }
  }
  return times
}

async function beginKeys(tools: Tools, size: Measures) {
  const board = await openBoard(tools, await tools.copy(size))
  const hello = await openHello(tools)
  const rounds = tools.isQuick ? 1 : 4
  const bytes = { ours: [] as number[], base: [] as number[] }
  const fixed: number[] = []
  // The first keys find a program that has not been warmed up: they are answered, but say nothing of a tour.
  for (const terminal of [board, hello]) await pressRounds(terminal, 1, [])
  return {
    async ours() {
      fixed.push(...(await timesOfFixedWork(rounds * ROUND.length, BETWEEN_KEYS_MS)))
      return pressRounds(board, rounds, bytes.ours)
    },
    base: () => pressRounds(hello, rounds, bytes.base),
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

/** Writes a note: the last key records it, and the frame that says so comes when it is on disk. */
async function recordNotes(terminal: OpenTerminal, count: number): Promise<number[]> {
  const times: number[] = []
  for (let note = 0; note < count; note++) {
    for (const key of ['n', 'x', '\r']) {
      await sleep(90)
      await terminal.press(key)
    }
    await sleep(90)
    times.push((await terminal.press('\r')).ms)
  }
  return times
}

async function beginActs(tools: Tools, size: Measures) {
  const board = await openBoard(tools, await tools.copy(size))
  const hello = await openHello(tools)
  await recordNotes(board, 2)
  return {
    ours: () => recordNotes(board, tools.isQuick ? 2 : 12),
    base: () => pressRounds(hello, 1, []),
    end: async () => {
      await board.close()
      await hello.close()
    },
  }
}

async function peakOf(opening: Promise<OpenTerminal>): Promise<number[]> {
  const terminal = await opening
  await sleep(1_500)
  const { peakKb } = countedOf(terminal.pid)
  await terminal.close()
  return [peakKb / 1024]
}

export const START: Row = {
  id: 'start',
  what: 'start to first frame',
  unit: 'ms',
  aim: '1.25 x hello-world',
  reached: within(1.25),
  baseline: 'bundled hello-world Ink program',
  sizes: ALL,
  async begin(tools, size) {
    const station = await tools.copy(size)
    return {
      ours: () => firstFrame(openBoard(tools, station)),
      base: () => firstFrame(openHello(tools)),
    }
  },
}
export const KEYS: Row = {
  id: 'keys',
  what: 'key to frame',
  unit: 'ms',
  aim: 'p99 under 16 ms',
  reached: ({ ours }) => ours.p99 < 16,
  baseline: 'the same, hello-world Ink program',
  sizes: MILLION,
  begin: beginKeys,
}
export const ACTS: Row = {
  id: 'acts',
  what: 'last key of a recorded act to frame',
  unit: 'ms',
  aim: 'on disk first; no aim set',
  baseline: 'key to frame, hello-world',
  sizes: MILLION,
  begin: beginActs,
}
export const MEMORY: Row = {
  id: 'memory',
  what: 'peak resident memory, board',
  unit: 'MB',
  aim: "1.5 x (hello-world + the state's own size)",
  reached: within(1.5),
  baseline: "hello-world Ink program + the state's own size",
  sizes: ALL,
  async begin(tools, size) {
    const station = await tools.copy(size)
    const [state] = await inside(tools, 'state-size', station)
    return {
      ours: () => peakOf(openBoard(tools, station)),
      base: async () => (await peakOf(openHello(tools))).map((peak) => peak + state!),
    }
  },
}
