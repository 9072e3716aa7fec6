// Reads a department's spreadsheet into members and elements, all or nothing: bytes in, values out. It must never touch a disk or a station.
import type { DoneCare, DoneFitTest, ImportedElement } from '../../domain/events.ts'
import type { MemberFacts } from '../../domain/gear.ts'
import type { ImportedRows } from '../../domain/import-diff.ts'
import { cleanCell, isAltered } from './cells.ts'
import { settleDateOrders } from './date-order.ts'
import { byLine, faultOf, show, type Fault } from './fault.ts'
import { matchHeadings, type AnyColumn, type Columns } from './headings.ts'
import { openTable, typedFaults } from './open-table.ts'
import { readElement } from './read-element.ts'
import { nameOf, readMember } from './read-member.ts'
import { readCareRow, readFitTestRow } from './read-records.ts'
import { cellOf, type Reading } from './reading.ts'
import type { FileSort } from './record-columns.ts'
import { matchRecordHeadings, sortOf } from './record-headings.ts'
import type { Sheet } from './sheet.ts'
import { MOST_ROWS, type Row } from './table.ts'

export interface ReadOptions {
  /** The file's name, for the sentences. */
  file: string
  /** `{ "Their Heading": "our-column" }`, outranking the synonyms; `unused` leaves a heading out. */
  map?: Record<string, string>
  /** What the file holds, where its headings do not say. */
  as?: FileSort
}
export type Read = ImportedRows & {
  sort: FileSort
  notes: string[]
  /** Where the row of a key, as `rowKey` makes it, stands in the file. */
  lineOf: ReadonlyMap<string, number>
  /** The file's own heading of each of our columns that it has. */
  headings: ReadonlyMap<AnyColumn, string>
}
export type FileRead =
  | Read
  | {
      faults: Fault[]
      /** What the rows without a fault hold, so that all that is wrong can be told at once. */
      others?: Read
      /** What somebody said of a heading is to blame, and not the file. */
      isWrongMap?: boolean
      /** Its headings are to blame: what they are, with the first rows, so that somebody can say which is which. */
      unmatched?: { sort: FileSort; head: Row; rows: readonly Row[] }
    }

/** What tells a row from all others: its id, with the care and the day where it has such. */
export const rowKey = ({
  id,
  care,
  on,
}: {
  id: string
  care?: string | undefined
  on?: string | undefined
}): string => [id, care, on].filter(Boolean).join(' ')

/**
 * Every fault of the file, or what it holds with notes on how it was read. Whether ids are free and holders known is for
 * `decide`, which sees the station.
 */
export function readGear(input: Uint8Array | Sheet, { file, map = {}, as }: ReadOptions): FileRead {
  const opened = openTable(input)
  if ('faults' in opened) return opened
  const { table } = opened
  if (table.tooMany !== undefined) {
    const says = `The file has more than ${MOST_ROWS.toLocaleString('en-US')} rows. Split it and import the parts in turn.`
    return { faults: [faultOf(table.tooMany, says)] }
  }
  if (!table.head) {
    return table.faults.length > 0
      ? { faults: table.faults }
      : { faults: [faultOf(1, `${show(file)} is empty.`)] }
  }
  const notes = new Set([...opened.notes, ...table.notes])
  const head = cleanRow(table.head, notes)
  const rows = table.rows.map((row) => cleanRow(row, notes))
  const sort = as ?? sortOf(head, map)
  const matched = sort === 'gear' ? matchHeadings(head, map) : matchRecordHeadings(head, map, sort)
  if (matched.faults.length > 0) {
    const { isWrongMap = false } = matched
    const faults = byLine(isWrongMap ? matched.faults : [...matched.faults, ...table.faults])
    return { faults, isWrongMap, unmatched: { sort, head, rows } }
  }
  for (const says of matched.notes) notes.add(says)
  if (rows.length === 0 && table.faults.length === 0) {
    return { faults: [faultOf(head.line, `${show(file)} has a heading row and no rows under it.`)] }
  }
  noteUnheaded(head, rows, notes)
  const { columns } = matched
  const read = sort === 'gear' ? readRows(rows, columns, notes) : readRecords(rows, columns, notes, sort)
  const faults = byLine([...table.faults, ...typedFaults(table, columns, notes), ...read.faults])
  if (sort === 'gear') noteNames(read, columns, notes)
  const { faults: _, lineOfId: lineOf, ...records } = read
  const headings = new Map([...columns].map(([name, { heading }]) => [name, heading]))
  const others = { ...records, sort, notes: [...notes], lineOf, headings }
  return faults.length > 0 ? { faults, others } : others
}

function cleanRow({ line, cells }: Row, notes: Set<string>): Row {
  if (cells.some(isAltered)) notes.add(`Line ${line}: control or invisible characters were taken out.`)
  return { line, cells: cells.map(cleanCell) }
}

function noteUnheaded(head: Row, rows: readonly Row[], notes: Set<string>): void {
  for (const [index, heading] of head.cells.entries()) {
    if (heading === '' && rows.some(({ cells }) => cells[index] !== '')) {
      notes.add(`Column ${index + 1} has no heading and was not used.`)
    }
  }
}

function noteNames(read: { members: unknown[] }, columns: Columns, notes: Set<string>): void {
  const name = columns.get('name') ?? columns.get('last-name')
  if (read.members.length === 0 && name) {
    notes.add(`Column ${show(name.heading)} was not used: every row has a kind, so none is a member.`)
  }
}

function readingOf(rows: readonly Row[], columns: Columns, notes: Set<string>) {
  const dates = settleDateOrders(columns, rows)
  for (const says of dates.notes) notes.add(says)
  const faults = [...dates.faults]
  const reading: Reading = {
    columns,
    orders: dates.orders,
    note: (says) => void notes.add(says),
    fault: (line, column, says) =>
      void faults.push({ line, column: (column && columns.get(column)?.heading) ?? null, says }),
  }
  return { reading, faults }
}

/** A row is a care that was done, or a fit test. */
function readRecords(
  rows: readonly Row[],
  columns: Columns,
  notes: Set<string>,
  sort: 'cares' | 'fit-tests',
) {
  const { reading, faults } = readingOf(rows, columns, notes)
  const cares: DoneCare[] = []
  const fitTests: DoneFitTest[] = []
  const lineOfId = new Map<string, number>()
  for (const row of rows) {
    const care = sort === 'cares' ? readCareRow(row, reading) : undefined
    const test = sort === 'cares' ? undefined : readFitTestRow(row, reading)
    const key = care
      ? rowKey({ id: care.element, ...care })
      : test && rowKey({ id: test.member, on: test.on })
    if (key === undefined) continue
    const first = lineOfId.get(key)
    if (first !== undefined) {
      reading.fault(row.line, 'on', `The same stands on line ${first} already.`)
      continue
    }
    lineOfId.set(key, row.line)
    if (care) cares.push(care)
    if (test) fitTests.push(test)
  }
  return { members: [], elements: [], cares, fitTests, faults, lineOfId }
}

/** A row with a kind is an element; a row with a name and no kind is a member. */
function readRows(rows: readonly Row[], columns: Columns, notes: Set<string>) {
  const { reading, faults } = readingOf(rows, columns, notes)
  const members: MemberFacts[] = []
  const elements: ImportedElement[] = []
  const lineOfId = new Map<string, number>()
  for (const row of rows) {
    const id = cellOf(row, 'id', columns)
    const first = lineOfId.get(id)
    if (id !== '' && first === undefined) lineOfId.set(id, row.line)
    if (first !== undefined) {
      reading.fault(row.line, 'id', `${show(id)} stands on line ${first} already. An id is used once.`)
    }
    if (cellOf(row, 'kind', columns) !== '') {
      const element = readElement(row, reading)
      if (element && first === undefined) elements.push(element)
    } else if (nameOf(row, columns) !== '') {
      const member = readMember(row, reading)
      if (member && first === undefined) members.push(member)
    } else {
      const column = columns.has('kind') ? 'kind' : columns.has('name') ? 'name' : 'last-name'
      reading.fault(
        row.line,
        column,
        'The row has neither a kind nor a name: it is no element and no member.',
      )
    }
  }
  return { members, elements, cares: [], fitTests: [], faults, lineOfId }
}
