// Shows each rule that looks at an element with its arithmetic: no verdict without the day it counts from. It judges nothing anew.
import { assessSeat, settingOf } from './assess.ts'
import type { Id } from './gear.ts'
import { plain } from './kinds.ts'
import { sayLimit } from './policy/in-force.ts'
import type { Condition, Policy, Rule } from './policy/shape.ts'
import { judgeElement } from './rules/judge.ts'
import { byWeight, type Verdict } from './rules/verdict.ts'
import { isHere, type Element, type Seat, type State } from './state.ts'
import { sayDate, sayDuration, type Instant } from './time.ts'

export interface Explanation {
  rule: Rule
  verdict: Verdict
  /** `counts from 1 Mar 2016 (made 2016-03)`, `limit 10 years`, `falls on 1 Mar 2026`, as far as there are such. */
  arithmetic: string[]
  /** What passing the limit means. */
  past: Condition
  /** Document, edition, clause and standing. */
  source: string
  /** How the department's rule is looser, or that it is switched off. */
  looser?: string
}

/** The seat an element is worn at just now: rules about fit and assembly look at its wearer. */
function seatOf(state: State, element: Element): Seat | undefined {
  const standIn = [...state.standIns.values()].find((each) => each.element === element.id)
  const holder = standIn?.holder ?? element.issuedTo
  if (holder === null || !isHere(element)) return undefined
  return state.seats.get(holder) ?? state.seats.get(state.members.get(holder)?.seat ?? '')
}

function verdictsOn(state: State, policy: Policy, at: Instant, element: Element): readonly Verdict[] {
  const setting = settingOf(state, policy, at)
  const seat = seatOf(state, element)
  const place =
    seat && assessSeat(state, setting, seat).places.find((each) => each.element?.id === element.id)
  return place ? place.verdicts : judgeElement(element, setting).toSorted(byWeight)
}

const sayArithmetic = (rule: Rule, { since, limit, on }: Verdict): string[] => [
  ...(since ? [`counts from ${sayDate(since.on)} (${since.what})`] : []),
  ...(rule.limit === undefined ? [] : [`limit ${sayLimit(limit ?? rule.limit)}`]),
  ...(on ? [`falls on ${sayDate(on)}`] : []),
  ...(rule.warn ? [`warns ${sayDuration(rule.warn)} ahead`] : []),
]

export const saySource = ({ source: { document, edition, clause, standing } }: Rule): string =>
  `${[document, edition, clause].filter(Boolean).join(', ')} (${standing})`

/** Every rule that looks at an element at an instant, worst verdict first; none for an element that is not known. */
export function explain(state: State, policy: Policy, at: Instant, id: Id): Explanation[] {
  const element = state.elements.get(id)
  if (!element || element.custody.where === 'retired') return []
  const rules = new Map([
    ...policy.rules.map(({ rule, looser }) => [rule.id, { rule, looser }] as const),
    ...policy.off.map(({ rule, reason }) => [rule.id, { rule, looser: `switched off: ${reason}` }] as const),
  ])
  return verdictsOn(state, policy, at, element).map((verdict) => {
    const { rule, looser } = rules.get(verdict.rule)!
    return {
      rule,
      verdict,
      arithmetic: sayArithmetic(rule, verdict),
      past: rule.past,
      source: saySource(rule),
      ...(looser !== undefined && { looser }),
    }
  })
}

/** One explanation in a few lines, the verdict first. */
export function sayExplanation({ rule, verdict, arithmetic, past, source, looser }: Explanation): string[] {
  const base = verdict.loosened ? `; under the published base it would be ${plain(verdict.loosened)}` : ''
  const counting = arithmetic.length ? `${arithmetic.join(', ')}; ` : ''
  return [
    `${plain(rule.id)}: ${plain(verdict.state)}, ${verdict.says}${base}.`,
    `  ${counting}past it: ${plain(past)} (${verdict.matter}).`,
    `  ${rule.why}`,
    `  Source: ${source}.`,
    ...(looser === undefined ? [] : [`  Looser than the published base: ${looser.replace(/\.$/, '')}.`]),
  ]
}
