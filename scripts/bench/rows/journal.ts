// The rows of the journal: verify, replay, durable append, and the cost of a bare start of Node.
import { join } from 'node:path'
import { JOURNAL_NAME } from '../../../src/store/journal.ts'
import { inside, program, timeProcess, within, YEARS, type Row, type Tools } from '../row.ts'

const journal = (station: string): string => join(station, JOURNAL_NAME)
const appends = ({ isQuick }: Tools): string => (isQuick ? '20' : '1000')

export const NODE: Row = {
  id: 'node',
  what: 'bayboard --help, whole process',
  unit: 'ms',
  aim: 'no aim set',
  baseline: 'node -e 0',
  sizes: [YEARS[0]!],
  begin: (tools) => ({
    ours: async () => [await timeProcess(process.execPath, [program(tools), '--help'])],
    base: async () => [await timeProcess(process.execPath, ['-e', '0'])],
  }),
}
export const VERIFY: Row = {
  id: 'verify',
  what: 'verify the whole journal, whole process',
  unit: 'ms',
  aim: '2 x sha256sum',
  reached: within(2),
  baseline: 'sha256sum of the file, whole process',
  sizes: YEARS,
  async begin(tools, size) {
    const station = await tools.station(size)
    return {
      ours: async () => [
        await timeProcess(process.execPath, [program(tools), 'verify', '--station', station]),
      ],
      base: async () => [await timeProcess('sha256sum', [journal(station)])],
    }
  },
}
export const REPLAY: Row = {
  id: 'replay',
  what: 'replay the whole journal, checking every line',
  unit: 'ms',
  aim: '2 x bare JSON.parse',
  reached: within(2),
  baseline: 'read, split, JSON.parse of each line',
  sizes: YEARS,
  async begin(tools, size) {
    const station = await tools.station(size)
    return {
      ours: () => inside(tools, 'replay', station),
      base: () => inside(tools, 'parse', journal(station)),
    }
  },
}
const appendRow = (id: string, what: string, task: string, base: string, baseline: string): Row => ({
  id,
  what,
  unit: 'ms',
  aim: base.startsWith('sqlite') ? 'under 1 x' : '1.25 x bare (0.8 x its rate)',
  reached: within(base.startsWith('sqlite') ? 1 : 1.25),
  baseline,
  sizes: [YEARS[0]!],
  begin: (tools, size) => ({
    ours: async () => inside(tools, task, await tools.copy(size), appends(tools)),
    base: async () => inside(tools, base, await tools.copy(size), appends(tools)),
  }),
})
const SQLITE = 'SQLite, WAL, synchronous=FULL'
const ROLLBACK = 'SQLite as it comes (rollback journal), synchronous=FULL'
const BARE = 'bare write + fdatasync'
export const APPENDS: readonly Row[] = [
  appendRow('append', 'durable append, one command at a time', 'submit-each', 'write', BARE),
  appendRow('append-many', 'durable append, commands that wait together', 'submit-all', 'write-all', BARE),
  appendRow('append-sqlite', 'the same, beside SQLite in WAL mode', 'submit-each', 'sqlite', SQLITE),
  appendRow(
    'append-sqlite-rollback',
    'the same, beside SQLite as it comes',
    'submit-each',
    'sqlite-rollback',
    ROLLBACK,
  ),
]
