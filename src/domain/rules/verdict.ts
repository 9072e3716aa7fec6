// What a rule says of one element, with its arithmetic; a verdict without the date it counts from is never `ready` by default.
import type { Id, Matter } from '../gear.ts'
import { capital } from '../decide/decision.ts'
import { wordOf, type Kind } from '../kinds.ts'
import { CONDITIONS, type Condition, type Policy, type Rule, type RuleInForce } from '../policy/shape.ts'
import type { Element, Member, Seat } from '../state.ts'
import { byDate, type Duration, type Instant, type LocalDate } from '../time.ts'

export interface Verdict {
  element: Id | null
  kind: Kind
  state: Condition
  matter: Matter
  rule: string
  /** One sentence without the element's name: `ten years from manufacture ended on 1 Mar 2026`. */
  says: string
  /** The day the limit falls, where there is one. */
  on: LocalDate | null
  /** The last day on which it may still be worn, where there is a limit that falls. */
  lastGood?: LocalDate
  /** The day it counts from, and what happened then. */
  since?: { on: LocalDate; what: string }
  /** The limit that was counted, where there is one. */
  limit?: Duration
  /** What the published base would have said, where the department's looser rule says better. */
  loosened?: Condition
}

/** What every rule may look at besides the element. All dates are of the station's time zone. */
export interface Setting {
  policy: Policy
  at: Instant
  today: LocalDate
  /** The last day on which the open tour is still at work, or today. */
  until: LocalDate
  /** A tour is open, and its last day is not over. */
  isTourOpen: boolean
  /** When the newest tour was opened, be it open or handed over: no reading before it counts. */
  tourSince: Instant | undefined
}

/** Who would wear it, and with what: rules about fit and assembly look at these. */
export interface Wearer {
  seat: Seat
  member: Member | null
  parts: ReadonlyMap<Kind, Element>
}

/** What a verdict says beyond the condition it finds. */
export type Told = { says: string } & Partial<Pick<Verdict, 'on' | 'lastGood' | 'since' | 'limit' | 'matter'>>

/** What becomes of what a judge finds; `tell` makes the words and dates, and is asked only where somebody reads them. */
export type Make<T> = (
  rule: Rule,
  /** An element, or the place that one is missing from. */
  place: { id: Id | null; kind: Kind },
  state: Condition,
  tell: () => Told,
) => T

/** Looks at one element by one rule; undefined when the rule has nothing to look at here. */
export type Judge = <T>(
  rule: Rule,
  element: Element,
  setting: Setting,
  wearer: Wearer | undefined,
  make: Make<T>,
) => T | undefined

/** The whole verdict, in words. */
export const verdict: Make<Verdict> = (rule, { id, kind }, state, tell) => {
  const { says, ...more } = tell()
  return {
    element: id,
    kind,
    state,
    matter: rule.matter,
    rule: rule.id,
    says: state === 'ready' ? says : withAdvice(rule, says),
    on: null,
    ...more,
  }
}

/** The bare condition: most of a department is ready, and nobody reads why. */
export const bare: Make<Condition> = (_rule, _place, state) => state

/** What to do about it, and whether the rule is confirmed: nobody is to be grounded by a figure of unknown standing unawares. */
function withAdvice({ advice, limit, source }: Rule, says: string): string {
  const doubt = `this ${limit === undefined ? 'rule' : 'figure'} is not confirmed`
  return [says, advice, source.standing === 'from memory' ? doubt : undefined]
    .filter((part) => part !== undefined)
    .join('; ')
}

export const severity = (condition: Condition): number => CONDITIONS.indexOf(condition)
export const worse = (a: Condition, b: Condition): Condition => (severity(a) <= severity(b) ? a : b)
export const worstOf = (verdicts: readonly { state: Condition }[]): Condition =>
  verdicts.reduce<Condition>((worst, each) => worse(worst, each.state), 'ready')

/** Worst first; safety before compliance; then the sooner date. */
export const byWeight = (a: Verdict, b: Verdict): number =>
  severity(a.state) - severity(b.state) ||
  (a.matter === b.matter ? 0 : a.matter === 'safety' ? -1 : 1) ||
  byDate(a.on ?? '9999', b.on ?? '9999')

/** Fit to ride: none of the first four states. */
export const isFit = (condition: Condition): boolean => condition === 'due' || condition === 'ready'

/** The verdict as a sentence that stands alone: `Coat shell C-1041: tagged, torn seam.` */
export const sayVerdict = ({ element, kind, says }: Verdict): string =>
  `${capital(wordOf(kind))}${element ? ` ${element}` : ''}: ${says}.`

export const isLooser = (policy: Policy, rule: string): boolean =>
  policy.rules.some((each: RuleInForce) => each.rule.id === rule && each.looser !== undefined)
