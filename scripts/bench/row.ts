// What a row of the table is, and what it may use to measure itself.
import { execFile } from 'node:child_process'
import { join } from 'node:path'
import { promisify } from 'node:util'
import type { Measures } from './stations/setting-up.ts'
import type { Figures, Measured } from './table.ts'

export interface Row {
  id: string
  what: string
  unit: string
  /** As the design states it, and whether these figures reach it; without a measure nothing was aimed at. */
  aim: string
  reached?: Reached
  /** What it is measured beside; the ratio is ours over theirs. */
  baseline: string
  sizes: readonly Measures[]
  /** Starts to measure at one size. Each call of a side is one run and gives its samples; sides take turns. */
  begin: (tools: Tools, size: Measures) => Promise<Sides> | Sides
}
export interface Sides {
  ours: Sample
  base?: Sample
  /** Other figures worth a row of their own, gathered while measuring. */
  also?: () => readonly Also[]
  end?: () => Promise<void>
}
export type Reached = (figures: Compared) => boolean
export type Compared = Pick<Measured, 'base' | 'ratio'> & { ours: Figures }
/** Ours over theirs, at the median. */
export const within =
  (most: number): Reached =>
  ({ ratio }) =>
    ratio !== undefined && ratio <= most
type Sample = () => Promise<number[]>
export interface Also {
  what: string
  unit: string
  aim?: string
  reached?: Reached
  ours: number[]
  base?: number[]
}

export interface Tools {
  /** The project, and where it was bundled to. */
  root: string
  built: string
  isQuick: boolean
  /** The folder of the station of this size; nothing may be written there. */
  station: (size: Measures) => Promise<string>
  /** A copy that may be written. */
  copy: (size: Measures) => Promise<string>
}

export const program = ({ built }: Tools): string => join(built, 'bayboard.js')

const run = promisify(execFile)

/** Wall time of a whole process. Its exit status may be what it likes. */
export async function timeProcess(command: string, args: readonly string[]): Promise<number> {
  const from = performance.now()
  await run(command, [...args], { maxBuffer: 1 << 28 }).catch((error: { code?: unknown }) => {
    if (typeof error.code !== 'number') throw error
  })
  return performance.now() - from
}

/** Does a task of inside.ts in a process of its own and gives what it measured. */
export async function inside(tools: Tools, task: string, ...args: string[]): Promise<number[]> {
  const { stdout } = await run(
    process.execPath,
    ['--expose-gc', '--max-old-space-size=8000', join(tools.built, 'inside.js'), task, ...args],
    { maxBuffer: 1 << 28 },
  )
  return JSON.parse(stdout) as number[]
}

const house = (events: number): Measures => ({ events, seats: 8, elements: 500 })
/** One house after more and more years. */
export const YEARS = [1_000, 10_000, 100_000, 1_000_000].map(house)
export const MILLION = [
  house(1_000_000),
  { events: 1_000_000, seats: 50, elements: 10_000 },
  { events: 1_000_000, seats: 200, elements: 10_000 },
  { events: 1_000_000, seats: 200, elements: 100_000 },
] as const
/** The same once each, from the smallest to the largest. */
export const ALL = [...YEARS, ...MILLION.slice(1)]
