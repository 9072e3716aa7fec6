// Makes an element of one row; it must never return one that its shape refuses.
import { isRackWord, plainText } from '../../exports/csv-text.ts'
import { labelFault, wrongHolder } from '../../domain/decide/setting-up.ts'
import type { ImportedElement } from '../../domain/events.ts'
import { dateShape, elementShape, idShape } from '../../domain/gear.ts'
import { factsOf, isHeldBySeat, wordOf } from '../../domain/kinds.ts'
import { isSizeOf } from '../../domain/size.ts'
import { firstDay, type LocalDate } from '../../domain/time.ts'
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

/** With no clock here, every date counts as past: what is still to come is for `decide` to refuse. */
const LATEST: LocalDate = '9999-12-31'

/** The element, or undefined; it may have faults told of it either way. */
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
      `Column ${show(reading.columns.get('issued-on')!.heading)}: for gear that is issued to nobody now it was read as the day of its first issue.`,
    )
  }
  const parsed = importedShape.safeParse(draft)
  if (!parsed.success) {
    tellIssues(row, reading, parsed.error, told, ([field]) => columnOfField.get(field!)!)
    return undefined
  }
  tellDisagreements(row, reading, parsed.data)
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

function tellDisagreements(row: Row, { fault, note }: Reading, element: ImportedElement): void {
  const { kind, made, inService, ratedPsi, issuedOn, size } = element
  if (size !== undefined && !isSizeOf(kind, size)) {
    const usual = factsOf(kind).sizes!.as
    note(
      `Line ${row.line}: ${show(size)} is no size that ${wordOf(kind)} is marked with (${usual}); it will fit nobody.`,
    )
  }
  const dates = labelFault({ kind, made, inService }, LATEST)
  const pressure = labelFault({ kind, ratedPsi }, LATEST)
  const isEarly = made !== undefined && issuedOn !== undefined && issuedOn < firstDay(made)
  if (dates) fault(row.line, 'in-service', `The dates do not agree: ${dates}.`)
  if (pressure) fault(row.line, 'rated-psi', `The cell must be empty: ${pressure}.`)
  if (isEarly) fault(row.line, 'issued-on', `It was issued on ${issuedOn}, before it was made in ${made}.`)
}

/** Why an element cannot go to a member of the same file, if it cannot. */
export const holderFault = (
  { kind, issuedTo }: ImportedElement,
  members: ReadonlySet<string>,
): string | undefined =>
  issuedTo !== undefined && members.has(issuedTo) && isHeldBySeat(kind)
    ? `${show(issuedTo)} is a member of this file: ${wrongHolder(kind)}`
    : undefined
