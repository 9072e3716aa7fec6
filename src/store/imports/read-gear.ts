// Reads a department's spreadsheet into members and elements, all or nothing: bytes in, values out. It must never touch a disk or a station.
import type { ImportedElement } from '../../domain/events.ts'
import type { MemberFacts } from '../../domain/gear.ts'
import { cleanCell, isAltered } from './cells.ts'
import { settleDateOrders } from './date-order.ts'
import { byLine, faultOf, show, type Fault } from './fault.ts'
import type { ColumnName } from './columns.ts'
import { matchHeadings, type Columns } from './headings.ts'
import { plainBytes } from './plain-bytes.ts'
import { holderFault, readElement } from './read-element.ts'
import { nameOf, readMember } from './read-member.ts'
import { cellOf, type Reading } from './reading.ts'
import { MOST_ROWS, readTable, type Row } from './table.ts'

export interface ReadOptions {
  /** The file's name, for the sentences. */
  file: string
  /** `{ "Their Heading": "our-column" }`, outranking the synonyms; `unused` leaves a heading out. */
  map?: Record<string, string>
}
export type GearRead =
  | {
      members: MemberFacts[]
      elements: ImportedElement[]
      notes: string[]
      /** Where the row of an id stands in the file. */
      lineOf: ReadonlyMap<string, number>
      /** The file's own heading of each of our columns that it has. */
      headings: ReadonlyMap<ColumnName, string>
    }
  | { faults: Fault[] }

/**
 * Every fault of the file, or what it holds with notes on how it was read. Whether ids are free and holders known is for
 * `decide`, which sees the station.
 */
export function readGear(input: Uint8Array, { file, map = {} }: ReadOptions): GearRead {
  const plain = plainBytes(input)
  if ('faults' in plain) return plain
  const table = readTable(plain.bytes)
  if (table.tooMany !== undefined) {
    const says = `The file has more than ${MOST_ROWS.toLocaleString('en-US')} rows. Split it and import the parts in turn.`
    return { faults: [faultOf(table.tooMany, says)] }
  }
  if (!table.head) {
    return table.faults.length > 0
      ? { faults: table.faults }
      : { faults: [faultOf(1, `${show(file)} is empty.`)] }
  }
  const notes = new Set(table.notes)
  const head = cleanRow(table.head, notes)
  const rows = table.rows.map((row) => cleanRow(row, notes))
  const matched = matchHeadings(head, map)
  if (matched.faults.length > 0) return { faults: byLine([...matched.faults, ...table.faults]) }
  for (const says of matched.notes) notes.add(says)
  if (rows.length === 0 && table.faults.length === 0) {
    return { faults: [faultOf(head.line, `${show(file)} has a heading row and no rows under it.`)] }
  }
  noteUnheaded(head, rows, notes)
  const read = readRows(rows, matched.columns, notes)
  const faults = byLine([...table.faults, ...read.faults])
  if (faults.length > 0) return { faults }
  noteNames(read, matched.columns, notes)
  const { members, elements, lineOfId: lineOf } = read
  const headings = new Map([...matched.columns].map(([name, { heading }]) => [name, heading]))
  return { members, elements, notes: [...notes], lineOf, headings }
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

/** A row with a kind is an element; a row with a name and no kind is a member. */
function readRows(rows: readonly Row[], columns: Columns, notes: Set<string>) {
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
  const members: MemberFacts[] = []
  const elements: ImportedElement[] = []
  const lineOfId = new Map<string, number>()
  const issued: { line: number; element: ImportedElement }[] = []
  for (const row of rows) {
    const id = cellOf(row, 'id', columns)
    const first = lineOfId.get(id)
    if (id !== '' && first === undefined) lineOfId.set(id, row.line)
    if (first !== undefined) {
      reading.fault(row.line, 'id', `${show(id)} stands on line ${first} already. An id is used once.`)
    }
    if (cellOf(row, 'kind', columns) !== '') {
      const element = readElement(row, reading)
      if (!element) continue
      elements.push(element)
      if (element.issuedTo !== undefined) issued.push({ line: row.line, element })
    } else if (nameOf(row, columns) !== '') {
      const member = readMember(row, reading)
      if (member) members.push(member)
    } else {
      const column = columns.has('kind') ? 'kind' : columns.has('name') ? 'name' : 'last-name'
      reading.fault(
        row.line,
        column,
        'The row has neither a kind nor a name: it is no element and no member.',
      )
    }
  }
  const joining = new Set(members.map(({ id }) => id))
  for (const { line, element } of issued) {
    const says = holderFault(element, joining)
    if (says) reading.fault(line, 'issued-to', says)
  }
  return { members, elements, faults, lineOfId }
}
