// One sheet of a workbook as plain data, and as the table that CSV gives too; it must never guess what a cell was before a spreadsheet changed it.
import type { Table } from './table.ts'
import { MOST_ROWS } from './table.ts'

/** What a workbook's cell holds: text, a number, a switch, a calendar date, or nothing. */
export type SheetCell = string | number | boolean | { date: string } | null
export interface Sheet {
  /** The sheet's own name. */
  name: string
  rows: SheetCell[][]
  notes: string[]
}

/** More digits than a spreadsheet keeps: what it shows is no longer what was typed. */
const MOST_EXACT = 1e15

function textOf(cell: SheetCell): string {
  if (cell === null) return ''
  if (typeof cell === 'number') return Math.abs(cell) >= MOST_EXACT ? cell.toExponential() : String(cell)
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE'
  return typeof cell === 'string' ? cell : cell.date
}

/** The first row with anything in it holds the headings; `line` counts the sheet's own rows. */
export function tableOfSheet({ rows, notes }: Sheet): Table {
  const table: Table = {
    head: undefined,
    rows: [],
    tooMany: undefined,
    faults: [],
    notes: [...notes],
    typed: [],
  }
  const width = Math.max(0, ...rows.map((row) => row.length))
  let count = -1
  for (const [index, row] of rows.entries()) {
    const cells = Array.from({ length: width }, (_, at) => textOf(row[at] ?? null))
    if (cells.every((cell) => cell.trim() === '')) continue
    const line = index + 1
    if (++count > MOST_ROWS) {
      table.tooMany = line
      break
    }
    if (!table.head) {
      table.head = { line, cells }
      continue
    }
    table.rows.push({ line, cells })
    for (const [at, cell] of row.entries()) {
      if (typeof cell === 'number') table.typed.push({ line, index: at, type: 'number' })
      else if (typeof cell === 'object' && cell !== null) table.typed.push({ line, index: at, type: 'date' })
    }
  }
  return table
}
