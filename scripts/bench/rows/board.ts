// The rows of the board on a pseudo-terminal: first frame, recorded acts, memory.
import { setTimeout as sleep } from 'node:timers/promises'
import { ALL, inside, MILLION, within, type Row, type Tools } from '../row.ts'
import { pressRounds, ROUND } from './keys.ts'
import type { Measures } from '../stations/setting-up.ts'
import { openBoard, openHello } from '../opened.ts'
import { countedOf, type OpenTerminal } from '../terminal.ts'

async function firstFrame(opening: Promise<OpenTerminal>): Promise<number[]> {
  const terminal = await opening
  await terminal.close()
  return [terminal.firstFrameMs]
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
    base: () => pressRounds(hello, 1, ROUND),
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
