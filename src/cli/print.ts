// `bayboard print`: labels, tags, care slips and records as PDF, CSV or JSON; it must never leave half a file, nor write over one unasked.
import { join, parse, resolve } from 'node:path'
import type { Session } from '../session.ts'
import { NOT_IN_A_TERMINAL, onPaper, paperNamed, sayNoPaper } from './on-paper.ts'
import { withStation } from './opened.ts'
import { make, NOUNS, type Made, type Noun, type Wanted } from './print/make.ts'
import { kindNamed } from './print/pick.ts'
import { progressOf } from './progress.ts'
import { complain, type ExitStatus, type World } from './world.ts'
import { putFiles, putOut, writeAll, type OutOptions } from './write-file.ts'

const FORMATS = ['pdf', 'csv', 'json'] as const
type Format = (typeof FORMATS)[number]

export interface PrintOptions extends Omit<Wanted, 'columns' | 'rows' | 'skip' | 'event'>, OutOptions {
  station?: string
  format: string
  paper?: string
  columns?: string
  rows?: string
  skip?: string
  event?: string
}

export function printPaper(
  world: World,
  noun: Noun,
  options: PrintOptions,
): Promise<ExitStatus> | ExitStatus {
  const format = FORMATS.find((each) => each === options.format)
  const wanted = wantedOf(options)
  if (!format) {
    return complain(world, `It is not made as ${options.format}. Choose one of: ${FORMATS.join(', ')}.`, 2)
  }
  if (typeof wanted === 'string') return complain(world, wanted, 2)
  if (format === 'pdf' && options.out === undefined && world.stdout.isTTY) {
    return complain(world, NOT_IN_A_TERMINAL, 2)
  }
  return withStation(world, options.station, async (session, folder) => {
    const paper = paperNamed(options.paper, session.state)
    if (!paper) return complain(world, sayNoPaper(options.paper), 2)
    const progress = progressOf(world, 'Reading the journal', session.head.seq)
    const made = make(noun, { session, folder, progress }, wanted)
    if ('refused' in made) return complain(world, made.refused, made.isUsage ? 2 : 1)
    const written = format === 'pdf' ? await onPaper(made.job, paper, world.data) : asData(made, format)
    const { out, force = false } = options
    // The rows that the cleaner fills in go with the slip.
    const rows =
      noun === 'care-slip' && format === 'pdf' && out !== undefined ? beside(out, 'csv') : undefined
    if (out === undefined || rows === undefined) return putOut(world, written, options)
    if (resolve(rows) === resolve(out)) {
      const why = `${out} is the name of the rows that go with the slip. Nothing was written. Name the slip with .pdf.`
      return complain(world, why, 2)
    }
    const both = [
      { path: out, content: written },
      { path: rows, content: made.rows },
    ]
    return putFiles(world, both, force)
  })
}

const asData = ({ rows, data }: Made, format: Exclude<Format, 'pdf'>): string =>
  format === 'csv' ? rows : `${JSON.stringify(data, null, 2)}\n`

const beside = (path: string, ending: string): string => {
  const { dir, name } = parse(path)
  return join(dir, `${name}.${ending}`)
}

/** The options as numbers and kinds; the sentence for one that cannot be meant. */
function wantedOf({ columns, rows, skip, event, ...options }: PrintOptions): Wanted | string {
  const numbers: Record<string, number | undefined> = {}
  const asked = [
    ['columns', columns, 1, 6],
    ['rows', rows, 1, 18],
    ['skip', skip, 0, 107],
    ['event', event, 1, Number.MAX_SAFE_INTEGER],
  ] as const
  for (const [name, text, least, most] of asked) {
    if (text === undefined) continue
    const number = /^\d{1,15}$/.test(text) ? Number(text) : Number.NaN
    if (!(number >= least && number <= most)) {
      const range = name === 'event' ? 'the number of an event' : `a whole number from ${least} to ${most}`
      return `--${name} must be ${range}, and ${text} is not.`
    }
    numbers[name] = number
  }
  if (options.kind !== undefined && kindNamed(options.kind) === undefined) {
    return `There is no kind ${options.kind}. A kind is written as coat-shell or "coat shell"; bayboard schema element-record lists them.`
  }
  if (options.code !== undefined && options.code !== 'code128' && options.code !== 'qr') {
    return `There is no bar code ${options.code} here. Choose one of: code128, qr.`
  }
  if ((numbers['skip'] ?? 0) >= (numbers['columns'] ?? 3) * (numbers['rows'] ?? 8)) {
    return '--skip leaves no label on the first sheet. It counts the labels that are used up already.'
  }
  return { ...options, ...numbers }
}

/** Prints into the station's own folder of exports, as the board asks; gives the path, or the sentence that says why not. */
export async function printToStation(
  session: Session,
  folder: string,
  name: string,
  data: URL,
): Promise<{ path: string } | { refused: string }> {
  const noun = NOUNS.find((each) => each === name)
  if (!noun) return { refused: `There is nothing called ${name} to print.` }
  const made = make(noun, { session, folder }, { ids: [] })
  if ('refused' in made) return made
  const stamp = session.now().slice(0, 19).replaceAll(/[-:]/g, '')
  const path = join(folder, 'exports', `${noun}-${stamp}.pdf`)
  const content = await onPaper(made.job, paperNamed(undefined, session.state)!, data)
  const rows = noun === 'care-slip' ? [{ path: beside(path, 'csv'), content: made.rows }] : []
  const trouble = writeAll([{ path, content }, ...rows], true)
  return trouble ? { refused: trouble } : { path }
}
