// Reads a care slip that came back filled in, all or nothing: bytes in, values out. It must never take a blank for a result.
import type { DoneCare } from '../../domain/events.ts'
import { doneCareShape, type Id } from '../../domain/gear.ts'
import { CARES, plain, type Care } from '../../domain/kinds.ts'
import { cleanCell } from './cells.ts'
import { figuresOf, readDate, type Order } from './dates.ts'
import { byLine, faultOf, show, showAll, type Fault } from './fault.ts'
import { plainBytes } from './plain-bytes.ts'
import { MOST_ROWS, readTable, type Row } from './table.ts'

const NEEDED = ['element', 'care', 'on', 'result'] as const
const COLUMNS = [...NEEDED, 'kind', 'serial', 'who', 'note'] as const
type Column = (typeof COLUMNS)[number]

/** What a cleaner may write under `result`. */
export const RESULTS = ['serviceable', 'unserviceable', 'not done', 'not back'] as const

/** One row as it was read: without a care, the element came back with nothing done to it. */
export interface SlipRow {
  line: number
  element: Id
  kind: string
  serial: string
  care?: DoneCare
}
/** Beside faults stand the rows that could be read all the same: asked about, never taken. */
type SlipRead = { rows: SlipRow[]; notBack: Id[]; notes: string[] } | { faults: Fault[]; readable: SlipRow[] }

const unread = (faults: Fault[]): SlipRead => ({ faults, readable: [] })

export function readSlip(input: Uint8Array, file: string): SlipRead {
  const bytes = plainBytes(input)
  if ('faults' in bytes) return unread(bytes.faults)
  const table = readTable(bytes.bytes)
  if (table.tooMany !== undefined) {
    return unread([faultOf(table.tooMany, `The file has more than ${MOST_ROWS} rows: it is no care slip.`)])
  }
  const { head } = table
  if (!head) return unread(table.faults.length ? table.faults : [faultOf(1, `${show(file)} is empty.`)])
  const columns = columnsOf(head)
  if ('faults' in columns) return unread(byLine([...columns.faults, ...table.faults]))
  if (isBlank(table.rows, columns.at)) {
    return unread([faultOf(head.line, 'Nothing is written under result: this slip is not filled in yet.')])
  }
  const faults = [...table.faults]
  const rows: SlipRow[] = []
  const notBack = new Map<Id, number>()
  for (const row of table.rows) {
    const read = readRow(row, columns.at)
    if ('faults' in read) faults.push(...read.faults)
    else if ('notBack' in read) notBack.set(read.notBack, row.line)
    else rows.push(read.row)
  }
  for (const { element, line } of rows) {
    const other = notBack.get(element)
    if (other !== undefined) {
      const says = `${element} is not back by line ${other}, and has a care here. One of the two is wrong.`
      faults.push({ line, column: 'element', says })
    }
  }
  if (!table.rows.length && !faults.length)
    faults.push(faultOf(head.line, `${show(file)} has no rows under its headings.`))
  return faults.length
    ? { faults: byLine(faults), readable: rows }
    : { rows, notBack: [...notBack.keys()], notes: [...table.notes, ...columns.notes] }
}

type Place = ReadonlyMap<Column, number>

/** As it was printed: no row tells a result, and none a day. */
const isBlank = (rows: readonly Row[], at: Place): boolean =>
  rows.length > 0 &&
  rows.every(({ cells }) => !cleanCell(cells[at.get('result')!]!) && !cleanCell(cells[at.get('on')!]!))

function columnsOf({ line, cells }: Row): { at: Place; notes: string[] } | { faults: Fault[] } {
  const at = new Map<Column, number>()
  const faults: Fault[] = []
  const unused: string[] = []
  cells.forEach((cell, index) => {
    const heading = cleanCell(cell)
    const column = COLUMNS.find((each) => each === heading.toLowerCase())
    if (!column) {
      if (heading) unused.push(heading)
    } else if (at.has(column)) faults.push({ line, column: heading, says: 'Two columns have this heading.' })
    else at.set(column, index)
  })
  const missing = NEEDED.filter((each) => !at.has(each))
  if (missing.length) {
    faults.push(
      faultOf(line, `The heading row lacks ${missing.join(', ')}. A care slip has: ${COLUMNS.join(', ')}.`),
    )
  }
  if (faults.length) return { faults }
  const notes = unused.length ? [`These columns were not read: ${showAll(unused)}.`] : []
  return { at, notes }
}

type RowRead = { row: SlipRow } | { notBack: Id } | { faults: Fault[] }

function readRow({ line, cells }: Row, at: Place): RowRead {
  const faults: Fault[] = []
  const cell = (column: Column): string => {
    const index = at.get(column)
    // What a spreadsheet must not take for a formula was written with an apostrophe before it.
    return index === undefined ? '' : cleanCell(cells[index]!).replace(/^'(?=[=+\-@])/, '')
  }
  const fault = (column: Column, says: string): void => void faults.push({ line, column, says })
  const element = cell('element')
  const of = { line, element, kind: cell('kind'), serial: cell('serial') }
  if (!doneCareShape.shape.element.safeParse(element).success) {
    fault('element', element === '' ? 'The row names no element.' : `${show(element)} cannot be an id.`)
  }
  const written = cell('result').toLowerCase()
  const result = RESULTS.find((each) => each === written)
  if (!result) {
    const what = written === '' ? 'The result is blank' : `${show(cell('result'))} is no result`
    fault('result', `${what}. Write one of: ${RESULTS.join(', ')}.`)
  }
  if (result === 'not back' || result === 'not done') {
    if (faults.length) return { faults }
    return result === 'not back' ? { notBack: element } : { row: of }
  }
  const care = careNamed(cell('care'))
  if (!care) {
    const what = cell('care') === '' ? 'The care is blank' : `${show(cell('care'))} is no care`
    fault('care', `${what}. The cares are: ${CARES.map(plain).join(', ')}.`)
  }
  const on = dayOf(cell('on'))
  if ('says' in on) fault('on', on.says)
  const words = doneCareShape.pick({ who: true, note: true })
  const said = { ...(cell('who') && { who: cell('who') }), ...(cell('note') && { note: cell('note') }) }
  const told = words.safeParse(said)
  if (!told.success)
    fault(told.error.issues[0]!.path[0] as 'who' | 'note', `It ${told.error.issues[0]!.message}.`)
  if (faults.length || !care || !result || 'says' in on) return { faults }
  return { row: { ...of, care: { element, care, on: on.value, result, ...said } } }
}

const careNamed = (words: string): Care | undefined =>
  CARES.find((each) => each === words.toLowerCase().replaceAll(/[\s_]+/g, '-'))

/** A day in figures counts only where it can be read in one way: a slip has too few dates to prove an order by. */
function dayOf(text: string): { value: string } | { says: string } {
  if (text === '') return { says: 'The day is blank. Write it as 2026-11-24.' }
  const [first, second] = figuresOf(text) ?? []
  if (first !== undefined && second !== undefined && first <= 12 && second <= 12 && first !== second) {
    return { says: `${show(text)} can be read in two ways. Write it as 2026-11-24.` }
  }
  const order: Order = first !== undefined && first > 12 ? 'day-first' : 'month-first'
  return readDate(text, order)
}
