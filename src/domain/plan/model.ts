// The best use of the rack as numbers only: what a solver is given and gives back. It must hold no rule and no word for the reader.
import { assess, wearerAt, type Assessment, type SeatAssessment } from '../assess.ts'
import { bundlesFor, FAMILIES, type Bundle } from '../fit/bundles.ts'
import { rackAt, type Rack } from '../fit/rack.ts'
import type { Id } from '../gear.ts'
import { KINDS, type Kind } from '../kinds.ts'
import type { Policy } from '../policy/shape.ts'
import { isFit } from '../rules/verdict.ts'
import type { Element, State } from '../state.ts'
import { daysBetween, type Instant, type LocalDate } from '../time.ts'

/** A rig that cannot ride as it stands, but could: it needs so many more fit, and each of these critical positions. */
interface ModelRig {
  needs: number
  critical: number[]
  seats: number[]
}
/** A riding position that is unfit, with every family of layers that keeps it so. */
interface ModelSeat {
  critical: boolean
  gaps: number[]
}
/** One way to mend one gap. */
export interface ModelOption {
  gap: number
  /** The spares it takes, by their place in `spares`. */
  uses: number[]
  inexact: 0 | 1
  swaps: number
  /** Days until the soonest limit of it falls, up to a year. */
  days: number
  /** How rare its size is on the rack, up to `RAREST`. */
  rarity: number
}
export interface PlanModel {
  rigs: ModelRig[]
  seats: ModelSeat[]
  gaps: { seat: number; options: number[] }[]
  options: ModelOption[]
  spares: Id[]
}

/** What is made the most of, in this order. */
export const GOALS = ['rigs', 'critical', 'seats', 'inexact', 'swaps', 'days', 'rarity', 'order'] as const
export type Goal = (typeof GOALS)[number]

/** The value of a goal that was reached, and what is proven that no plan can better. */
export interface Stage {
  goal: Goal
  value: number
  bound: number
  isProven: boolean
}
/** For each gap the option taken, or none. */
export type Choice = readonly (number | null)[]
export interface Solved {
  choice: Choice
  stages: Stage[]
}

/** A family at a riding position that keeps it from riding, and what would mend it. */
export interface Gap {
  seat: SeatAssessment
  family: readonly Kind[]
  bundles: readonly Bundle[]
}
export interface Problem {
  assessment: Assessment
  rack: Rack
  /** Of every filled riding position that is unfit. */
  gaps: Gap[]
  model: PlanModel
  /** What the numbers of the model stand for. */
  modelSeats: SeatAssessment[]
  modelGaps: Gap[]
  modelBundles: Bundle[]
}

const YEAR = 365
/** More than so many alike are not rare. */
const RAREST = 20

export function problemOf(state: State, policy: Policy, at: Instant): Problem {
  const assessment = assess(state, policy, at)
  const rack = rackAt(state, policy, at)
  const unfit = assessment.rigs.flatMap((rig) => rig.seats.filter((each) => isUnfit(each)))
  const gaps = unfit.flatMap((seat) => gapsOf(rack, seat))
  const mendable = unfit.filter((seat) => gaps.every((gap) => gap.seat !== seat || gap.bundles.length))
  const modelGaps = gaps.filter((gap) => mendable.includes(gap.seat))
  const spares = [...new Set(modelGaps.flatMap((gap) => gap.bundles.flatMap(idsIn)))].toSorted()
  const places = new Map(spares.map((id, index) => [id, index]))
  const rarity = rarityOf(rack)
  const daysTo = daysFrom(rack.settings[0]!.today)
  const modelBundles = modelGaps.flatMap((gap) => gap.bundles)
  const options = modelGaps.flatMap(({ bundles }, gap) =>
    bundles.map((bundle): ModelOption => ({
      gap,
      uses: idsIn(bundle).map((id) => places.get(id)!),
      inexact: bundle.exact ? 0 : 1,
      swaps: bundle.elements.length,
      days: bundle.lasts === null ? YEAR : daysTo(bundle.lasts),
      rarity: Math.max(...bundle.elements.map(rarity)),
    })),
  )
  const inGap = modelGaps.map((): number[] => [])
  options.forEach(({ gap }, index) => inGap[gap]!.push(index))
  const model: PlanModel = {
    rigs: rigsOf(assessment, mendable),
    seats: mendable.map((seat) => ({
      critical: seat.seat.critical,
      gaps: modelGaps.flatMap((gap, index) => (gap.seat === seat ? index : [])),
    })),
    gaps: modelGaps.map((gap, index) => ({ seat: mendable.indexOf(gap.seat), options: inGap[index]! })),
    options,
    spares,
  }
  return { assessment, rack, gaps, model, modelSeats: mendable, modelGaps, modelBundles }
}

export const isUnfit = ({ seat, fit }: SeatAssessment): boolean => seat.member !== null && !fit
const idsIn = ({ elements }: Bundle): Id[] => elements.map((each) => each.id)

function gapsOf(rack: Rack, seat: SeatAssessment): Gap[] {
  const wearer = wearerAt(rack.state, seat.seat)
  return FAMILIES.flatMap((family) => {
    const isGap = seat.places.some((each) => family.includes(each.kind) && !isFit(each.state))
    return isGap ? { seat, family, bundles: bundlesFor(rack, wearer, family) } : []
  })
}

/** Days from today, up to a year; few different days are asked for, and often. */
function daysFrom(today: LocalDate): (day: LocalDate) => number {
  const known = new Map<LocalDate, number>()
  return (day) => {
    const days = known.get(day) ?? Math.min(YEAR, daysBetween(today, day))
    known.set(day, days)
    return days
  }
}

/** The fewer of its kind and size are fit on the rack, the rarer. */
function rarityOf({ spares }: Rack): (element: Element) => number {
  const key = ({ kind, size }: Element): string => `${kind} ${size?.toUpperCase() ?? ''}`
  const all = KINDS.flatMap(spares)
  const alike = new Map<string, number>()
  for (const each of all) alike.set(key(each), (alike.get(key(each)) ?? 0) + 1)
  const rarity = new Map(all.map((each) => [each, Math.max(0, RAREST - alike.get(key(each))!)]))
  // A second set is its member's own, and no rarer for being used.
  return (element) => rarity.get(element) ?? 0
}

/** The rigs whose riding hangs on the plan, in the station's order. */
function rigsOf({ rigs }: Assessment, mendable: readonly SeatAssessment[]): ModelRig[] {
  return rigs.flatMap((rig) => {
    const seats = rig.seats.flatMap((each) => (mendable.includes(each) ? mendable.indexOf(each) : []))
    const needs = Math.max(0, rig.minimum - rig.fit)
    const critical = rig.criticalOpen.map((open) => mendable.findIndex(({ seat }) => seat === open))
    const isHopeless = critical.includes(-1) || needs > seats.length
    return rig.canRide || isHopeless ? [] : { needs, critical, seats }
  })
}
