// Timed durable appends, each until it is on disk: by the program, bare, and by SQLite.
import { execFileSync } from 'node:child_process'
import { closeSync, fdatasyncSync, openSync, readFileSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import type { Command } from '../../../src/domain/commands.ts'
import { openSession, type Session } from '../../../src/session.ts'
import { JOURNAL_NAME } from '../../../src/store/journal.ts'
import { openStation } from '../../../src/store/station.ts'
import type { Task } from '../inside.ts'

async function sessionOf(station: string): Promise<Session> {
  const keeper = await openStation(station)
  if ('sentence' in keeper) throw new Error(keeper.sentence)
  return openSession(keeper, Date.now)
}

const note = (session: Session, at: number): Command => ({
  do: 'note',
  by: session.state.tour!.officer,
  text: `Hydrant ${at} was looked over, flushed and found in order by the crew of this tour.`,
})

async function submitted(session: Session, at: number): Promise<void> {
  const answer = await session.submit(note(session, at))
  if (!('accepted' in answer)) throw new Error(JSON.stringify(answer))
}

/** Milliseconds for each. */
async function each(count: number, work: (at: number) => Promise<void> | void): Promise<number[]> {
  const times: number[] = []
  for (let at = 0; at < count; at++) {
    const from = performance.now()
    await work(at)
    times.push(performance.now() - from)
  }
  return times
}

/** What the program would write for it. */
const lineOf = (station: string): Buffer => {
  const bytes = readFileSync(join(station, JOURNAL_NAME))
  return bytes.subarray(bytes.lastIndexOf(10, bytes.length - 2) + 1)
}

function bare(station?: string, count?: string): Promise<number[]> {
  const line = lineOf(station!)
  const fd = openSync(join(station!, JOURNAL_NAME), 'a')
  const times = each(Number(count), () => {
    writeSync(fd, line)
    fdatasyncSync(fd)
  })
  return times.finally(() => closeSync(fd))
}

const SQLITE = `
import sqlite3, sys, time, json
folder, count, mode, line = sys.argv[1], int(sys.argv[2]), sys.argv[3], sys.stdin.read()
base = sqlite3.connect(folder + "/measured.sqlite", isolation_level=None)
if base.execute("pragma journal_mode=" + mode).fetchone()[0] != mode: sys.exit("no such journal mode")
base.execute("pragma synchronous=full")
base.execute("create table event (seq integer primary key, line text)")
times = []
for _ in range(count):
    start = time.perf_counter(); base.execute("insert into event (line) values (?)", (line,))
    times.append((time.perf_counter() - start) * 1000)
print(json.dumps(times))
`

/** In one of its journal modes: `wal`, its fastest, or `delete`, the rollback journal that it has when nothing is set. */
function sqlite(mode: 'wal' | 'delete'): Task {
  return (station, count) =>
    JSON.parse(
      execFileSync('python3', ['-c', SQLITE, station!, count!, mode], {
        input: lineOf(station!),
        encoding: 'utf8',
      }),
    ) as number[]
}

export const appendTasks: Readonly<Record<string, Task>> = {
  async 'submit-each'(station, count) {
    const session = await sessionOf(station!)
    return each(Number(count), (at) => submitted(session, at))
  },
  /** They wait together, as an import's or a script's do; the time is shared out among them. */
  async 'submit-all'(station, count) {
    const session = await sessionOf(station!)
    const from = performance.now()
    await Promise.all(Array.from({ length: Number(count) }, (_, at) => submitted(session, at)))
    return [(performance.now() - from) / Number(count)]
  },
  write: bare,
  /** As a mean as well: one slow sync counts on both sides. */
  async 'write-all'(station, count) {
    const times = await bare(station, count)
    return [times.reduce((sum, each) => sum + each, 0) / times.length]
  },
  sqlite: sqlite('wal'),
  'sqlite-rollback': sqlite('delete'),
}
