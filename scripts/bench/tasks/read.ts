// Timed reading of a journal: replayed with every check, parsed bare, summed, searched for one element.
import { createHash } from 'node:crypto'
import { closeSync, openSync, readFileSync, readSync } from 'node:fs'
import { join } from 'node:path'
import { eventsAbout } from '../../../src/cli/history.ts'
import { apply } from '../../../src/domain/evolve.ts'
import { emptyState, type State } from '../../../src/domain/state.ts'
import { openSession } from '../../../src/session.ts'
import { JOURNAL_NAME } from '../../../src/store/journal.ts'
import { openStation, readEvents } from '../../../src/store/station.ts'
import type { Task } from '../inside.ts'

const CHUNK = 1024 * 1024

/** The station stays open, as it does under the board: what is wanted later is read from its snapshot then. */
export async function stateOf(station: string): Promise<State> {
  const keeper = await openStation(station)
  if ('sentence' in keeper) throw new Error(keeper.sentence)
  return openSession(keeper, Date.now).state
}

export const readTasks: Readonly<Record<string, Task>> = {
  replay(station) {
    const from = performance.now()
    const draft = emptyState()
    const read = readEvents(station!, (event) => apply(draft, event))
    if ('sentence' in read || read.stopped) throw new Error(JSON.stringify(read))
    return [performance.now() - from]
  },
  /** In chunks, because a long journal does not fit into one string. */
  parse(journal) {
    const from = performance.now()
    const fd = openSync(journal!, 'r')
    const chunk = Buffer.alloc(CHUNK)
    let rest: Buffer = Buffer.alloc(0)
    for (let got = readSync(fd, chunk); got > 0; got = readSync(fd, chunk)) {
      const bytes = Buffer.concat([rest, chunk.subarray(0, got)])
      const end = bytes.lastIndexOf(10)
      for (const line of bytes.toString('utf8', 0, end).split('\n')) JSON.parse(line)
      rest = bytes.subarray(end + 1)
    }
    closeSync(fd)
    return [performance.now() - from]
  },
  sum(station) {
    const from = performance.now()
    const sum = createHash('sha256')
    const fd = openSync(join(station!, JOURNAL_NAME), 'r')
    const chunk = Buffer.alloc(CHUNK)
    for (let got = readSync(fd, chunk); got > 0; got = readSync(fd, chunk)) sum.update(chunk.subarray(0, got))
    closeSync(fd)
    sum.digest('hex')
    return [performance.now() - from]
  },
  history(station) {
    const from = performance.now()
    if (!eventsAbout(station!, 'G-33', Infinity).length) throw new Error('Nothing is known of G-33.')
    return [performance.now() - from]
  },
  /** Megabytes that the state takes once everything else has gone. */
  async 'state-size'(station) {
    const collect = (globalThis as { gc?: () => void }).gc!
    collect()
    const before = process.memoryUsage()
    const state = await stateOf(station!)
    for (const element of state.elements.values()) if (element.seq === 0) throw new Error('No such event.')
    collect()
    const after = process.memoryUsage()
    if (state.seq === 0) throw new Error('The state is empty.')
    const grown = after.heapUsed + after.external - before.heapUsed - before.external
    return [grown / 1024 / 1024]
  },
  snapshot: (station) => [readFileSync(join(station!, 'snapshot.json')).length],
}
