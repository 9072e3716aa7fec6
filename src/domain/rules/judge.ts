// Puts each rule in force to an element; which rule looks at what is data, so nothing here knows a limit.
import type { Kind } from '../kinds.ts'
import type { Policy, Rule, RuleInForce } from '../policy/shape.ts'
import type { Element } from '../state.ts'
import { judgeMatch, judgeSize } from './composition.ts'
import { judgeExposure, judgePressure, judgeTags } from './conditions.ts'
import { judgeFitTest, judgeInterval, judgeLife } from './dates.ts'
import { severity, type Judge, type Setting, type Verdict, type Wearer } from './verdict.ts'

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
    known.set(kind, (found = { inForce, off: policy.off.map((each) => each.rule).filter(names) }))
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
  judgeByAll(setting.policy, element.kind, (rule) => judgeFor(rule)?.(rule, element, setting, wearer))
