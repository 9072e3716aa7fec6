// A second proposal, apart from the spares: members change seats where that lets more rigs ride. Who is qualified for what no book
// here says, so it proposes and the officer decides.
import { listed } from '../count.ts'
import { assess, settingOf, wearerAt, type RigAssessment, type SeatAssessment } from '../assess.ts'
import { SETUP, type Unsigned } from '../commands.ts'
import type { Id } from '../gear.ts'
import { imagine } from '../imagine.ts'
import { isHeldBySeat, KINDS } from '../kinds.ts'
import type { Policy } from '../policy/shape.ts'
import { conditionAt } from '../rules/judge.ts'
import { isFit } from '../rules/verdict.ts'
import { assigned, holderOf, type Seat, type State } from '../state.ts'
import type { Instant } from '../time.ts'

export interface Move {
  member: Id
  name: string
  from: Id
  to: Id
}
export interface Moves {
  words: string
  moves: Move[]
  commands: Extract<Unsigned, { do: 'clear-seat' | 'seat-member' }>[]
}

/** A rig with who could ride on it: `ready` seats have an air pack and a cylinder that are fit. */
interface Crew {
  rig: RigAssessment
  needs: number
  ready: Seat[]
  isPossible: boolean
}

/** The most rigs that can ride when anybody fit may sit anywhere, and no rig that can ride is stripped; null when none is won. */
export function movesOf(state: State, policy: Policy, at: Instant): Moves | null {
  if (policy.moves === 'never' || !state.tour) return null
  const { rigs } = assess(state, policy, at)
  const crews = rigs.map((rig) => crewOf(state, policy, at, rig))
  const fit = rigs.flatMap((rig) => rig.seats.filter(isPersonFit))
  const riding = crews.filter(({ rig }) => rig.canRide)
  // The rigs that need the fewest first: so as many as can be are won.
  let free = fit.length - riding.reduce((sum, each) => sum + each.needs, 0)
  const won = crews
    .filter(({ rig, isPossible }) => !rig.canRide && isPossible)
    .toSorted((a, b) => a.needs - b.needs || b.rig.fit - a.rig.fit)
    .filter(({ needs }) => needs <= free && (free -= needs) >= 0)
  if (!won.length) return null
  const moves = share(state, crews, won)
  const commands = commandsOf(state, moves)
  const by = state.tour.officer ?? SETUP
  const after = imagine(
    state,
    commands.map((each) => ({ ...each, by })),
    at,
  )
  if ('refused' in after) return null
  const ride = assess(after.state, policy, at).rigs.filter((each) => each.canRide)
  const more = ride.filter((each) => !rigs.find(({ id }) => id === each.id)!.canRide)
  if (ride.length <= riding.length) return null
  const names = listed(more.map((each) => each.name))
  return {
    words: `${moves.length === 1 ? 'One change of seat lets' : `${moves.length} changes of seat let`} ${names} ride too, if whoever moves is qualified for it: that is the officer's to decide.`,
    moves,
    commands,
  }
}

const isPersonFit = ({ seat, places }: SeatAssessment): boolean =>
  seat.member !== null && places.every((each) => isHeldBySeat(each.kind) || isFit(each.state))

function crewOf(state: State, policy: Policy, at: Instant, rig: RigAssessment): Crew {
  const setting = settingOf(state, policy, at)
  const ready = rig.seats.flatMap(({ seat }) => {
    const wearer = wearerAt(state, seat)
    const isReady = KINDS.filter(isHeldBySeat).every((kind) =>
      isFit(conditionAt(setting, wearer, kind, assigned(state, holderOf(seat, kind), kind))),
    )
    return isReady ? seat : []
  })
  const critical = rig.seats.filter(({ seat }) => seat.critical)
  const needs = Math.max(rig.minimum, critical.length)
  const isPossible = critical.every(({ seat }) => ready.includes(seat)) && ready.length >= needs
  return { rig, needs, ready, isPossible }
}

/** Critical seats first, then those where somebody fit sits already: whoever sits well stays. */
function seatsToFill({ rig, needs, ready }: Crew): SeatAssessment[] {
  const usable = rig.seats.filter(({ seat }) => ready.includes(seat))
  const order = (each: SeatAssessment): number => (each.seat.critical ? 0 : each.fit ? 1 : 2)
  return usable.toSorted((a, b) => order(a) - order(b)).slice(0, needs)
}

function share(state: State, crews: readonly Crew[], won: readonly Crew[]): Move[] {
  const wanted = new Map(won.map((crew) => [crew, seatsToFill(crew)]))
  /** Who can be spared where they sit. */
  const spared = crews.flatMap((crew) => {
    const stays = wanted.get(crew) ?? (crew.rig.canRide ? keptOn(crew) : [])
    return crew.rig.seats.filter((each) => isPersonFit(each) && !stays.includes(each))
  })
  const moves: Move[] = []
  for (const [crew, seats] of wanted) {
    for (const { seat, fit } of seats) {
      if (fit) continue
      // Somebody of the same rig before somebody of another, and of a rig that stays in before one that rides.
      const order = (each: SeatAssessment): number => {
        const rig = crews.find((one) => one.rig.seats.includes(each))!
        return rig === crew ? 0 : rig.rig.canRide ? 2 : 1
      }
      const [mover] = spared.toSorted((a, b) => order(a) - order(b))
      if (!mover) return []
      spared.splice(spared.indexOf(mover), 1)
      const member = mover.seat.member!
      moves.push({
        member,
        name: state.members.get(member)?.name ?? member,
        from: mover.seat.id,
        to: seat.id,
      })
    }
  }
  return moves
}

/** A rig that rides keeps its critical seats and as many more as it needs. */
const keptOn = ({ rig, needs }: Crew): SeatAssessment[] =>
  rig.seats
    .filter((each) => each.fit)
    .toSorted((a, b) => Number(b.seat.critical) - Number(a.seat.critical))
    .slice(0, needs)

/** Everybody concerned gets up, then sits down: whoever sat where somebody goes takes the seat that was left. */
function commandsOf(state: State, moves: readonly Move[]): Moves['commands'] {
  const sitsAt = (seat: Id): Id | null => state.seats.get(seat)!.member
  const filled = moves.flatMap(({ from, to }) => [from, to]).filter((seat) => sitsAt(seat) !== null)
  return [
    ...[...new Set(filled)].map((seat) => ({ do: 'clear-seat' as const, seat })),
    ...moves.flatMap(({ member, from, to }) => {
      const other = sitsAt(to)
      return [
        { do: 'seat-member' as const, seat: to, member },
        ...(other === null ? [] : [{ do: 'seat-member' as const, seat: from, member: other }]),
      ]
    }),
  ]
}
