// Puts each rule in force to an element; which rule looks at what is data, so nothing here knows a limit.
import type { Rule } from '../policy/shape.ts'
import type { Element } from '../state.ts'
import { judgeMatch, judgeSize } from './composition.ts'
import { judgeExposure, judgePressure, judgeTags } from './conditions.ts'
import { judgeFitTest, judgeInterval, judgeLife } from './dates.ts'
import type { Judge, Setting, Verdict, Wearer } from './verdict.ts'

function judgeFor({ watch }: Rule): Judge | undefined {
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

/** Every verdict on one element; with a wearer, also those about fit and assembly. */
export function judgeElement(element: Element, setting: Setting, wearer?: Wearer): Verdict[] {
  return setting.policy.rules.flatMap(({ rule }) =>
    rule.kinds.includes(element.kind) ? (judgeFor(rule)?.(rule, element, setting, wearer) ?? []) : [],
  )
}
