// Opens a file as a table, CSV bytes or a workbook's sheet, and tells which ids a workbook has changed; it must never mend one.
import { show, type Fault } from './fault.ts'
import type { AnyColumn, Columns } from './headings.ts'
import { plainBytes } from './plain-bytes.ts'
import { tableOfSheet, type Sheet } from './sheet.ts'
import { readTable, type Table } from './table.ts'

export function openTable(
  input: Uint8Array | Sheet,
): { table: Table; notes: string[] } | { faults: Fault[] } {
  if (!(input instanceof Uint8Array)) return { table: tableOfSheet(input), notes: [] }
  const plain = plainBytes(input)
  return 'faults' in plain ? plain : { table: readTable(plain.bytes), notes: plain.notes }
}

/** Columns whose cells are names for something: a number has lost its zeros there, and a date was something else. */
const CODES: readonly AnyColumn[] = ['id', 'element', 'member', 'serial', 'assembly', 'issued-to']

export function typedFaults({ typed }: Table, columns: Columns, notes: Set<string>): Fault[] {
  const codes = new Map(
    CODES.flatMap((name) => columns.get(name) ?? []).map((each) => [each.index, each.heading]),
  )
  return typed.flatMap(({ line, index, type }) => {
    const heading = codes.get(index)
    if (heading === undefined) return []
    if (type === 'date') {
      const says =
        'The cell is a date in the workbook, not an id. Format the column as text and enter it again.'
      return [{ line, column: heading, says }]
    }
    notes.add(
      `Column ${show(heading)}: some cells are numbers in the workbook, and zeros at their start are lost.`,
    )
    return []
  })
}
