// What is at a riding position, place by place; a roll call and a board ask for all of it, of everybody, every day.
import type { Id } from './gear.ts'
import { isHeldBySeat, KINDS } from './kinds.ts'
import { isHere, place, type Element, type Seat, type State } from './state.ts'

/** The elements that are at a seat to be worn: the member's own or standing in, and the seat's air pack and cylinder. */
export function ensembleAt(state: State, seat: Seat): Element[] {
  const found: Element[] = []
  for (const key of placesAt(seat)) {
    const element = elementAt(state, key)
    if (element && isHere(element)) found.push(element)
  }
  return found
}

/** The keys of a seat's places in the order of KINDS: its own, and those of the member in it. */
export function placesAt(seat: Seat): (string | undefined)[] {
  const its = placesOf(seat.id)
  const theirs = seat.member === null ? NOBODYS : placesOf(seat.member)
  return its.map((key, at) => (IS_HELD_BY_SEAT[at] ? key : theirs[at]))
}
const NOBODYS: readonly string[] = []
const IS_HELD_BY_SEAT = KINDS.map(isHeldBySeat)

/** The keys of a holder's places in the order of KINDS, put together once. */
function placesOf(holder: Id): readonly string[] {
  const known = places.get(holder)
  if (known) return known
  if (places.size >= MOST_HOLDERS) places.clear()
  const made = KINDS.map((kind) => place(holder, kind))
  places.set(holder, made)
  return made
}
const places = new Map<Id, readonly string[]>()
const MOST_HOLDERS = 5_000

/** What `assigned` gives, by the key of the place; nothing where it is nobody's. */
export function elementAt(state: State, key: string | undefined): Element | undefined {
  if (key === undefined) return undefined
  const id = state.standIns.get(key)?.element ?? state.issued.get(key)?.[0]
  return id === undefined ? undefined : state.elements.get(id)
}
