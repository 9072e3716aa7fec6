// Judges a station at an instant under a policy: the only verb that sees rules and time. It must never change the books.
import type { Id } from './gear.ts'
import { KINDS, type Kind } from './kinds.ts'
import { policyOf } from './policy/in-force.ts'
import type { Condition, Policy } from './policy/shape.ts'
import { judgePresence } from './rules/composition.ts'
import { judgeByAll, judgeElement } from './rules/judge.ts'
import { byWeight, isFit, worstOf, type Setting, type Verdict, type Wearer } from './rules/verdict.ts'
import { assigned, holderOf, isHere, place, type Element, type Seat, type State } from './state.ts'
import { tourDays } from './rotation.ts'
import { addDays, dateOf, type Instant } from './time.ts'

export interface PlaceAssessment {
  kind: Kind
  /** The element on the books for this place, here or not. */
  element: Element | undefined
  /** It stands in for the holder's own. */
  standsIn: boolean
  state: Condition
  /** Every rule that looked, worst first; those that found nothing wrong are `ready`. */
  verdicts: Verdict[]
}

export interface SeatAssessment {
  seat: Seat
  state: Condition | 'unfilled'
  fit: boolean
  answered: boolean
  places: PlaceAssessment[]
  /** Verdicts that are not `ready`, worst first. */
  reasons: Verdict[]
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
  return { policy, at, today, until, tourSince: tour?.opened.at }
}

export function wearerAt(state: State, seat: Seat): Wearer {
  const parts = new Map<Kind, Element>()
  for (const kind of KINDS) {
    const element = assigned(state, holderOf(seat, kind), kind)
    if (element && isHere(element)) parts.set(kind, element)
  }
  return { seat, member: seat.member === null ? null : (state.members.get(seat.member) ?? null), parts }
}

/** Every verdict on a place, were this element in it: what must be there, then what its own rules and its wearer say. */
export function judgePlace(
  setting: Setting,
  wearer: Wearer,
  kind: Kind,
  element: Element | undefined,
): Verdict[] {
  const presence = judgeByAll(setting.policy, kind, (rule) => judgePresence(rule, kind, element, wearer))
  const present = element && isHere(element) ? judgeElement(element, setting, wearer) : []
  return [...presence, ...present]
}

function assessPlace(state: State, setting: Setting, wearer: Wearer, kind: Kind): PlaceAssessment {
  const holder = holderOf(wearer.seat, kind)
  const element = assigned(state, holder, kind)
  const verdicts = judgePlace(setting, wearer, kind, element).toSorted(byWeight)
  const standsIn = holder !== null && state.standIns.has(place(holder, kind))
  return { kind, element, standsIn, state: worstOf(verdicts), verdicts }
}

export function assessSeat(state: State, setting: Setting, seat: Seat): SeatAssessment {
  const wearer = wearerAt(state, seat)
  const answered = state.tour?.answers.has(seat.id) ?? false
  if (seat.member === null) {
    return { seat, state: 'unfilled', fit: false, answered: false, places: [], reasons: [] }
  }
  const places = KINDS.map((kind) => assessPlace(state, setting, wearer, kind))
  const reasons = places
    .flatMap((each) => each.verdicts)
    .filter((each) => each.state !== 'ready')
    .toSorted(byWeight)
  const condition = worstOf(reasons)
  return { seat, state: condition, fit: isFit(condition), answered, places, reasons }
}

export function assess(state: State, policy: Policy, at: Instant): Assessment {
  const setting = settingOf(state, policy, at)
  const rigs = [...state.rigs.values()].map((rig): RigAssessment => {
    const seats = rig.seats.map((id) => assessSeat(state, setting, state.seats.get(id)!))
    const fit = seats.filter((each) => each.fit).length
    const criticalOpen = seats.filter((each) => each.seat.critical && !each.fit).map((each) => each.seat)
    const canRide = fit >= rig.minimum && criticalOpen.length === 0
    return { id: rig.id, name: rig.name, minimum: rig.minimum, fit, canRide, criticalOpen, seats }
  })
  return { at, policy, rigs }
}

/** The station judged by the policy its own journal has adopted. */
export const assessNow = (state: State, at: Instant): Assessment => assess(state, policyOf(state), at)

/** Is the answer yes? Every filled seat is fit and every rig can ride; a station without a rig is not ready. */
export const isReady = ({ rigs }: Assessment): boolean =>
  rigs.length > 0 &&
  rigs.every((rig) => rig.canRide && rig.seats.every((seat) => seat.fit || seat.state === 'unfilled'))
