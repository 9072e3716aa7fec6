// What was judged when the books were kept, for the first frame of the next run. It must never be taken where the books, the policy or the day may be others.
import {
  assess,
  assessRigs,
  assessSeat,
  isSameSetting,
  settingOf,
  type Assessment,
  type SeatAssessment,
} from '../assess.ts'
import { placesAt } from '../ensemble.ts'
import type { Id } from '../gear.ts'
import { policyOf } from '../policy/in-force.ts'
import type { Condition } from '../policy/shape.ts'
import { tourDays } from '../rotation.ts'
import { isFit, type Setting } from '../rules/verdict.ts'
import type { Seat, State } from '../state.ts'
import { Table } from '../table.ts'
import { addDays, dateOf, type Instant, type LocalDate } from '../time.ts'

/** One riding position that somebody rides. */
interface KeptSeat {
  /** What it comes to on each of the days. */
  states: Condition[]
  /** It has answered, and has other gear now. */
  changed: boolean
  /** Those whose records this was judged from. */
  elements: Id[]
}

export interface KeptVerdicts {
  days: LocalDate[]
  seats: [Id, KeptSeat][]
}

/** With the books as they were. */
export interface FoundVerdicts {
  books: State
  verdicts: KeptVerdicts
}

/** For today and each day until whoever comes on today is relieved: then the next officer looks. */
export function verdictsToKeep(state: State, at: Instant): KeptVerdicts {
  const policy = policyOf(state)
  const count = 1 + tourDays(state.station?.rotation)
  const days = Array.from({ length: count }, (_, later) => addDays(dateOf(at), later))
  // A rule must not look at the time of day, so any will do.
  const judged = days.map((day) => assess(state, policy, day + at.slice(day.length)))
  const [first, ...later] = judged.map(({ rigs }) => rigs.flatMap((rig) => rig.seats))
  const seats = first!.flatMap(({ seat, state: today, changed, places }, index): [Id, KeptSeat][] => {
    if (today === 'unfilled') return []
    const states = [today, ...later.map((day) => day[index]!.state as Condition)]
    return [[seat.id, { states, changed, elements: places.flatMap(({ element }) => element?.id ?? []) }]]
  })
  return { days, seats }
}

/**
 * The assessment as it was kept, judged now where an event has touched the books since; undefined where it was kept for
 * other days, another tour or another policy.
 */
export function assessKept(
  { books, verdicts }: FoundVerdicts,
  state: State,
  at: Instant,
): Assessment | undefined {
  const policy = policyOf(state)
  const setting = settingOf(state, policy, at)
  const day = verdicts.days.indexOf(setting.today)
  if (day === -1 || !isSameSetting(settingOf(books, policyOf(books), at), setting)) return undefined
  const known = new Map(verdicts.seats)
  const rigs = assessRigs(state, (seat) => {
    const kept = known.get(seat.id)
    return kept && isUntouched(books, state, seat, kept)
      ? new BelievedSeat(state, setting, seat, kept.states[day]!, kept.changed)
      : assessSeat(state, setting, seat)
  })
  return { at, policy, rigs }
}

/** Whether all that it was judged from is as it was. */
const isUntouched = (books: State, state: State, seat: Seat, { elements }: KeptSeat): boolean =>
  books.seats.get(seat.id) === seat &&
  books.tour?.answers.get(seat.id) === state.tour?.answers.get(seat.id) &&
  (seat.member === null || holdSame(books.members, state.members, seat.member)) &&
  placesAt(seat).every(
    (key) =>
      key === undefined ||
      (holdSame(books.issued, state.issued, key) && books.standIns.get(key) === state.standIns.get(key)),
  ) &&
  elements.every((id) => holdSame(books.elements, state.elements, id))

/** What is not known to be the same is not. */
const holdSame = <V>(one: Map<Id, V>, other: Map<Id, V>, key: string): boolean =>
  one instanceof Table && other instanceof Table && (one as Table<V>).holdsAsIn(other as Table<V>, key)

/** Its condition as it was kept; why it is so is judged when somebody asks. */
class BelievedSeat implements SeatAssessment {
  readonly seat: Seat
  readonly state: Condition
  readonly fit: boolean
  readonly answered: boolean
  readonly changed: boolean
  readonly #judge: () => SeatAssessment
  #judged: SeatAssessment | undefined

  constructor(state: State, setting: Setting, seat: Seat, condition: Condition, changed: boolean) {
    this.seat = seat
    this.state = condition
    this.fit = isFit(condition)
    this.answered = state.tour?.answers.has(seat.id) ?? false
    this.changed = changed
    this.#judge = () => (this.#judged ??= assessSeat(state, setting, seat))
  }

  get places() {
    return this.#judge().places
  }

  get reasons() {
    return this.#judge().reasons
  }
}
