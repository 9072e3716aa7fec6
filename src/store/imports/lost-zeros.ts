// Finds ids that a spreadsheet has taken the zeros from: what is unknown as it stands and known with zeros before it. It must never put them back itself.
import type { RowFault } from '../../domain/decide/import-gear.ts'
import type { ImportedRows } from '../../domain/import-diff.ts'
import type { State } from '../../domain/state.ts'
import { show } from './fault.ts'

const withoutZeros = (id: string): string => id.replace(/^0+(?=\d)/, '')

export function lostZeros(rows: ImportedRows, { elements, members, seats }: State): RowFault[] {
  const known = new Map<string, string>()
  for (const table of [elements, members, seats]) {
    for (const id of table.keys()) if (/^0\d+$/.test(id)) known.set(withoutZeros(id), id)
  }
  if (!known.size) return []
  const isHere = (id: string): boolean => elements.has(id) || members.has(id) || seats.has(id)
  const fault = (id: string | undefined, row: Omit<RowFault, 'says'>): RowFault[] => {
    const whole = id === undefined || isHere(id) ? undefined : known.get(id)
    if (whole === undefined) return []
    const says = `${show(id!)} is not known here and ${show(whole)} is: a spreadsheet has taken the zeros away. Format the column as text and enter it again.`
    return [{ ...row, says }]
  }
  return [
    ...[...rows.members, ...rows.elements].flatMap(({ id }) => fault(id, { id, column: 'id' })),
    ...rows.elements.flatMap(({ id, issuedTo }) => fault(issuedTo, { id, column: 'issued-to' })),
    ...rows.cares.flatMap(({ element: id, care, on }) => fault(id, { id, care, on, column: 'element' })),
    ...rows.fitTests.flatMap(({ member: id, on }) => fault(id, { id, on, column: 'member' })),
  ]
}
