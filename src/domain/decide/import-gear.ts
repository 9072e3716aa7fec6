// Decides an import: all of a file's rows or none of them. It must never take a row that a single command would refuse.
import type { CommandOf, Dated } from '../commands.ts'
import type { ImportedElement } from '../events.ts'
import type { ElementFacts, Id } from '../gear.ts'
import { isHeldBySeat, type Care } from '../kinds.ts'
import type { State } from '../state.ts'
import { dateOf, firstDay, type LocalDate } from '../time.ts'
import { record, refuse, type Decision } from './decision.ts'
import { isHolder, labelFaults, takenBy, wrongHolder, type LabelFault } from './setting-up.ts'

const COLUMN_OF = {
  made: 'made',
  inService: 'in-service',
  ratedPsi: 'rated-psi',
  construction: 'construction',
} as const satisfies Record<LabelFault['field'], string>
type LabelColumn = (typeof COLUMN_OF)[LabelFault['field']]

/** Why one row cannot be taken, and which of its columns says so. */
export interface RowFault {
  id: Id
  column: 'id' | LabelColumn | 'issued-to' | 'issued-on' | 'element' | 'member' | 'care' | 'on'
  /** Where an id has several rows, which. */
  care?: Care
  on?: LocalDate
  says: string
}

type Rows = Pick<CommandOf<'import-gear'>, 'members' | 'elements'>

/** Every row that cannot be taken into this station, in the order of the file. */
export function rowFaults({ members, elements }: Rows, state: State, today: LocalDate): RowFault[] {
  const faults: RowFault[] = []
  const seen = new Set<Id>()
  const joining = new Set(members.map((member) => member.id))
  for (const { id } of [...members, ...elements]) {
    const taken = takenBy(state, id) ?? (seen.has(id) ? `${id} stands in the file twice` : undefined)
    if (taken) faults.push({ id, column: 'id', says: `${taken}.` })
    seen.add(id)
  }
  for (const element of elements) faults.push(...elementFaults(element, joining, state, today))
  return faults
}

function elementFaults(
  element: ImportedElement,
  joining: ReadonlySet<Id>,
  state: State,
  today: LocalDate,
): RowFault[] {
  const { id, kind, issuedTo } = element
  const faults = tellingFaults(element, today)
  if (issuedTo === undefined) return faults
  if (!joining.has(issuedTo) && !isHolder(state, issuedTo)) {
    const says = `there is no member or riding position ${issuedTo} to issue it to.`
    faults.push({ id, column: 'issued-to', says })
  } else if (state.seats.has(issuedTo) !== isHeldBySeat(kind)) {
    faults.push({ id, column: 'issued-to', says: wrongHolder(kind) })
  }
  return faults
}

/** What the row says of the element that cannot be so, whoever has it. */
export function tellingFaults(
  element: ElementFacts & { issuedOn?: LocalDate | null | undefined },
  today: LocalDate,
): RowFault[] {
  const { id, made, issuedOn } = element
  const faults = labelFaults(element, today).map(({ field, says }): RowFault => ({
    id,
    column: COLUMN_OF[field],
    says: `${says}.`,
  }))
  if (issuedOn && issuedOn > today) {
    faults.push({ id, column: 'issued-on', says: `issued on ${issuedOn}, which is still to come.` })
  }
  if (issuedOn && made && issuedOn < firstDay(made)) {
    const says = `made in ${made}, it cannot have been issued on ${issuedOn}.`
    faults.push({ id, column: 'issued-on', says })
  }
  return faults
}

export function importGear(command: Dated<CommandOf<'import-gear'>>, state: State): Decision {
  const { file, members, elements, at } = command
  if (elements.length + members.length === 0) return refuse(`${file} holds no rows. Nothing was imported.`)
  const [fault] = rowFaults(command, state, dateOf(at))
  if (fault) {
    const says = fault.column === 'id' ? fault.says : `${fault.id}: ${fault.says}`
    return refuse(`${says} Nothing was imported.`)
  }
  return record('gear-imported', { file, members, elements })
}
