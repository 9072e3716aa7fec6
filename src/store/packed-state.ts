// Turns a state into JSON text for the snapshot and back; a state of another make is never taken.
import { emptyState, type State, type Tour } from '../domain/state.ts'

/** Changes whenever the shape of State or the meaning of a record does: an older snapshot is then not used. */
export const STATE_VERSION = '3'

export const pack = (state: State): string =>
  JSON.stringify(state, (_key, value: unknown) => (value instanceof Map ? [...value] : value))

type Packed = { [Key in keyof State]: State[Key] extends Map<infer K, infer V> ? [K, V][] : State[Key] }
type PackedTour = Omit<Tour, 'answers' | 'acknowledged'> & {
  answers: [string, never][]
  acknowledged: [string, never][]
}

/** The state, or undefined when the packed one does not have its shape. */
export function unpack(packed: Record<string, unknown>): State | undefined {
  const isWhole = Object.entries(emptyState()).every(
    ([key, value]) => key in packed && (!(value instanceof Map) || Array.isArray(packed[key])),
  )
  if (!isWhole) return undefined
  const state = packed as unknown as Packed
  const tour = state.tour as unknown as PackedTour | null
  return {
    ...state,
    rigs: new Map(state.rigs),
    seats: new Map(state.seats),
    members: new Map(state.members),
    elements: new Map(state.elements),
    issued: new Map(state.issued),
    standIns: new Map(state.standIns),
    tours: new Map(state.tours),
    ridingLists: new Map(state.ridingLists.map(([platoon, list]) => [platoon, new Map(list)])),
    tour: tour && { ...tour, answers: new Map(tour.answers), acknowledged: new Map(tour.acknowledged) },
  }
}
