// Which records the board's first frame looks at. It may leave some out: whatever else is wanted is found, only later.
import { placesAt } from '../domain/ensemble.ts'
import { READ_OFF } from '../domain/rotation.ts'
import type { State } from '../domain/state.ts'

/** The tables that grow with the department: unpacking them whole would take longer than all the rest of a start. */
export const BY_RECORD = ['members', 'elements', 'issued', 'tours'] as const
export type ByRecord = (typeof BY_RECORD)[number]

/** The keys by table; also of what is not there, so that nobody has to look for it everywhere. */
export function wantedFirst(state: State): Record<ByRecord, ReadonlySet<string>> {
  const seats = [...state.seats.values()]
  const issued = new Set(seats.flatMap((seat) => placesAt(seat).filter((key) => key !== undefined)))
  const standing = [...state.standIns.values()].flatMap(({ element, own }) => [element, own ?? []].flat())
  const worn = [...issued].flatMap((key) => state.issued.get(key)?.slice(0, 1) ?? [])
  const members = [state.tour?.officer, ...seats.map((seat) => seat.member)]
  return {
    members: new Set(members.filter((id) => id != null)),
    elements: new Set([...standing, ...worn]),
    issued,
    tours: new Set([...state.tours.keys()].slice(-READ_OFF)),
  }
}
