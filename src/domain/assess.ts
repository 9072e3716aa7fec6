// Judges a station at an instant under a policy: the only verb that sees rules and time. It must never change the books.
import { areSame, booksAt, wearerOf, type Books } from './assess/books.ts'
import { JudgedPlace, type PlaceAssessment } from './assess/place.ts'
import type { Id } from './gear.ts'
import { KINDS } from './kinds.ts'
import { policyOf } from './policy/in-force.ts'
import type { Condition, Policy } from './policy/shape.ts'
import { byWeight, isFit, worstOf, type Setting, type Verdict, type Wearer } from './rules/verdict.ts'
import { unspokenOf } from './roll-call.ts'
import { tourDays } from './rotation.ts'
import { tourBefore, type Seat, type State } from './state.ts'
import { addDays, dateOf, type Instant } from './time.ts'

export interface SeatAssessment {
  seat: Seat
  state: Condition | 'unfilled'
  fit: boolean
  answered: boolean
  /** It has answered, and has other gear now. */
  changed: boolean
  readonly places: PlaceAssessment[]
  /** Verdicts that are not `ready`, worst first; worked out when they are asked for. */
  readonly reasons: Verdict[]
}

export interface RigAssessment {
  id: Id
  name: string
  minimum: number
  /** How many of its riding positions are filled by somebody fit to ride. */
  fit: number
  canRide: boolean
  /** Critical positions that are unfilled or unfit; each alone keeps the rig in. */
  criticalOpen: Seat[]
  seats: SeatAssessment[]
}

export interface Assessment {
  at: Instant
  policy: Policy
  rigs: RigAssessment[]
}

/** How a station is set for judging at an instant, written in its own zone. */
export function settingOf(state: State, policy: Policy, at: Instant): Setting {
  const today = dateOf(at)
  const { tour } = state
  // A tour keeps its starting date past midnight and ends on a later day at the station's hour.
  const ends = tour && addDays(tour.on, tourDays(state.station?.rotation))
  const until = ends && ends > today ? ends : today
  const tourSince = tour?.opened.at ?? tourBefore(state)?.openedAt
  // One that nobody handed over is no longer anybody's after its last day.
  const isTourOpen = ends !== null && today <= ends
  return { policy, at, today, until, isTourOpen, tourSince }
}

export const wearerAt = (state: State, seat: Seat): Wearer => wearerOf(booksAt(state, seat))

function judgeSeat(books: Books, setting: Setting): SeatAssessment {
  const { seat, answer, elements, standsIn } = books
  if (seat.member === null) {
    return { seat, state: 'unfilled', fit: false, answered: false, changed: false, places: [], reasons: [] }
  }
  const wearer = wearerOf(books)
  const places = KINDS.map((kind, at) => new JudgedPlace(setting, wearer, kind, elements[at], standsIn[at]!))
  const condition = worstOf(places)
  let reasons: Verdict[] | undefined
  return {
    seat,
    state: condition,
    fit: isFit(condition),
    answered: answer !== undefined,
    changed: answer !== undefined && unspokenOf(answer, [...wearer.parts.values()]).length > 0,
    places,
    get reasons() {
      return (reasons ??= reasonsOf(places))
    },
  }
}

const reasonsOf = (places: readonly PlaceAssessment[]): Verdict[] =>
  places
    .flatMap((each) => (each.state === 'ready' ? [] : each.verdicts.filter(({ state }) => state !== 'ready')))
    .toSorted(byWeight)

/** From what each assessment was made, so that the next one knows whether it would come out the same. */
const madeFrom = new WeakMap<SeatAssessment, { books: Books; setting: Setting }>()

/** Whether two settings are the same to every rule: the policy and the days. The time of day is not looked at. */
export const isSameSetting = (one: Setting, other: Setting): boolean =>
  one.policy === other.policy &&
  one.today === other.today &&
  one.until === other.until &&
  one.isTourOpen === other.isTourOpen &&
  one.tourSince === other.tourSince

/** Judges a riding position, or takes over what was made before if nothing that is looked at has changed. */
export function assessSeat(
  state: State,
  setting: Setting,
  seat: Seat,
  before?: SeatAssessment,
): SeatAssessment {
  const books = booksAt(state, seat)
  const from = before && madeFrom.get(before)
  if (from && isSameSetting(from.setting, setting) && areSame(from.books, books)) return before
  const now = judgeSeat(books, setting)
  madeFrom.set(now, { books, setting })
  return now
}

/** Judges every riding position, or takes over from an assessment made before what would come out the same. */
export function assess(state: State, policy: Policy, at: Instant, before?: Assessment): Assessment {
  const setting = settingOf(state, policy, at)
  const known = new Map(before?.rigs.flatMap((rig) => rig.seats.map((each) => [each.seat.id, each])))
  const rigs = assessRigs(state, (seat) => assessSeat(state, setting, seat, known.get(seat.id)))
  return { at, policy, rigs }
}

/** The rigs, from what becomes of each of their riding positions. */
export const assessRigs = (state: State, assessed: (seat: Seat) => SeatAssessment): RigAssessment[] =>
  [...state.rigs.values()].map((rig) => {
    const seats = rig.seats.map((id) => assessed(state.seats.get(id)!))
    const fit = seats.filter((each) => each.fit).length
    const criticalOpen = seats.filter((each) => each.seat.critical && !each.fit).map((each) => each.seat)
    const canRide = fit >= rig.minimum && criticalOpen.length === 0
    return { id: rig.id, name: rig.name, minimum: rig.minimum, fit, canRide, criticalOpen, seats }
  })

/** The station judged by the policy its own journal has adopted. */
export const assessNow = (state: State, at: Instant, before?: Assessment): Assessment =>
  assess(state, policyOf(state), at, before)

/** Is the answer yes? Every filled seat is fit and every rig can ride; a station without a rig is not ready. */
export const isReady = ({ rigs }: Assessment): boolean =>
  rigs.length > 0 &&
  rigs.every((rig) => rig.canRide && rig.seats.every((seat) => seat.fit || seat.state === 'unfilled'))
