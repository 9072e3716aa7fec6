// Medians, p99s and ratios of samples, as one table and as JSON; it must never leave out a bad one.
import type { Measures } from './stations/setting-up.ts'

export interface Figures {
  /** What the machine can do when nothing else is at work on it. */
  least: number
  median: number
  p99: number
  samples: number
}
export interface Measured {
  row: string
  what: string
  unit: string
  aim: string
  baseline: string
  size: Measures
  ours?: Figures
  base?: Figures
  /** Ours over theirs, of the medians. */
  ratio?: number
  /** Ours over ours at the smallest size of the row. */
  growth?: number
  /** Absent where nothing was aimed at. */
  reached?: boolean
  notMeasured?: string
}

/** The p99 of few samples is their worst. */
export function figuresOf(samples: readonly number[]): Figures {
  const sorted = samples.toSorted((a, b) => a - b)
  const at = (part: number): number => sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!
  return { least: sorted[0]!, median: at(0.5), p99: at(0.99), samples: sorted.length }
}

const say = (value: number | undefined): string =>
  value === undefined
    ? ''
    : value >= 100
      ? value.toFixed(0)
      : value >= 1
        ? value.toFixed(1)
        : value.toFixed(3)
const times = (value: number | undefined): string => (value === undefined ? '' : `${value.toFixed(2)} x`)
const count = (value: number): string => value.toLocaleString('en-US')

const HEADS = [
  'what',
  'events',
  'seats',
  'elements',
  'median',
  'p99',
  'base',
  'base p99',
  'ratio',
  'growth',
  'reached',
  'aim',
]

export function tableOf(measured: readonly Measured[]): string {
  const rows = measured.map((each) => [
    `${each.what} (${each.unit})`,
    count(each.size.events),
    count(each.size.seats),
    count(each.size.elements),
    each.notMeasured ?? say(each.ours?.median),
    say(each.ours?.p99),
    say(each.base?.median),
    say(each.base?.p99),
    times(each.ratio),
    times(each.growth),
    each.notMeasured === undefined && each.reached !== undefined ? (each.reached ? 'yes' : 'no') : '',
    each.aim,
  ])
  const widths = HEADS.map((head, at) => Math.max(head.length, ...rows.map((row) => row[at]!.length)))
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, at) =>
        at === 0 || at === HEADS.length - 1 ? cell.padEnd(widths[at]!) : cell.padStart(widths[at]!),
      )
      .join('  ')
      .trimEnd()
  return [line(HEADS), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)].join('\n')
}
