// That a program which was stopped for long, and whose lock another took over, writes nothing by what it knew before.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { utimesSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { expect, it } from 'vitest'
import { LOCK_NAME } from '../../src/store/lock.ts'
import { verifyJournal } from '../../src/store/verify.ts'
import { buildInto } from '../reliability/build.ts'
import { entriesIn, member, newStation, note, recorded, sessionIn } from './kept-station.ts'
import { newFolder } from './station-folder.ts'

const LOST = expect.stringContaining(
  'Another program took over the lock of this station, so nothing was recorded.',
)

it.each([
  ['between two acts', ['accepted 3', 'stopping', 'accepted 5', 'accepted 6'], ['in between', 'after']],
  ['in the act', ['accepted 3', 'stopping', LOST, 'accepted 5'], ['after']],
])(
  'a program stopped %s with the lock in hand goes on from what another recorded meanwhile',
  async (where, said, itsLast) => {
    const folder = await newStation()
    await recorded(await sessionIn(folder), member('M-104'))
    const program = await buildInto(newFolder(), 'tests/store/stopped-child.ts')
    const child = spawn(process.execPath, [program, folder, where], { stdio: ['ignore', 'pipe', 'inherit'] })
    const closed = once(child, 'close')
    const lines: string[] = []
    for await (const line of createInterface(child.stdout)) {
      lines.push(line)
      if (line !== 'stopping') continue
      // Ten seconds and more go by.
      const longAgo = new Date(Date.now() - 11_000)
      utimesSync(join(folder, LOCK_NAME), longAgo, longAgo)
      const other = await sessionIn(folder)
      await recorded(other, note('by another'))
      await other.close()
      // Asked again: a SIGCONT that comes before the program has quite stopped is lost.
      const going = setInterval(() => child.kill('SIGCONT'), 50)
      void closed.then(() => clearInterval(going))
    }
    await closed
    expect(lines).toEqual(said)
    const notes = entriesIn(folder).flatMap(({ type, data }) => (type === 'note-made' ? [data['text']] : []))
    expect(notes).toEqual(['before', 'by another', ...itsLast])
    expect(verifyJournal(folder)).toMatchObject({ kind: 'verified', faults: [] })
  },
  60_000,
)
