// One place of a riding position as it was judged; why it is ready is worked out only where somebody asks.
import type { Kind } from '../kinds.ts'
import type { Condition } from '../policy/shape.ts'
import { conditionAt, hasLooser, judgePlace } from '../rules/judge.ts'
import { byWeight, type Setting, type Verdict, type Wearer } from '../rules/verdict.ts'
import type { Element } from '../state.ts'

export interface PlaceAssessment {
  readonly kind: Kind
  /** The element on the books for this place, here or not. */
  readonly element: Element | undefined
  /** It stands in for the holder's own. */
  readonly standsIn: boolean
  readonly state: Condition
  /** Every rule that looked, worst first; those that found nothing wrong are `ready`. */
  readonly verdicts: readonly Verdict[]
  /** None of them is anything but `ready`, nor would be under the published base. */
  readonly isPlain: boolean
}

export class JudgedPlace implements PlaceAssessment {
  readonly kind: Kind
  readonly element: Element | undefined
  readonly standsIn: boolean
  readonly state: Condition
  readonly isPlain: boolean
  readonly #setting: Setting
  readonly #wearer: Wearer
  #verdicts: readonly Verdict[] | undefined

  constructor(setting: Setting, wearer: Wearer, kind: Kind, element: Element | undefined, standsIn: boolean) {
    this.#setting = setting
    this.#wearer = wearer
    this.kind = kind
    this.element = element
    this.standsIn = standsIn
    this.state = conditionAt(setting, wearer, kind, element)
    this.isPlain = this.state === 'ready' && !hasLooser(setting.policy, kind)
  }

  get verdicts(): readonly Verdict[] {
    return (this.#verdicts ??= judgePlace(this.#setting, this.#wearer, this.kind, this.element).toSorted(
      byWeight,
    ))
  }
}
