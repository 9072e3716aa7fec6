// Makes a member of one row; it must never return one that the shape refuses.
import { plainText } from '../../exports/csv-text.ts'
import { memberShape, type MemberFacts } from '../../domain/gear.ts'
import type { Measure } from '../../domain/kinds.ts'
import { readCode, readPlatoon } from './cells.ts'
import type { ColumnName } from './columns.ts'
import type { Columns } from './headings.ts'
import { cellOf, optionalCell, tellIssues, type Reading } from './reading.ts'
import type { Row } from './table.ts'

const SIZE_COLUMNS: readonly [Measure, ColumnName][] = [
  ['coat', 'coat-size'],
  ['trousers', 'trouser-size'],
  ['helmet', 'helmet-size'],
  ['hood', 'hood-size'],
  ['gloves', 'glove-size'],
  ['boots', 'boot-size'],
  ['facepiece', 'facepiece-size'],
]
const columnOfMeasure = new Map<PropertyKey, ColumnName>(SIZE_COLUMNS)

/** One column of names, or first and last name in two. */
export function nameOf(row: Row, columns: Columns): string {
  const [name, first, last] = (['name', 'first-name', 'last-name'] as const).map((column) =>
    plainText(cellOf(row, column, columns)),
  )
  return name || [first, last].filter(Boolean).join(' ')
}

export function readMember(row: Row, reading: Reading): MemberFacts | undefined {
  const told = new Set<PropertyKey>()
  const id = readCode(cellOf(row, 'id', reading.columns))
  if ('says' in id) {
    reading.fault(row.line, 'id', id.says)
    told.add('id')
  }
  const rank = plainText(optionalCell(row, 'rank', reading))
  const cell = optionalCell(row, 'platoon', reading)
  const platoon = plainText(cell) === cell ? readPlatoon(cell, reading.note) : plainText(cell)
  const sizes = SIZE_COLUMNS.flatMap(([measure, column]) => {
    const size = plainText(optionalCell(row, column, reading))
    return size === '' ? [] : [[measure, size]]
  })
  const parsed = memberShape.safeParse({
    id: 'value' in id ? id.value : '',
    name: nameOf(row, reading.columns),
    ...(rank && { rank }),
    ...(platoon && { platoon }),
    ...(sizes.length > 0 && { sizes: Object.fromEntries(sizes) }),
  })
  if (!parsed.success) {
    tellIssues(row, reading, parsed.error, told, ([field, measure]) =>
      field === 'sizes' ? columnOfMeasure.get(measure!)! : (field as ColumnName),
    )
    return undefined
  }
  return parsed.data
}
