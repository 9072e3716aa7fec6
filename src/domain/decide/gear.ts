// Decides what is recorded of elements and members: tags, exposures, care, readings, custody; never whether gear is fit.
import type { CommandOf, Dated } from '../commands.ts'
import type { Id } from '../gear.ts'
import { factsOf, plain, wordOf } from '../kinds.ts'
import { ensembleAt } from '../ensemble.ts'
import { isHere, type Element, type State } from '../state.ts'
import { dateOf, firstDay, sayDate, type LocalDate } from '../time.ts'
import {
  findElement,
  findLiving,
  findMember,
  findSeat,
  movedFault,
  Name,
  record,
  refuse,
  sayAbsence,
  type Decision,
} from './decision.ts'

export function tag(command: Dated<CommandOf<'tag'>>, state: State): Decision {
  const element = findLiving(state, command.element)
  if (typeof element === 'string') return refuse(element)
  const { reason, matter } = command
  if (element.tags.some((each) => each.reason === reason)) {
    return refuse(`${Name(element)} is already tagged for that: ${reason}.`)
  }
  return record('element-tagged', { element: element.id, reason, matter })
}

export function liftTag(command: Dated<CommandOf<'lift-tag'>>, state: State): Decision {
  const element = findLiving(state, command.element)
  if (typeof element === 'string') return refuse(element)
  if (!element.tags.length) return refuse(`${Name(element)} has no tag to lift.`)
  const { tags } = command
  const unread = tags && element.tags.find((each) => !tags.includes(each.seq))
  if (unread)
    return refuse(`${Name(element)} has another tag, not read yet: ${unread.reason}. Read it first.`)
  const reasons = element.tags.map((each) => each.reason)
  return record('tag-lifted', { element: element.id, basis: command.basis, reasons })
}

export function readPressure(command: Dated<CommandOf<'read-pressure'>>, state: State): Decision {
  const element = findLiving(state, command.element)
  if (typeof element === 'string') return refuse(element)
  const { psi, celsius } = command
  if (element.kind !== 'cylinder')
    return refuse(`${Name(element)} holds no pressure: only a cylinder is read.`)
  if (!isHere(element)) return refuse(`${Name(element)} is ${sayAbsence(element)}: its gauge cannot be read.`)
  const fault = pressureFault(element, psi)
  if (fault) return refuse(fault)
  return record('pressure-read', {
    element: element.id,
    psi,
    ...(celsius !== undefined && { celsius }),
    ...(state.tour && { tour: state.tour.id }),
  })
}

/** Why a cylinder cannot hold this pressure, or undefined. */
export const pressureFault = ({ id, ratedPsi }: Element, psi: number): string | undefined =>
  ratedPsi !== undefined && psi > ratedPsi * 1.25
    ? `${psi} psi is far more than ${id} is rated for (${ratedPsi}). Read the gauge again.`
    : undefined

export function recordExposure(command: Dated<CommandOf<'record-exposure'>>, state: State): Decision {
  const { seats = [], elements = [], exposure, incident } = command
  if (!seats.length && !elements.length)
    return refuse('Say which riding positions or which elements were exposed.')
  const exposed = new Set<Id>()
  for (const id of seats) {
    const seat = findSeat(state, id)
    if (typeof seat === 'string') return refuse(`${seat} Nothing was recorded.`)
    const moved = movedFault(state, seat, command)
    if (moved) return refuse(`${moved} Name the elements that were exposed. Nothing was recorded.`)
    if (seat.member === null) return refuse(`Nobody rides at ${id}. Nothing was recorded.`)
    for (const element of ensembleAt(state, seat)) exposed.add(element.id)
  }
  for (const id of elements) {
    const element = findLiving(state, id)
    if (typeof element === 'string') return refuse(`${element} Nothing was recorded.`)
    exposed.add(id)
  }
  if (!exposed.size) return refuse(`There is no gear at ${seats.join(', ')}. Nothing was recorded.`)
  return record('exposure-recorded', {
    exposure,
    seats,
    elements: [...exposed],
    ...(incident !== undefined && { incident }),
  })
}

/** Why a care cannot be of this element on this day, or undefined. */
export function careFault(
  element: Pick<Element, 'id' | 'kind' | 'made'>,
  care: CommandOf<'record-care'>['care'],
  on: LocalDate,
  today: LocalDate,
): string | undefined {
  const { kind, made } = element
  const { cares } = factsOf(kind)
  if (!cares.includes(care)) {
    return `No ${plain(care)} is done on ${wordOf(kind)} ${element.id}. Its cares are: ${cares.map(plain).join(', ')}.`
  }
  if (on > today) return `${sayDate(on)} is still to come: a care is recorded when it has been done.`
  if (made && on < firstDay(made)) {
    return `${Name(element)} was made in ${made}: a care on ${sayDate(on)} cannot be its own.`
  }
  return undefined
}

export function recordCare(command: Dated<CommandOf<'record-care'>>, state: State): Decision {
  const element = findLiving(state, command.element)
  if (typeof element === 'string') return refuse(element)
  const { care, on, result, who, note, at } = command
  const fault = careFault(element, care, on, dateOf(at))
  if (fault) return refuse(fault)
  return record('care-recorded', {
    element: element.id,
    care,
    on,
    result,
    ...(who !== undefined && { who }),
    ...(note !== undefined && { note }),
  })
}

export function recordFitTest(command: Dated<CommandOf<'record-fit-test'>>, state: State): Decision {
  const member = findMember(state, command.member)
  if (typeof member === 'string') return refuse(member)
  const { facepiece, on, result, at } = command
  if (on > dateOf(at))
    return refuse(`${sayDate(on)} is still to come: a fit test is recorded when it has been done.`)
  return record('fit-test-recorded', { member: member.id, facepiece, on, result })
}

/** The elements named, each once and each in a state in which this can be done. */
function allOf(state: State, ids: Id[], fault: (element: Element) => string | undefined): Id[] | string {
  for (const id of ids) {
    const element = findLiving(state, id)
    const wrong = typeof element === 'string' ? element : fault(element)
    if (wrong !== undefined) return `${wrong} Nothing was recorded.`
  }
  return [...new Set(ids)]
}

export function sendAway(command: Dated<CommandOf<'send-away'>>, state: State): Decision {
  const { to, for: care } = command
  const elements = allOf(state, command.elements, (element) => {
    if (element.custody.where === 'away' || element.custody.where === 'held') {
      return `${Name(element)} is already ${sayAbsence(element)}.`
    }
    return factsOf(element.kind).cares.includes(care)
      ? undefined
      : `No ${plain(care)} is done on ${wordOf(element.kind)} ${element.id}.`
  })
  return typeof elements === 'string'
    ? refuse(elements)
    : record('elements-sent-away', { elements, to, for: care })
}

export function receiveBack(command: Dated<CommandOf<'receive-back'>>, state: State): Decision {
  const { byMistake } = command
  const elements = allOf(state, command.elements, (element) => {
    const { where } = element.custody
    return where === 'away' || where === 'held'
      ? undefined
      : `${Name(element)} is not away, so it cannot come back.`
  })
  if (typeof elements === 'string') return refuse(elements)
  return record('elements-received-back', { elements, ...(byMistake && { byMistake }) })
}

export function hold(command: Dated<CommandOf<'hold'>>, state: State): Decision {
  const element = findLiving(state, command.element)
  if (typeof element === 'string') return refuse(element)
  if (element.custody.where === 'held') return refuse(`${Name(element)} is already ${sayAbsence(element)}.`)
  return record('element-held', { element: element.id, reason: command.reason })
}

export function retire(command: Dated<CommandOf<'retire'>>, state: State): Decision {
  const element = findElement(state, command.element)
  if (typeof element === 'string') return refuse(element)
  if (element.custody.where === 'retired') return refuse(`${Name(element)} is already retired.`)
  if (element.custody.where === 'held') {
    return refuse(`${Name(element)} is ${sayAbsence(element)}. Receive it back before retiring it.`)
  }
  return record('element-retired', {
    element: element.id,
    reason: command.reason,
    disposal: command.disposal,
  })
}
