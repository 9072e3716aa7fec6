// Whose turn it is by the station's rotation; it proposes, and the officer decides.
import {
  READ_OFF,
  tourAt,
  tourDays,
  turnAfter,
  turnOn,
  turnStarts,
  type Turn,
} from '../../domain/rotation.ts'
import type { State } from '../../domain/state.ts'
import { newestOf } from '../../domain/table.ts'
import { addDays, clockOf, dateOf, sayDate, type LocalDate } from '../../domain/time.ts'
import type { View } from '../view.ts'

export const platoonsOf = (state: State): string[] =>
  [...new Set([...state.members.values()].flatMap((member) => member.platoon ?? []))].toSorted()

const newestTours = (state: State) => newestOf(state.tours, READ_OFF)

const beginningNow = ({ state, at }: View): { on: LocalDate; isNight: boolean } =>
  tourAt(state.station?.starts ?? '07:00', dateOf(at), clockOf(at))

/** A tour keeps the date it started on: before the station's hour it is still yesterday's. */
export const tourDate = (view: View): LocalDate => beginningNow(view).on

export function proposedPlatoon(view: View, platoons = platoonsOf(view.state)): string | undefined {
  const { rotation } = view.state.station!
  const begun = beginningNow(view)
  const tours = newestTours(view.state)
  const turn = turnOn(rotation, platoons, begun, tours)
  const last = view.state.tour ? undefined : tours.at(-1)
  // A tour that was handed over early is not begun again: whoever relieves it comes on.
  const isHandedOver = last?.platoon === turn && last?.on === begun.on
  return isHandedOver ? (turnAfter(rotation, platoons, last!, tours)?.platoon ?? turn) : turn
}

/** Who relieves the tour that is open, and when. */
export const nextTurn = ({ state }: View): Turn | undefined =>
  state.tour
    ? turnAfter(state.station!.rotation, platoonsOf(state), state.tour, newestTours(state))
    : undefined

/** `Platoon B is due next, on 26 Nov 2026 at 07:00.`; who alone, where the tours worked do not tell the day. */
export function sayNextTurn(view: View): string | undefined {
  const turn = nextTurn(view)
  const { station } = view.state
  if (!turn) return undefined
  const when = turn.on ? `, on ${sayDate(turn.on)} at ${turnStarts(station!.starts, turn)}` : ''
  return `Platoon ${turn.platoon} is due next${when}.`
}

/** The platoon that comes on while the last one's tour is still open: its members relieve early, seat by seat. */
export function comingPlatoon(view: View): string | undefined {
  const { tour, station } = view.state
  if (!tour) return proposedPlatoon(view)
  const { on } = beginningNow(view)
  const isOver = on >= addDays(tour.on, tourDays(station?.rotation))
  const proposed = proposedPlatoon(view)
  const isOtherHalf = station?.rotation === '10/14' && proposed !== undefined && proposed !== tour.platoon
  return isOver || isOtherHalf ? (isOtherHalf ? proposed : nextTurn(view)?.platoon) : undefined
}
