// Splits CSV bytes into rows that know their line; it must never read a meaning into a cell.
import { count } from '../../domain/count.ts'
import { CsvError, parse } from 'csv-parse/sync'
import { cleanCell } from './cells.ts'
import { separatorOf, SEPARATOR_NAMES } from './separator.ts'
import { faultOf, type Fault } from './fault.ts'

export const MOST_ROWS = 100_000
/** A file with more broken quotes than this is not read to its end. */
const MOST_BROKEN = 500

export interface Row {
  line: number
  cells: string[]
}
export interface Table {
  /** The heading row, or undefined when the file holds nothing. */
  head: Row | undefined
  rows: Row[]
  /** The line of the first row past the limit, if there is one. */
  tooMany: number | undefined
  faults: Fault[]
  notes: string[]
  /** Cells of a workbook that are no text there. */
  typed: { line: number; index: number; type: 'number' | 'date' }[]
}

/** Thrown through the parser, which has no other way to be stopped. */
const ENOUGH = new Error('enough rows')

const QUOTE = 34
const isBreak = (byte: number | undefined): boolean => byte === 10 || byte === 13

/** Counts lines forward only. The parser's own count takes a CR LF inside quotes for two lines. */
function countLines(bytes: Buffer): (offset: number) => number {
  let at = 0
  let line = 1
  return (offset) => {
    for (; at < offset; at++) if (bytes[at] === 10 || (bytes[at] === 13 && bytes[at + 1] !== 10)) line++
    return line
  }
}

function skipBreaks(bytes: Buffer, offset: number): number {
  while (isBreak(bytes[offset])) offset++
  return offset
}

function endOfLine(bytes: Buffer, offset: number): number {
  while (offset < bytes.length && !isBreak(bytes[offset])) offset++
  return offset
}

/** How many lines a quoted cell runs over before the quote that should have ended it. */
function linesWithin(bytes: Buffer, start: number): number {
  let end = start + 1
  while (end < bytes.length && (bytes[end] !== QUOTE || bytes[++end] === QUOTE)) end++
  return countLines(bytes.subarray(start, end))(end - start) - 1
}

/** Gives each row with the offset at which it begins, until `take` has had enough; returns the error that stopped it, if one did. */
function parseRows(bytes: Buffer, delimiter: string, take: (cells: string[], start: number) => boolean) {
  let start = skipBreaks(bytes, 0)
  try {
    parse(bytes, {
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      skip_empty_lines: true,
      on_record: (cells: string[], { bytes: end }) => {
        if (!take(cells, start)) throw ENOUGH
        start = skipBreaks(bytes, end)
        return null
      },
    })
    return undefined
  } catch (error) {
    if (error === ENOUGH) return undefined
    if (error instanceof CsvError) return error
    throw error
  }
}

function sayBroken(code: string, further: number): string {
  if (code === 'CSV_QUOTE_NOT_CLOSED') {
    return 'A quoted cell opens here and is never closed. Nothing after it was read.'
  }
  if (code === 'CSV_INVALID_CLOSING_QUOTE') {
    const where =
      further > 0 ? ` The quote that closes it stands ${count(further, 'line')} further down.` : ''
    return `A quoted cell goes on after its closing quote.${where} Double each quote inside the cell or take it out.`
  }
  return 'A quote stands inside a cell that does not begin with one. Take it out, or quote the cell and double it.'
}

export function readTable(bytes: Buffer): Table {
  const { delimiter, skip } = separatorOf(bytes)
  const table: Table = { head: undefined, rows: [], tooMany: undefined, faults: [], notes: [], typed: [] }
  if (delimiter !== ',') {
    table.notes.push(`The columns are separated by ${SEPARATOR_NAMES[delimiter]}, not by commas.`)
  }
  const lineAt = countLines(bytes)
  let count = -1
  const take = (cells: string[], start: number): boolean => {
    const isBlank = cells.every((cell) => cell.trim() === '')
    // Blank rows of the right width are what spreadsheets leave below a table; they are not counted.
    if (isBlank && (!table.head || cells.length === table.head.cells.length)) return true
    if (++count > MOST_ROWS) {
      table.tooMany = lineAt(start)
      return false
    }
    if (!isBlank) takeRow(table, { line: lineAt(start), cells })
    return true
  }
  let from = skip
  let broken = 0
  while (from < bytes.length) {
    const base = from
    const error = parseRows(bytes.subarray(base), delimiter, (cells, start) => take(cells, base + start))
    if (!error) break
    const within = Number(error.column)
    const field = base + Number(error.bytes)
    const opens = within === 0 ? skipBreaks(bytes, field) : field + 1
    const further = error.code === 'CSV_INVALID_CLOSING_QUOTE' ? linesWithin(bytes, opens) : 0
    const column = cleanCell(table.head?.cells[within] ?? '') || null
    table.faults.push({ line: lineAt(opens), column, says: sayBroken(error.code, further) })
    if (error.code === 'CSV_QUOTE_NOT_CLOSED' || !table.head) break
    // A stray quote spoils its own line; the rows after that line are read afresh, so that their faults are told too.
    from = endOfLine(bytes, opens)
    if (++broken >= MOST_BROKEN) {
      const says = `${MOST_BROKEN} rows were already broken. Nothing after this line was read.`
      table.faults.push(faultOf(lineAt(opens), says))
      break
    }
  }
  return table
}

function takeRow(table: Table, row: Row): void {
  if (!table.head) {
    table.head = row
    return
  }
  const [have, want] = [row.cells.length, table.head.cells.length]
  if (have === want) {
    table.rows.push(row)
    return
  }
  const cells = count(have, 'cell')
  const says = `The row has ${cells} and the heading row has ${want}. A comma inside a cell needs quotes round the cell.`
  table.faults.push(faultOf(row.line, says))
}
