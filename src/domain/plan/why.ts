// Why a riding position stays unfit whatever is done with the rack, so that a person can check it; it must never guess.
import type { SeatAssessment } from '../assess.ts'
import { isHeldBySeat, KINDS, plain, wordOf, type Kind } from '../kinds.ts'
import type { Policy } from '../policy/shape.ts'
import { byWeight, isFit, sayVerdict, severity, type Verdict } from '../rules/verdict.ts'
import { rankSpares } from '../spares.ts'
import type { State } from '../state.ts'
import type { Instant } from '../time.ts'
import { unreadAt } from './choice.ts'
import { shortageOf } from './shortage.ts'
import type { Gap, Problem, Solved } from './model.ts'

export function sayShortages(
  state: State,
  policy: Policy,
  at: Instant,
  problem: Problem,
  solved: Solved,
  seat: SeatAssessment,
): string[] {
  const index = problem.modelSeats.indexOf(seat)
  if (index < 0) {
    const gaps = problem.gaps.filter((gap) => gap.seat === seat)
    const none = gaps.filter((gap) => !gap.bundles.length)
    const others = gaps.filter((gap) => gap.bundles.length)
    return [...none.map((gap) => sayNone(state, policy, at, gap)), ...sayBesides(others)]
  }
  const short = shortageOf(problem.model, solved.choice, index)
  return [
    short
      ? sayShort(state, problem, short)
      : 'The time was up before it was settled whether it could be made fit.',
  ]
}

const NEAREST = 2

/** What is wrong, the worst of it. */
function worstOf({ seat, family }: Gap): Verdict {
  const places = seat.places.filter((each) => family.includes(each.kind) && !isFit(each.state))
  const [worst] = places.toSorted((a, b) => severity(a.state) - severity(b.state))
  return worst!.verdicts.toSorted(byWeight)[0]!
}

/** Spares would mend these; the riding position stays unfit for something else. */
function sayBesides(gaps: readonly Gap[]): string[] {
  const said = gaps
    .map(worstOf)
    .map(({ element, kind, state }) => [wordOf(kind), element, plain(state)].filter(Boolean).join(' '))
  return said.length ? [`Besides: ${said.join(', ')}. Spares for that alone make nobody fit.`] : []
}

/** Nothing on the rack mends it: what is wrong, and the nearest spares with what is against each. */
function sayNone(state: State, policy: Policy, at: Instant, gap: Gap): string {
  const reason = worstOf(gap)
  const { kind } = reason
  const unread = unreadAt(policy, gap)
  const spares = rankSpares(state, policy, at, gap.seat.seat.id, kind)
  const word = wordOf(kind)
  const nearest = spares
    .slice(0, NEAREST)
    .map(({ fits, against, elements: [first] }) =>
      fits
        ? `${first.id} fits now but not to the end of the tour`
        : (against[0] ?? `${first.id} does not mend it`).replace(/\.$/, ''),
    )
  const more = spares.length - nearest.length
  const rack = spares.length
    ? `No spare ${word} will do. ${nearest.join('. ')}.${more > 0 ? ` And ${more} more.` : ''}`
    : `The rack has no spare ${word}.`
  return `${sayVerdict(reason)}${unread ? ' Reading the gauge may mend it.' : ''} ${rack}`
}

/** `2 members (A. Varga, B. Okoro) can wear only coat shell C-1900.` */
function sayShort(
  state: State,
  { model, modelGaps }: Problem,
  short: { gaps: number[]; spares: number[]; mends: number | null },
): string {
  const gaps = short.gaps.map((gap) => modelGaps[gap]!)
  const [kind] = gaps[0]!.family
  const isOfSeats = isHeldBySeat(kind!)
  const names = gaps.map(({ seat: { seat } }) =>
    isOfSeats ? seat.id : (state.members.get(seat.member!)?.name ?? seat.member!),
  )
  const spares = short.spares.map((spare) => state.elements.get(model.spares[spare]!)!)
  const first = spares.filter((each) => each.kind === mainKind(spares.map((one) => one.kind)))
  const ids = first.map((each) => each.id).join(', ')
  const who = `${names.length} ${isOfSeats ? 'riding positions' : 'members'} (${names.join(', ')})`
  const can = isOfSeats ? 'can take' : 'can wear'
  const word = wordOf(first[0]!.kind)
  if (short.mends === null) {
    const all = spares.map((each) => each.id).join(', ')
    return `${who} ${can} only what is left of these, and no way of sharing them out serves all: ${all}.`
  }
  return short.mends === 1
    ? `${who} ${can} only ${word} ${ids}.`
    : `${who} ${can} only ${short.mends} between them: ${word} ${ids}.`
}

/** The kind that names a whole assembly: its first layer. */
const mainKind = (kinds: readonly Kind[]): Kind => KINDS.find((kind) => kinds.includes(kind))!
