// Makes an element of one row; it must never return one that its shape refuses.
import { isRackWord, plainText } from '../../exports/csv-text.ts'
import type { ImportedElement } from '../../domain/events.ts'
import { dateShape, elementShape, idShape } from '../../domain/gear.ts'
import { factsOf, wordOf } from '../../domain/kinds.ts'
import { isSizeOf } from '../../domain/size.ts'
import { readCode, readConstruction, readPsi, type Read } from './cells.ts'
import type { ColumnName } from './columns.ts'
import { readDate, readMonth, type Order } from './dates.ts'
import { show } from './fault.ts'
import { readKind } from './kind-words.ts'
import { cellOf, optionalCell, tellIssues, type Reading } from './reading.ts'
import type { Row } from './table.ts'

type Reader = (cell: string, reading: Reading, order: Order | undefined) => Read<string | number>
const text: Reader = (cell) => ({ value: plainText(cell) })

/** Names are shared and misspelt; an id is not. */
const readHolder: Reader = (cell) =>
  /\s|,/.test(cell)
    ? { says: `${show(cell)} looks like a name. Write the id of the member or riding position, as M-104.` }
    : readCode(cell)

const FIELDS: readonly [field: keyof ImportedElement, column: ColumnName, read: Reader][] = [
  ['id', 'id', readCode],
  ['kind', 'kind', (cell, { note }) => readKind(cell, note)],
  ['maker', 'maker', text],
  ['model', 'model', text],
  ['serial', 'serial', readCode],
  ['size', 'size', text],
  ['made', 'made', (cell, _, order) => order && readMonth(cell, order)],
  ['edition', 'edition', text],
  ['assembly', 'assembly', readCode],
  ['inService', 'in-service', (cell, _, order) => order && readDate(cell, order)],
  ['ratedPsi', 'rated-psi', readPsi],
  ['construction', 'construction', (cell, { note }) => readConstruction(cell, note)],
  ['issuedTo', 'issued-to', readHolder],
  ['issuedOn', 'issued-on', (cell, _, order) => order && readDate(cell, order)],
]
const columnOfField = new Map<PropertyKey, ColumnName>(FIELDS.map(([field, column]) => [field, column]))

const importedShape = elementShape.extend({ issuedTo: idShape.optional(), issuedOn: dateShape.optional() })

/** The element, or undefined; it may have faults told of it either way. Whether what it says can be so is for `decide`. */
export function readElement(row: Row, reading: Reading): ImportedElement | undefined {
  const draft: Partial<Record<keyof ImportedElement, string | number>> = {}
  const told = new Set<PropertyKey>()
  for (const [field, column, read] of FIELDS) {
    const cell = fieldCell(row, column, reading)
    if (cell === '') continue
    // A column "Material" speaks of leather and cloth too.
    if (field === 'construction' && draft.kind !== 'cylinder') {
      reading.note(`Column ${show(reading.columns.get(column)!.heading)} was used for cylinders only.`)
      continue
    }
    const result = read(cell, reading, reading.orders.get(column))
    if (result && 'value' in result) draft[field] = result.value
    if (result && 'says' in result) {
      reading.fault(row.line, column, result.says)
      told.add(field)
    }
  }
  if (draft.issuedOn !== undefined && fieldCell(row, 'issued-to', reading) === '') {
    reading.note(
      `Column ${show(reading.columns.get('issued-on')!.heading)}: where the row names no holder it was read as the day of the first issue.`,
    )
  }
  const parsed = importedShape.safeParse(draft)
  if (!parsed.success) {
    tellIssues(row, reading, parsed.error, told, ([field]) => columnOfField.get(field!)!)
    return undefined
  }
  noteSize(row, reading, parsed.data)
  return parsed.data
}

function fieldCell(row: Row, column: ColumnName, reading: Reading): string {
  if (column === 'id' || column === 'kind') return cellOf(row, column, reading.columns)
  const cell = optionalCell(row, column, reading)
  if (column !== 'issued-to' || !isRackWord(cell)) return cell
  reading.note(
    `Column ${show(reading.columns.get(column)!.heading)}: ${show(cell)} was read as issued to nobody.`,
  )
  return ''
}

function noteSize(row: Row, { note }: Reading, { kind, size }: ImportedElement): void {
  if (size !== undefined && !isSizeOf(kind, size)) {
    const usual = factsOf(kind).sizes!.as
    note(
      `Line ${row.line}: ${show(size)} is no size that ${wordOf(kind)} is marked with (${usual}); it will fit nobody.`,
    )
  }
}
