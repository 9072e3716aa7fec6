// What a code on a label or a badge of this station means; it must never guess.
import { capital, nameOf } from './decide/decision.ts'
import type { Id } from './gear.ts'
import type { State } from './state.ts'

interface Labelled {
  id: Id
  /** `Hood K-9071`, `Priya Halvering (M-909)`, `E9-1, Officer` */
  name: string
}

/** Everything with this id or this serial: ids are one space, but two makers may use one serial. */
export function labelled(state: State, code: string): Labelled[] {
  const wanted = code.trim()
  const is = (id: Id): boolean => id.toLowerCase() === wanted.toLowerCase()
  const found: Labelled[] = []
  for (const element of state.elements.values()) {
    if (is(element.id) || element.serial === wanted)
      found.push({ id: element.id, name: capital(nameOf(element)) })
  }
  for (const { id, name } of state.members.values()) if (is(id)) found.push({ id, name: `${name} (${id})` })
  for (const { id, position } of state.seats.values())
    if (is(id)) found.push({ id, name: `${id}, ${position}` })
  // An id is meant before a serial that happens to read the same.
  const byId = found.filter((each) => is(each.id))
  return byId.length ? byId : found
}
