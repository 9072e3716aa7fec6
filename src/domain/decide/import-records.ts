// Decides a file that changes or adds to what is known: all of its rows or none of them. What it replaces is recorded beside what it says.
import type { CommandOf, Dated } from '../commands.ts'
import { sayShapeError } from '../shape-error.ts'
import type { DoneCare } from '../events.ts'
import { dateShape, idShape, labelShape, memberShape, type Id } from '../gear.ts'
import { isHeldBySeat } from '../kinds.ts'
import { standInOf, type Element, type State } from '../state.ts'
import { dateOf, sayDate, type LocalDate } from '../time.ts'
import { findLiving, record, refuse, sayAbsence, type Decision } from './decision.ts'
import { careFault } from './gear.ts'
import { rowFaults, tellingFaults, type RowFault } from './import-gear.ts'
import { isHolder, wrongHolder } from './setting-up.ts'

type Records = Pick<CommandOf<'import-records'>, 'members' | 'elements' | 'cares' | 'fitTests' | 'changes'>

const elementChange = labelShape.extend({ issuedTo: idShape, issuedOn: dateShape }).partial()
const memberChange = memberShape.omit({ id: true }).partial()

/** Every row that cannot be taken into this station: of members and gear, of changes, of cares, of fit tests. */
export function recordFaults(records: Records, state: State, today: LocalDate): RowFault[] {
  return [
    ...rowFaults(records, state, today),
    ...records.changes.flatMap((each) => changeFaults(each, records, state, today)),
    ...careFaults(records, state, today),
    ...testFaults(records, state, today),
  ]
}

function changeFaults(
  { id, was, with: next }: Records['changes'][0],
  { members }: Records,
  state: State,
  today: LocalDate,
): RowFault[] {
  const fault = (says: string, column: RowFault['column'] = 'id'): RowFault[] => [{ id, column, says }]
  const known = state.elements.get(id) ?? state.members.get(id)
  if (!known) return fault(`there is no element or member ${id} in this station.`)
  const element = state.elements.get(id)
  const shaped = (element ? elementChange : memberChange).safeParse(next)
  if (!shaped.success) return fault(sayShapeError(shaped.error))
  const stale = Object.keys(was).find(
    (field) => JSON.stringify(Reflect.get(known, field) ?? null) !== JSON.stringify(was[field] ?? null),
  )
  if (stale !== undefined || Object.keys(next).some((field) => !(field in was))) {
    return fault('it has changed since it was looked up. Import the file again.')
  }
  if (!element) return []
  const living = findLiving(state, id)
  if (typeof living === 'string') return fault(living)
  const told = tellingFaults({ ...element, ...(next as Partial<Element>) }, today)
  const { issuedTo } = next as { issuedTo?: Id }
  if (issuedTo === undefined) return told
  const says = holderFault(
    element,
    issuedTo,
    members.some((each) => each.id === issuedTo),
    state,
  )
  return says === undefined ? told : [...told, ...fault(says, 'issued-to')]
}

/** Gear that is worn, away or held goes to nobody by a line in a file. */
function holderFault(element: Element, to: Id, isJoining: boolean, state: State): string | undefined {
  const { where } = element.custody
  if (!isJoining && !isHolder(state, to)) return `there is no member or riding position ${to} to issue it to.`
  if (state.seats.has(to) !== isHeldBySeat(element.kind)) return wrongHolder(element.kind)
  const standIn = standInOf(state, element.id)
  if (standIn) return `it stands in at ${standIn.seat}. Swap it back first.`
  if (where === 'away' || where === 'held') return `it is ${sayAbsence(element)}. Receive it back first.`
  return undefined
}

function careFaults({ cares, elements }: Records, state: State, today: LocalDate): RowFault[] {
  const joining = new Map(elements.map((each) => [each.id, each]))
  const seen = new Set<string>()
  return cares.flatMap(({ element: id, care, on }): RowFault[] => {
    const row = { id, care, on }
    const key = `${id} ${care} ${on}`
    const isDoubled = seen.has(key)
    seen.add(key)
    if (isDoubled) return [{ ...row, column: 'care', says: 'it stands in the file twice on this day.' }]
    const found = joining.get(id) ?? findLiving(state, id)
    if (typeof found === 'string') return [{ ...row, column: 'element', says: found }]
    const says = careFault(found, care, on, today)
    return says ? [{ ...row, column: says.startsWith('No ') ? 'care' : 'on', says }] : []
  })
}

function testFaults({ fitTests, members }: Records, state: State, today: LocalDate): RowFault[] {
  const joining = new Set(members.map((each) => each.id))
  return fitTests.flatMap(({ member: id, on }): RowFault[] => {
    if (!joining.has(id) && !state.members.has(id)) {
      return [{ id, on, column: 'member', says: `there is no member ${id} in this station.` }]
    }
    return on > today
      ? [
          {
            id,
            on,
            column: 'on',
            says: `${sayDate(on)} is still to come: a fit test is recorded when it has been done.`,
          },
        ]
      : []
  })
}

export function importRecords(command: Dated<CommandOf<'import-records'>>, state: State): Decision {
  const { file, members, elements, at } = command
  const rows = [members, elements, command.cares, command.fitTests, command.changes]
  if (rows.every((each) => each.length === 0)) return refuse(`${file} holds no rows. Nothing was imported.`)
  const [fault] = recordFaults(command, state, dateOf(at))
  if (fault) return refuse(`${fault.id}: ${fault.says} Nothing was imported.`)
  return record('records-imported', {
    file,
    members,
    elements,
    cares: command.cares.map(plainCare),
    fitTests: command.fitTests,
    changes: command.changes,
  })
}

/** Without the members that a shape leaves undefined. */
const plainCare = ({ who, note, ...care }: Records['cares'][0]): DoneCare => ({
  ...care,
  ...(who !== undefined && { who }),
  ...(note !== undefined && { note }),
})
