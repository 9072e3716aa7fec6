// Why a spare goes where the plan puts it; it says what was compared and never more.
import { listed } from '../count.ts'
import { wearerAt } from '../assess.ts'
import { keyOf } from '../fit/bundles.ts'
import { sizeWanted } from '../fit/try-on.ts'
import type { Id } from '../gear.ts'
import { wordOf } from '../kinds.ts'
import type { Policy } from '../policy/shape.ts'
import { isFit } from '../rules/verdict.ts'
import type { Element, State } from '../state.ts'
import { sayDate } from '../time.ts'
import type { Gap, Problem, Solved } from './model.ts'

/** `coat shell C-1900 with coat liner L-1900 and drag rescue device D-1900` */
export function sayBundle([first, ...layers]: readonly [Element, ...Element[]]): string {
  const name = ({ kind, id }: Element): string => `${wordOf(kind)} ${id}`
  return layers.length ? `${name(first)} with ${listed(layers.map(name))}` : name(first)
}

export function sayChoice(state: State, problem: Problem, { choice }: Solved, at: number): string[] {
  const { modelGaps, modelBundles, model, rack } = problem
  const { seat, bundles } = modelGaps[at]!
  const bundle = modelBundles[choice[at]!]!
  const sets = new Set(bundles.map(keyOf)).size
  const wearer = wearerAt(state, seat.seat)
  const measured = bundle.elements.find((each) => sizeWanted(wearer, each.kind) !== undefined)
  const fit = measured
    ? bundle.exact
      ? [`exact size ${measured.size}`]
      : [`size ${measured.size} for ${sizeWanted(wearer, measured.kind)}, larger but allowed`]
    : []
  const exacts = bundle.exact ? [] : model.gaps[at]!.options.filter((option) => modelBundles[option]!.exact)
  const takers = exacts.flatMap((option) => {
    const { uses } = model.options[option]!
    return choice.flatMap((other, gap) =>
      other !== null && gap !== at && model.options[other]!.uses.some((spare) => uses.includes(spare))
        ? (state.members.get(modelGaps[gap]!.seat.seat.member!)?.name ?? [])
        : [],
    )
  })
  const unread = unreadAt(rack.settings[0]!.policy, modelGaps[at]!)
  return [
    ...fit,
    sets === 1 ? 'the only one that fits' : `1 of ${sets} that fit`,
    ...(takers.length ? [`the exact size goes to ${[...new Set(takers)].join(', ')}`] : []),
    ...(unread ? [`reading the gauge of ${unread} may spare this swap`] : []),
    ...(bundle.lasts === null ? [] : [`in date to ${sayDate(bundle.lasts)}`]),
  ]
}

/** The element that is out only because its gauge has not been read: a reading may do what a swap would. */
export function unreadAt({ rules }: Policy, { seat, family }: Gap): Id | undefined {
  const wrong = seat.reasons.filter((each) => family.includes(each.kind) && !isFit(each.state))
  const isReading = (id: string): boolean =>
    rules.some(({ rule }) => rule.id === id && 'reading' in rule.watch)
  const isUnread = wrong.every(({ state, rule }) => state === 'unproven' && isReading(rule))
  return isUnread ? (wrong[0]?.element ?? undefined) : undefined
}
