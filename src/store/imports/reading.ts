// What one row is read with: its cells by column and where faults and notes go; it must never know a member from an element.
import { isEmptyWord } from '../../exports/csv-text.ts'
import type * as z from 'zod'
import { type Note } from './cells.ts'
import type { AnyColumn } from './headings.ts'
import type { Order } from './dates.ts'
import { show } from './fault.ts'
import type { Columns } from './headings.ts'
import type { Row } from './table.ts'

/** A date column without an order has its fault already, and its cells are left unread. */
export interface Reading {
  columns: Columns
  orders: ReadonlyMap<AnyColumn, Order>
  note: Note
  fault: (line: number, column: AnyColumn | null, says: string) => void
}

/** The cell of a column, empty where the file has no such column. */
export const cellOf = (row: Row, name: AnyColumn, columns: Columns): string => {
  const column = columns.get(name)
  return column ? row.cells[column.index]! : ''
}

/** The same for a column that may be left empty: a word for nothing is nothing. */
export function optionalCell(row: Row, name: AnyColumn, { columns, note }: Reading): string {
  const cell = cellOf(row, name, columns)
  if (!isEmptyWord(cell)) return cell
  note(`Column ${show(columns.get(name)!.heading)}: ${show(cell)} was read as an empty cell.`)
  return ''
}

/** Tells what a shape refuses, by the column it came from. `told` are the fields that have a fault already. */
export function tellIssues(
  row: Row,
  { columns, fault }: Reading,
  error: z.ZodError,
  told: ReadonlySet<PropertyKey>,
  columnOf: (path: PropertyKey[]) => AnyColumn,
): void {
  for (const { path, message } of error.issues) {
    if (told.has(path[0]!)) continue
    const column = columnOf(path)
    const cell = cellOf(row, column, columns)
    fault(row.line, column, cell === '' ? `The row has no ${column}.` : `${show(cell)} ${message}.`)
  }
}
