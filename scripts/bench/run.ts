// Measures the chosen rows at their sizes, ours and the baseline in turn, and prints one table. It asserts nothing: figures are for reading.
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createHash } from 'node:crypto'
import { cpus, totalmem } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import type { Compared, Reached, Row, Sides, Tools } from './row.ts'
import { ACTS, MEMORY, START } from './rows/board.ts'
import { IDLE } from './rows/idle.ts'
import { KEYS, LIST_KEYS } from './rows/keys.ts'
import { APPENDS, NODE, REPLAY, VERIFY } from './rows/journal.ts'
import { JUDGING } from './rows/judging.ts'
import { PLAN } from './rows/plan.ts'
import { addDays, dateOf, instantIn } from '../../src/domain/time.ts'
import { ZONE } from './stations/book.ts'
import { makeStation } from './stations/make.ts'
import type { Measures } from './stations/setting-up.ts'
import { figuresOf, tableOf, type Measured } from './table.ts'

const ROWS: readonly Row[] = [
  START,
  KEYS,
  LIST_KEYS,
  ACTS,
  VERIFY,
  REPLAY,
  ...APPENDS,
  ...JUDGING,
  MEMORY,
  IDLE,
  PLAN,
  NODE,
]
const QUICK: Measures = { events: 600, seats: 8, elements: 300 }
const HELP = `npm run bench -- [row ...] [--quick] [--runs N] [--most EVENTS] [--json FILE] [--strict]
rows: ${ROWS.map((row) => row.id).join(', ')}
--quick measures a station of a few hundred events once; --most leaves out longer journals.
--strict ends with 1 where an aim was missed; a row that could not be measured always does.
`

interface Places {
  /** Where stations are kept between runs. */
  place: string
  /** This run's own, and gone with it. */
  own: string
  built: string
  root: string
}

export async function runBench(argv: readonly string[], places: Places): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: {
      quick: { type: 'boolean', default: false },
      runs: { type: 'string' },
      most: { type: 'string', default: 'Infinity' },
      json: { type: 'string' },
      strict: { type: 'boolean', default: false },
      help: { type: 'boolean', default: false },
    },
  })
  const unknown = positionals.find((name) => !ROWS.some((row) => row.id === name))
  if (values.help || unknown !== undefined) {
    process.stderr.write(unknown === undefined ? HELP : `There is no row "${unknown}".\n${HELP}`)
    return unknown === undefined ? 0 : 2
  }
  const runs = Number(values.runs ?? (values.quick ? 1 : 7))
  const tools = toolsOf(places, values.quick)
  const measured: Measured[] = []
  for (const row of ROWS.filter(({ id }) => !positionals.length || positionals.includes(id))) {
    const sizes = values.quick ? [QUICK] : row.sizes.filter((size) => size.events <= Number(values.most))
    for (const size of sizes) {
      process.stderr.write(
        `${row.id} ${size.events} events, ${size.seats} seats, ${size.elements} elements\n`,
      )
      measured.push(...grown(await measure(tools, row, size, runs), measured))
    }
  }
  const machine = `Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model.trim()}, ${Math.round(totalmem() / 2 ** 30)} GB`
  const table = tableOf(measured)
  process.stdout.write(`${table}\n\n${machine}; ${runs} runs, ours and the baseline in turn.\n`)
  if (values.json !== undefined)
    writeFileSync(values.json, `${JSON.stringify({ machine, runs, measured }, null, 1)}\n`)
  const isShort = ({ notMeasured, reached }: Measured): boolean =>
    notMeasured !== undefined || (values.strict && reached === false)
  return measured.some(isShort) ? 1 : 0
}

async function measure(tools: Tools, row: Row, size: Measures, runs: number): Promise<Measured[]> {
  const { id, what, unit, aim, baseline } = row
  const facts = { row: id, what, unit, aim, baseline, size }
  let sides: Sides | undefined
  try {
    sides = await row.begin(tools, size)
    const ours: number[] = []
    const base: number[] = []
    for (let run = 0; run < runs; run++) {
      ours.push(...(await sides.ours()))
      if (sides.base) base.push(...(await sides.base()))
    }
    const also = sides.also?.() ?? []
    return [
      { ...facts, ...judged(compared(ours, base), row.reached) },
      ...also.map((each) => ({
        ...facts,
        what: each.what,
        unit: each.unit,
        aim: each.aim ?? '',
        ...judged(compared(each.ours, each.base), each.reached),
      })),
    ]
  } catch (error) {
    return [{ ...facts, notMeasured: error instanceof Error ? error.message : String(error) }]
  } finally {
    await sides?.end?.()
  }
}

function compared(ours: readonly number[], base: readonly number[] = []): Compared {
  const mine = figuresOf(ours)
  if (!base.length) return { ours: mine }
  const theirs = figuresOf(base)
  return { ours: mine, base: theirs, ...(theirs.median > 0 && { ratio: mine.median / theirs.median }) }
}

const judged = (figures: Compared, reached?: Reached): Compared & Pick<Measured, 'reached'> =>
  reached ? { ...figures, reached: reached(figures) } : figures

/** Against the first size of the same row. */
const grown = (now: readonly Measured[], before: readonly Measured[]): Measured[] =>
  now.map((each) => {
    const first = before.find((other) => other.row === each.row && other.what === each.what)?.ours
    return first?.median && each.ours ? { ...each, growth: each.ours.median / first.median } : each
  })

/** From midnight until the first three hours of a tour are over and nothing in its journal lies ahead of the clock. */
const TOUR_BEGUN_MS = 10 * 3_600_000
const SHELF = /^(\d{4}-\d{2}-\d{2})-[0-9a-f]{12}$/

/**
 * Stations are kept between runs under the sum of the program that made them and the day they lead up to. Only shelves
 * of days gone by are cleared, and not yesterday's, so that no run loses what it measures.
 */
function toolsOf({ place, own, built, root }: Places, isQuick: boolean): Tools {
  const today = dateOf(instantIn(Date.now() - TOUR_BEGUN_MS, ZONE))
  const maker = createHash('sha256')
    .update(readFileSync(join(built, 'inside.js')))
    .digest('hex')
    .slice(0, 12)
  const shelf = join(place, `${today}-${maker}`)
  for (const name of existsSync(place) ? readdirSync(place) : []) {
    const day = SHELF.exec(name)?.[1]
    if (day !== undefined && day < addDays(today, -1))
      rmSync(join(place, name), { recursive: true, force: true })
  }
  mkdirSync(shelf, { recursive: true })
  const nameOf = ({ events, seats, elements }: Measures): string => `${events}-${seats}-${elements}`
  const station = async (size: Measures): Promise<string> => {
    const folder = join(shelf, nameOf(size))
    await makeStation(folder, size, today)
    return folder
  }
  return {
    root,
    built,
    isQuick,
    station,
    async copy(size) {
      const folder = join(own, `${nameOf(size)}.copy`)
      rmSync(folder, { recursive: true, force: true })
      cpSync(await station(size), folder, { recursive: true })
      return folder
    },
  }
}
