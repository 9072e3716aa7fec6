// What a decision is, and the look-ups every decision starts from; it must never see a rule or a clock.
import type { Draft, EventData, EventType } from '../events.ts'
import type { Dated } from '../commands.ts'
import type { Id } from '../gear.ts'
import { wordOf } from '../kinds.ts'
import { isHere, type Element, type Member, type Seat, type State, type Tour } from '../state.ts'
import { clockOf, dateOf, isLater, sayDate } from '../time.ts'

/** One event to be recorded, or the sentence the user reads; of a refusal that has to be known later both. */
export type Decision = { draft: Draft } | { refused: string; draft?: Draft }

export const refuse = (sentence: string): Decision => ({ refused: sentence })
export const record = <T extends EventType>(type: T, data: EventData[T]): Decision => ({
  draft: { type, data } as Draft,
})

/** A look-up gives the thing, or the sentence that says why there is none. */
type Found<T> = T | string

export const findElement = (state: State, id: Id): Found<Element> =>
  state.elements.get(id) ?? `There is no element ${id} in this station.`
export const findMember = (state: State, id: Id): Found<Member> =>
  state.members.get(id) ?? `There is no member ${id} in this station.`
export const findSeat = (state: State, id: Id): Found<Seat> =>
  state.seats.get(id) ?? `There is no riding position ${id} in this station.`
export const findTour = (state: State): Found<Tour> => state.tour ?? 'No tour is open. Open the tour first.'

/** An element that has not left the station's books. */
export function findLiving(state: State, id: Id): Found<Element> {
  const element = findElement(state, id)
  if (typeof element === 'string') return element
  return element.custody.where === 'retired'
    ? `${Name(element)} is retired: nothing more is recorded of it.`
    : element
}

/** Why nobody can say from the books who and what was at a seat at a past moment that is entered late, or undefined. */
export function movedFault(state: State, seat: Seat, command: Dated): string | undefined {
  if (!command.isLate) return undefined
  const moves = [seat.movedAt, seat.member === null ? undefined : state.members.get(seat.member)?.movedAt]
  const later = moves.find((moved) => moved !== undefined && isLater(moved, command.at))
  return (
    later &&
    `What rides at ${seat.id} has changed since then, on ${sayDate(dateOf(later))} at ${clockOf(later)}:` +
      ' the books do not say what was there before.'
  )
}

/** `coat shell C-1041` */
export const nameOf = (element: Pick<Element, 'id' | 'kind'>): string =>
  `${wordOf(element.kind)} ${element.id}`

/** The same at the start of a sentence. */
export const Name = (element: Pick<Element, 'id' | 'kind'>): string => capital(nameOf(element))
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** `A. Varga (M-104)` */
export const sayMember = (state: State, id: Id): string => {
  const member = state.members.get(id)
  return member ? `${member.name} (${id})` : id
}

/** Where an element that is not here has gone. */
export function sayAbsence(element: Element): string {
  const { custody } = element
  if (custody.where === 'away') return `away at ${custody.to} for ${custody.for.replaceAll('-', ' ')}`
  if (custody.where === 'held') return `held as evidence: ${custody.reason}`
  if (custody.where === 'retired') return `retired: ${custody.reason}`
  return isHere(element) ? 'here' : custody.where
}
