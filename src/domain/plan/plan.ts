// The plan as the officer reads it: what goes in where and why, what still cannot ride and why, and each rig before and after.
// It proposes; every step is an ordinary swap that somebody gives.
import type { RigAssessment, SeatAssessment } from '../assess.ts'
import { sayRig } from '../board.ts'
import type { Unsigned } from '../commands.ts'
import type { Rack } from '../fit/rack.ts'
import { tieAcross } from '../fit/ties.ts'
import type { Id } from '../gear.ts'
import type { Kind } from '../kinds.ts'
import type { Policy } from '../policy/shape.ts'
import { assigned, holderOf, type State } from '../state.ts'
import type { Instant } from '../time.ts'
import { movesOf, type Moves } from './moves.ts'
import { sayGoals, type SaidGoal } from './goals.ts'
import { isUnfit, type Gap, type Problem, type Solved } from './model.ts'
import { isServed } from './check.ts'
import { brokenPromises, carryOut, unproven } from './promise.ts'
import { sayShortages } from './why.ts'
import { sayDoubt, sayPlan } from './words.ts'
import { sayBundle, sayChoice } from './choice.ts'

type SwapCommand = Extract<Unsigned, { do: 'swap' }>

export interface PlannedSwap {
  kinds: Kind[]
  in: Id[]
  out: Id[]
  /** `coat shell C-1900 with coat liner L-1900` */
  what: string
  /** Why this one. */
  why: string[]
  commands: SwapCommand[]
}
export interface PlannedSeat {
  seat: Id
  position: string
  critical: boolean
  rig: Id
  member: Id
  name: string
  becomesFit: boolean
  swaps: PlannedSwap[]
  /** Why it stays unfit: each a shortage that can be checked by hand. */
  shortages: string[]
}
interface RigSide {
  canRide: boolean
  fit: number
  words: string
}
export interface PlannedRig {
  id: Id
  name: string
  minimum: number
  before: RigSide
  after: RigSide
}
export interface Plan {
  at: Instant
  /** The event it stands on: a newer one makes it old. */
  seq: number
  words: string
  rigs: PlannedRig[]
  /** Every filled riding position that is unfit, in the station's order. */
  seats: PlannedSeat[]
  goals: SaidGoal[]
  isProven: boolean
  /** Apart from the spares, and as it stands once they are put in. */
  moves: Moves | null
}

/** Why there is nothing to plan, in a sentence, and whether all is well so; a station like that needs no solver. */
export function nothingToPlan(
  state: State,
  { assessment }: Pick<Problem, 'assessment'>,
): { words: string; isWell: boolean } | undefined {
  const no = (words: string): { words: string; isWell: boolean } => ({ words, isWell: false })
  if (!state.rigs.size) return no('This station has no rig yet, so there is nothing to plan.')
  if (!state.tour) return no('No tour is open, so no spare can be put in. Open the tour first.')
  const filled = assessment.rigs.flatMap((rig) => rig.seats.filter(({ seat }) => seat.member !== null))
  if (!filled.length) return no('Nobody is seated, so there is nothing to plan.')
  if (filled.some(isUnfit)) return undefined
  return { words: 'Everybody who is seated is fit to ride. There is nothing to plan.', isWell: true }
}

/** A plan that changes nothing, and why. */
export const unplanned = (state: State, policy: Policy, at: Instant, words: string): Plan => ({
  at,
  seq: state.seq,
  words,
  rigs: [],
  seats: [],
  goals: [],
  isProven: true,
  moves: movesOf(state, policy, at),
})

export function planOf(state: State, policy: Policy, at: Instant, problem: Problem, solved: Solved): Plan {
  const { assessment, model, rack } = problem
  const seatsBy = (by: Solved, broken: ReadonlyMap<Id, string>): PlannedSeat[] =>
    assessment.rigs.flatMap((rig) =>
      rig.seats.filter(isUnfit).map((seat): PlannedSeat => {
        const { id, position, critical, member } = seat.seat
        const isPlanned = isChosen(problem, by, seat)
        const whyNot = broken.get(id)
        const why = (): string[] => (whyNot ? [whyNot] : sayShortages(state, policy, at, problem, by, seat))
        return {
          seat: id,
          position,
          critical,
          rig: rig.id,
          member: member!,
          name: state.members.get(member!)?.name ?? member!,
          becomesFit: isPlanned,
          swaps: isPlanned ? swapsAt(state, problem, by, seat) : [],
          shortages: isPlanned ? [] : why(),
        }
      }),
    )
  const promised = seatsBy(solved, new Map())
  const asPromised = carryOut(state, policy, at, promised)
  const broken = brokenPromises(asPromised.assessment, promised)
  const tie = tieAcross(rack.ties)
  const kept = tie || broken.size ? unproven(problem, solved, broken) : solved
  const seats = broken.size ? seatsBy(kept, broken) : promised
  const { after, assessment: then } = broken.size ? carryOut(state, policy, at, seats) : asPromised
  const rigs = then.rigs.map((rig, index): PlannedRig => {
    const before = assessment.rigs[index]!
    return { id: rig.id, name: rig.name, minimum: rig.minimum, before: sideOf(before), after: sideOf(rig) }
  })
  const isProven = kept.stages.every((each) => each.isProven)
  return {
    at,
    seq: state.seq,
    words: sayPlan(seats, rigs, sayDoubt(isProven, tie, broken.size > 0), releasedBy(seats, after, rack)),
    rigs,
    seats,
    goals: sayGoals(model, kept.stages),
    isProven,
    moves: movesOf(after, policy, at),
  }
}

/** Spares that come off and could serve somebody else: gear is not used twice in one plan. */
const releasedBy = (seats: readonly PlannedSeat[], after: State, rack: Rack): Id[] =>
  seats
    .flatMap((seat) => seat.swaps.flatMap((swap) => swap.out))
    .filter((id) => {
      const element = after.elements.get(id)!
      return element.issuedTo === null && element.custody.where === 'rack' && rack.alone(element).isFit
    })

const isChosen = ({ model, modelSeats }: Problem, { choice }: Solved, seat: SeatAssessment): boolean => {
  const index = modelSeats.indexOf(seat)
  return index >= 0 && isServed(model, choice, index)
}

const sideOf = (rig: RigAssessment): RigSide => ({ canRide: rig.canRide, fit: rig.fit, words: sayRig(rig) })

function swapsAt(state: State, problem: Problem, solved: Solved, seat: SeatAssessment): PlannedSwap[] {
  return problem.modelGaps.flatMap((gap, index) => {
    const option = solved.choice[index]
    if (gap.seat !== seat || option === null || option === undefined) return []
    const bundle = problem.modelBundles[option]!
    const commands = bundle.elements.map(({ id, kind }): SwapCommand => {
      const out = assigned(state, holderOf(seat.seat, kind), kind)
      const reason = reasonAt(gap, kind) ?? `one assembly with ${bundle.elements[0].id}`
      return { do: 'swap', seat: seat.seat.id, in: id, ...(out && { out: out.id }), reason }
    })
    return {
      kinds: bundle.elements.map((each) => each.kind),
      in: bundle.elements.map((each) => each.id),
      out: commands.flatMap((each) => each.out ?? []),
      what: sayBundle(bundle.elements),
      why: sayChoice(state, problem, solved, index),
      commands,
    }
  })
}

/** What is wrong in this place, as the log is to say it. */
function reasonAt({ seat }: Gap, kind: Kind): string | undefined {
  const found = seat.places.find((each) => each.kind === kind)
  return found && found.state !== 'ready' ? found.verdicts[0]?.says : undefined
}
