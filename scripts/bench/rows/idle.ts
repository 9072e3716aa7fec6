// The row of a board that nobody touches.
import { setTimeout as sleep } from 'node:timers/promises'
import { MILLION, type Compared, type Row, type Tools } from '../row.ts'
import type { Measures } from '../stations/setting-up.ts'
import { countedOf, type OpenTerminal } from '../terminal.ts'
import { openBoard, openHello } from '../opened.ts'

/** A few letters, where they stand, and the marks around an update. */
const CLOCK_BYTES = 200

/** V8 tidies up after a start for half a minute. A whole minute holds one tick of the clock, wherever it begins. */
const SETTLED = { settlingMs: 30_000, seconds: 60 }

async function idleOf(
  opening: Promise<OpenTerminal>,
  { settlingMs, seconds }: typeof SETTLED,
): Promise<{ cpu: number; wakes: number; bytes: number }> {
  const terminal = await opening
  await sleep(settlingMs)
  const [before, bytes] = [countedOf(terminal.pid), terminal.bytes()]
  await sleep(seconds * 1_000)
  const after = countedOf(terminal.pid)
  const written = terminal.bytes() - bytes
  await terminal.close()
  const per = (amount: number): number => amount / seconds
  return { cpu: per(after.cpuMs - before.cpuMs), wakes: per(after.wakes - before.wakes), bytes: per(written) }
}

async function beginIdle(tools: Tools, size: Measures) {
  const station = await tools.copy(size)
  const idling = tools.isQuick ? { settlingMs: 1_000, seconds: 1 } : SETTLED
  const wakes = { ours: [] as number[], base: [] as number[] }
  const bytes = { ours: [] as number[], base: [] as number[] }
  const side = (name: 'ours' | 'base', open: () => Promise<OpenTerminal>) => async (): Promise<number[]> => {
    const idle = await idleOf(open(), idling)
    wakes[name].push(idle.wakes)
    bytes[name].push(idle.bytes)
    return [idle.cpu]
  }
  return {
    ours: side('ours', () => openBoard(tools, station)),
    base: side('base', () => openHello(tools)),
    also: () => [
      {
        what: 'wakes a second, idle',
        unit: '1/s',
        aim: 'one',
        reached: ({ ours }: Compared) => ours.median <= 1,
        ...wakes,
      },
      {
        what: 'bytes a second, idle',
        unit: 'B/s',
        aim: 'the clock of each minute',
        reached: ({ ours }: Compared) => ours.median * 60 <= CLOCK_BYTES,
        ...bytes,
      },
    ],
  }
}

export const IDLE: Row = {
  id: 'idle',
  what: 'processor time, idle',
  unit: 'ms/s',
  aim: '',
  baseline: 'the same, hello-world Ink program',
  sizes: [MILLION[0], MILLION[2]],
  begin: beginIdle,
}
