// Everything on the books that the judging of a riding position looks at; records are replaced, never changed: the same are the same.
import { elementAt, placesAt } from '../ensemble.ts'
import { KINDS, type Kind } from '../kinds.ts'
import type { Wearer } from '../rules/verdict.ts'
import { isHere, type Answer, type Element, type Member, type Seat, type State } from '../state.ts'

export interface Books {
  seat: Seat
  member: Member | null
  answer: Answer | undefined
  /** By kind, in the order of KINDS: what is on the books for the place, and whether it stands in. */
  elements: (Element | undefined)[]
  standsIn: boolean[]
}

export function booksAt(state: State, seat: Seat): Books {
  const places = placesAt(seat)
  return {
    seat,
    member: seat.member === null ? null : (state.members.get(seat.member) ?? null),
    answer: state.tour?.answers.get(seat.id),
    elements: places.map((key) => elementAt(state, key)),
    standsIn: places.map((key) => key !== undefined && state.standIns.has(key)),
  }
}

export function wearerOf({ seat, member, elements }: Books): Wearer {
  const parts = new Map<Kind, Element>()
  for (const [at, kind] of KINDS.entries()) {
    const element = elements[at]
    if (element && isHere(element)) parts.set(kind, element)
  }
  return { seat, member, parts }
}

export const areSame = (one: Books, other: Books): boolean =>
  one.seat === other.seat &&
  one.member === other.member &&
  one.answer === other.answer &&
  one.elements.every((each, at) => each === other.elements[at]) &&
  one.standsIn.every((each, at) => each === other.standsIn[at])
