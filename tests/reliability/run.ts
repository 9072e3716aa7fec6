// The whole campaign: each promise about the journal put to the store many times, each broken store put to its check, and the counts printed.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { buildInto, builtStore } from './build.ts'
import * as check from './checks.ts'
import { callsOfTour, CODES, tourWithFault } from './faults.ts'
import { deadHolder, stoppedHolder, together } from './forks.ts'
import { filledDisk, hasSmallDisks } from './full-disk.ts'
import { hasStrace, pointsOf, freshStation, recoveryKilledAt, tornStation, tourKilledAt } from './kills.ts'
import { runSeed } from './model.ts'
import { store } from './store.ts'
import { VARIANTS } from './variants.ts'
import type { Fault } from '../store/failing-files.ts'

type Row = { what: string; count: number; wrong: string[]; left?: string }
const rows: Row[] = []

/** Runs one part and says how it went as it goes. */
async function part(what: string, work: (row: Row) => Promise<void> | void): Promise<void> {
  const row: Row = { what, count: 0, wrong: [] }
  rows.push(row)
  const from = performance.now()
  await work(row)
  const seconds = ((performance.now() - from) / 1000).toFixed(0)
  process.stderr.write(
    `${what}: ${row.left ?? row.count} (${seconds} s)${row.wrong.length ? ' WRONG' : ''}\n`,
  )
}

const judge = (row: Row, where: string, wrong: string | undefined): void => {
  row.count++
  if (wrong !== undefined) row.wrong.push(`${where}: ${wrong}`)
}

const { values } = parseArgs({
  options: {
    seeds: { type: 'string', default: '3000' },
    from: { type: 'string', default: '1' },
    rounds: { type: 'string', default: '3' },
    help: { type: 'boolean', default: false },
  },
})
if (values.help) {
  process.stdout.write(
    'npm run reliability -- [--seeds N] [--from SEED] [--rounds N]\nPuts every promise about the journal to the test and prints the counts; some minutes.\n',
  )
} else await campaign(Number(values.from), Number(values.seeds), Number(values.rounds))

async function campaign(from: number, seeds: number, rounds: number): Promise<void> {
  process.setMaxListeners(0)
  const place = mkdtempSync(join(tmpdir(), 'bayboard-campaign-'))
  const program = await buildInto(place, 'tests/reliability/child.ts')
  await part('model seeds: the power cut at a random call, recovery cut up to twice', async (row) => {
    for (let seed = from; seed < from + seeds; seed++) judge(row, `seed ${seed}`, await runSeed(store, seed))
  })
  await part('torn offsets: the last line cut at every byte', async (row) => {
    const wrong = await check.tornTail(1, () => void row.count++)(store)
    if (wrong !== undefined) row.wrong.push(wrong)
  })
  await part('bit flips: every bit of a journal of 20 lines', async (row) => {
    const wrong = await check.bitFlips(20, 1, () => void row.count++)(store)
    if (wrong !== undefined) row.wrong.push(wrong)
  })
  await part(
    'disk errors: each call of a tour, each code, once and for ever, and short writes',
    async (row) => {
      const faults: Fault[] = []
      for (const [call, times] of await callsOfTour()) {
        for (let nth = 1; nth <= times; nth++) {
          for (const code of CODES) faults.push({ call, code, nth }, { call, code, nth, forEver: true })
          if (call === 'write') for (const short of [0, 1, 100]) faults.push({ call, short, nth })
        }
      }
      for (const fault of faults) judge(row, JSON.stringify(fault), await tourWithFault(fault))
    },
  )
  await part('system-call kill points of a tour, real processes', async (row) => {
    if (!hasStrace) return void (row.left = 'left out: strace is not here')
    for (const point of pointsOf(program, await freshStation(), 'tour')) {
      judge(row, `${point.call} ${point.nth}`, await tourKilledAt(point, program))
    }
  })
  await part('system-call kill points of a recovery, two in a row', async (row) => {
    if (!hasStrace) return void (row.left = 'left out: strace is not here')
    const points = pointsOf(program, await tornStation(), 'recover')
    for (const [index, point] of points.entries()) {
      const next = points[(index * 7 + 3) % points.length]!
      judge(row, `${point.call} ${point.nth}`, await recoveryKilledAt([point, next], program))
    }
  })
  await part('fork rounds: 2 programs with 500 events each, 8 with 500', async (row) => {
    for (let round = 0; round < rounds; round++) judge(row, '2', await together(program, 2, 500))
    judge(row, '8', await together(program, 8, 500))
  })
  await part('a holder of the lock that is stopped, and one that is dead', async (row) => {
    for (let round = 0; round < rounds; round++) judge(row, 'stopped', await stoppedHolder(program))
    for (let round = 0; round < rounds; round++) judge(row, 'dead', await deadHolder(program))
  })
  await part('disks that fill up, 48 to 72 kB', (row) => {
    if (!hasSmallDisks) return void (row.left = 'left out: unshare may not mount here')
    for (const size of ['48k', '56k', '64k', '72k']) judge(row, size, filledDisk(program, size))
  })
  await part('broken stores, each found by its check', async (row) => {
    for (const { does, changes, caughtBy } of VARIANTS) {
      const [good, bad] = [await caughtBy(store), await caughtBy(await builtStore(place, changes))]
      if (good !== undefined) row.wrong.push(`the store itself, by the check for one that ${does}: ${good}`)
      judge(row, does, bad === undefined ? 'was not found' : undefined)
    }
  })
  rmSync(place, { recursive: true, force: true })
  process.stdout.write(
    `${rows.map(({ what, count, left, wrong }) => `${String(left ?? count).padStart(8)}  ${what}${wrong.length ? `: ${wrong.length} WRONG` : ''}`).join('\n')}\n`,
  )
  for (const each of rows.flatMap(({ wrong }) => wrong.slice(0, 5))) process.stdout.write(`WRONG ${each}\n`)
  process.exitCode = rows.some(({ wrong }) => wrong.length) ? 1 : 0
}
