// Decides what is added to a station and to whom gear is issued; an id is used once, for one thing.
import type { CommandOf, Dated } from '../commands.ts'
import type { ElementFacts, Id } from '../gear.ts'
import { isHeldBySeat, wordOf } from '../kinds.ts'
import { isHere, place, standInOf, type Element, type StandIn, type State } from '../state.ts'
import { dateOf, firstDay, sayDate, type LocalDate } from '../time.ts'
import { findLiving, Name, nameOf, record, refuse, sayAbsence, sayMember, type Decision } from './decision.ts'

/** What already goes by an id, or undefined. Ids are one space, so that a scan can mean one thing only. */
export function takenBy(state: State, id: Id): string | undefined {
  if (id === 'setup') return '"setup" is kept for setting up'
  if (state.elements.has(id)) return `${id} is already the ${nameOf(state.elements.get(id)!)}`
  if (state.members.has(id)) return `${id} is already the member ${state.members.get(id)!.name}`
  if (state.seats.has(id)) return `${id} is already a riding position`
  if (state.rigs.has(id)) return `${id} is already the rig ${state.rigs.get(id)!.name}`
  return undefined
}

export function addRig({ rig }: Dated<CommandOf<'add-rig'>>, state: State): Decision {
  const ids = [rig.id, ...rig.seats.map((seat) => seat.id)]
  const doubled = ids.find((id, index) => ids.indexOf(id) !== index)
  if (doubled) return refuse(`${doubled} is named twice in rig ${rig.id}.`)
  for (const id of ids) {
    const taken = takenBy(state, id)
    if (taken) return refuse(`${taken}. Nothing was added.`)
  }
  if (rig.minimum > rig.seats.length) {
    return refuse(
      `Rig ${rig.id} has ${rig.seats.length} riding positions: a minimum crew of ${rig.minimum} cannot ride.`,
    )
  }
  return record('rig-added', { rig })
}

export function addMember({ member }: Dated<CommandOf<'add-member'>>, state: State): Decision {
  const taken = takenBy(state, member.id)
  return taken ? refuse(`${taken}. Nothing was added.`) : record('member-added', { member })
}

/** What cannot be so on a label, and what on it says so. */
export interface LabelFault {
  field: 'made' | 'inService' | 'ratedPsi' | 'construction'
  says: string
}

/** All that is wrong with an element's label. `today` bounds the dates. */
export function labelFaults(element: Omit<ElementFacts, 'id'>, today: LocalDate): LabelFault[] {
  const { kind } = element
  const ofCylinders = (['ratedPsi', 'construction'] as const).filter((each) => element[each] !== undefined)
  const only = `only a cylinder has a rated pressure or a construction, and the kind of this one is ${wordOf(kind)}`
  return [
    ...dateFaults(element, today),
    ...(kind === 'cylinder' ? [] : ofCylinders.map((field) => ({ field, says: only }))),
  ]
}

function dateFaults(
  { made, inService }: Pick<ElementFacts, 'made' | 'inService'>,
  today: LocalDate,
): LabelFault[] {
  if (made && firstDay(made) > today) {
    return [{ field: 'made', says: `it was made in ${made}, which is still to come` }]
  }
  const came = `it came into service on ${inService}`
  if (inService && inService > today) return [{ field: 'inService', says: `${came}, which is still to come` }]
  return made && inService && inService < firstDay(made)
    ? [{ field: 'inService', says: `${came}, before it was made in ${made}` }]
    : []
}

export function addElement({ element, at }: Dated<CommandOf<'add-element'>>, state: State): Decision {
  const taken = takenBy(state, element.id)
  if (taken) return refuse(`${taken}. Nothing was added.`)
  const [fault] = labelFaults(element, dateOf(at))
  return fault ? refuse(`${element.id} was not added: ${fault.says}.`) : record('element-added', { element })
}

export const isHolder = (state: State, id: Id): boolean => state.members.has(id) || state.seats.has(id)

export const wrongHolder = (kind: Element['kind']): string =>
  isHeldBySeat(kind)
    ? `an ${wordOf(kind)} belongs to a riding position, not to a member.`.replace(/^an (?=[^aeiou])/, 'a ')
    : `${wordOf(kind)} belongs to a member, not to a riding position.`

export function issue(command: Dated<CommandOf<'issue'>>, state: State): Decision {
  const element = findLiving(state, command.element)
  if (typeof element === 'string') return refuse(element)
  const { to, at } = command
  const on = command.on === undefined ? dateOf(at) : command.on
  if (!isHolder(state, to)) return refuse(`There is no member or riding position ${to} in this station.`)
  if (state.seats.has(to) !== isHeldBySeat(element.kind))
    return refuse(`${element.id}: ${wrongHolder(element.kind)}`)
  if (element.issuedTo !== null) {
    return refuse(
      `${Name(element)} is issued to ${sayMember(state, element.issuedTo)}. Return it to the rack first.`,
    )
  }
  const standIn = standInOf(state, element.id)
  if (standIn) return refuse(`${Name(element)} stands in at ${standIn.seat}. Swap it back first.`)
  if (element.custody.where !== 'rack') return refuse(`${Name(element)} is ${sayAbsence(element)}.`)
  if (on !== null && on > dateOf(at)) return refuse(`${sayDate(on)} is still to come.`)
  if (element.made && on !== null && on < firstDay(element.made)) {
    return refuse(
      `${Name(element)} was made in ${element.made}: it cannot have been issued on ${sayDate(on)}.`,
    )
  }
  return record('element-issued', { element: element.id, to, on })
}

export function returnToRack(command: Dated<CommandOf<'return-to-rack'>>, state: State): Decision {
  const element = findLiving(state, command.element)
  if (typeof element === 'string') return refuse(element)
  const standIn = standInOf(state, element.id)
  if (standIn && canSwapBack(state, standIn)) {
    return refuse(`${Name(element)} stands in at ${standIn.seat}. Swap it back instead.`)
  }
  if (element.issuedTo === null && !standIn) return refuse(`${Name(element)} is not issued to anybody.`)
  return record('element-returned', { element: element.id })
}

/** A spare can be swapped back where its holder still rides and has an element of their own that may go back in. */
function canSwapBack(state: State, { holder, kind, own }: StandIn): boolean {
  const rides = state.seats.has(holder) || (state.members.get(holder)?.seat ?? null) !== null
  const mine = state.elements.get(own ?? state.issued.get(place(holder, kind))?.[0] ?? '')
  return rides && mine !== undefined && isHere(mine) && !mine.tags.length
}
