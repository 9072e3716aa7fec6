// Puts each rule in force to an element; which rule looks at what is data, so nothing here knows a limit.
import type { Kind } from '../kinds.ts'
import type { Condition, Policy, Rule, RuleInForce } from '../policy/shape.ts'
import { isHere, type Element } from '../state.ts'
import { judgeMatch, judgePresence, judgeSize } from './composition.ts'
import { judgeExposure, judgePressure, judgeTags } from './conditions.ts'
import { judgeFitTest, judgeInterval, judgeLife } from './dates.ts'
import {
  bare,
  severity,
  verdict,
  worse,
  worstOf,
  type Judge,
  type Setting,
  type Verdict,
  type Wearer,
} from './verdict.ts'

/** Who looks at an element by a rule; undefined for a rule that is asked of the seat. */
export function judgeFor({ watch }: Rule): Judge | undefined {
  if ('since' in watch) {
    if (watch.since === 'manufactured') return judgeLife
    return watch.since === 'fit-test' ? judgeFitTest : judgeInterval
  }
  if ('exposure' in watch) return judgeExposure
  if ('matches' in watch) return judgeMatch
  if ('fits' in watch) return judgeSize
  if ('reading' in watch) return judgePressure
  if ('tagged' in watch) return judgeTags
  // What must be there is asked of the seat, not of an element.
  return undefined
}

const NONE: readonly Verdict[] = []

/** Ready by the department, and what the published base would have said instead. */
const readyOnly = (would: Verdict | undefined, because: string): readonly Verdict[] =>
  would && would.state !== 'ready'
    ? [{ ...would, state: 'ready', says: `${because}; ${would.says}`, loosened: would.state }]
    : NONE

interface OfKind {
  inForce: RuleInForce[]
  off: Rule[]
  /** The rules in force that are put to the element itself, each with who looks. */
  judged: { rule: Rule; judge: Judge }[]
  hasLooser: boolean
}
const ofKinds = new WeakMap<Policy, Map<Kind, OfKind>>()

/** The rules that name a kind: found once for a policy, asked for each of its elements. */
function rulesFor(policy: Policy, kind: Kind): OfKind {
  const known = ofKinds.get(policy) ?? new Map<Kind, OfKind>()
  ofKinds.set(policy, known)
  let found = known.get(kind)
  if (!found) {
    const names = (rule: Rule): boolean => rule.kinds.includes(kind)
    const inForce = policy.rules.filter(({ rule }) => names(rule))
    const off = policy.off.map((each) => each.rule).filter(names)
    const hasLooser = off.length > 0 || inForce.some(({ base }) => base !== undefined)
    const judged = inForce.flatMap(({ rule }) => {
      const judge = judgeFor(rule)
      return judge ? [{ rule, judge }] : []
    })
    known.set(kind, (found = { inForce, off, judged, hasLooser }))
  }
  return found
}

/**
 * The verdicts of every rule for a kind. Where the department's rule is looser than the published one, leaves this
 * element out or is switched off, the verdict carries what the published one would have said.
 */
export function judgeByAll(
  policy: Policy,
  kind: Kind,
  judge: (rule: Rule) => Verdict | undefined,
): Verdict[] {
  const verdicts: Verdict[] = []
  const { inForce, off } = rulesFor(policy, kind)
  for (const { rule, base } of inForce) {
    const found = judge(rule)
    const would = base && judge(base)
    if (!found) verdicts.push(...readyOnly(would, 'the rule is not asked of it here'))
    else if (would && severity(would.state) < severity(found.state))
      verdicts.push({ ...found, loosened: would.state })
    else verdicts.push(found)
  }
  for (const rule of off) verdicts.push(...readyOnly(judge(rule), 'the rule is switched off'))
  return verdicts
}

/** Every verdict on one element; with a wearer, also those about fit and assembly. */
export const judgeElement = (element: Element, setting: Setting, wearer?: Wearer): Verdict[] =>
  judgeByAll(setting.policy, element.kind, (rule) =>
    judgeFor(rule)?.(rule, element, setting, wearer, verdict),
  )

/** Every verdict on a place, were this element in it: what must be there, then what its own rules and its wearer say. */
export function judgePlace(
  setting: Setting,
  wearer: Wearer,
  kind: Kind,
  element: Element | undefined,
): Verdict[] {
  const presence = judgeByAll(setting.policy, kind, (rule) =>
    judgePresence(rule, kind, element, wearer, verdict),
  )
  const present = element && isHere(element) ? judgeElement(element, setting, wearer) : []
  return [...presence, ...present]
}

/** What the verdicts on an element come to; nothing is put in words for it. */
export function conditionOf(element: Element, setting: Setting, wearer?: Wearer): Condition {
  let worst: Condition = 'ready'
  for (const { rule, judge } of rulesFor(setting.policy, element.kind).judged) {
    const found = judge(rule, element, setting, wearer, bare)
    if (found !== undefined && found !== 'ready') worst = worse(worst, found)
  }
  return worst
}

/** What the verdicts on a place come to. */
export function conditionAt(
  setting: Setting,
  wearer: Wearer,
  kind: Kind,
  element: Element | undefined,
): Condition {
  // Whatever is here is present.
  if (element && isHere(element)) return conditionOf(element, setting, wearer)
  const { inForce } = rulesFor(setting.policy, kind)
  return worstOf(
    inForce.map(({ rule }) => ({ state: judgePresence(rule, kind, element, wearer, bare) ?? 'ready' })),
  )
}

/** Does the published base say anything of this kind besides, where the department's own rules are looser? */
export const hasLooser = (policy: Policy, kind: Kind): boolean => rulesFor(policy, kind).hasLooser
