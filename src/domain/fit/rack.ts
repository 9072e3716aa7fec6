// What is free to go into somebody's place, and what its own dates and condition say of it; it must never look at a wearer.
import { settingOf } from '../assess.ts'
import { spareFault } from '../decide/crew.ts'
import type { Id } from '../gear.ts'
import { grouped } from '../grouped.ts'
import { KINDS, type Kind } from '../kinds.ts'
import type { Policy, Rule } from '../policy/shape.ts'
import { judgeElement } from '../rules/judge.ts'
import { isFit, worstOf, type Setting } from '../rules/verdict.ts'
import { place, type Element, type State } from '../state.ts'
import { soonest, type Instant, type LocalDate } from '../time.ts'
import { tiesOf, type Tie } from './ties.ts'

/** What an element is by itself, at the instant and still on the tour's last day. */
interface Alone {
  isFit: boolean
  /** The soonest day a limit of it falls. */
  lasts: LocalDate | null
}

/** The rack at one instant, prepared once for all riding positions. */
export interface Rack {
  state: State
  /** Now, and the tour's last day where that is another: what goes in must be fit on both. */
  settings: readonly Setting[]
  /** The same for one kind, with only the rules that look at a wearer or at other layers: these are asked again and again. */
  together: (kind: Kind) => readonly Setting[]
  /** Which kinds have to go with which others. */
  ties: readonly Tie[]
  /** Kinds that must always be there. */
  required: ReadonlySet<Kind>
  /** Spares of a kind that no rule and no book forbids by themselves, by id: judged when the kind is first asked for. */
  spares: (kind: Kind) => readonly Element[]
  /** The same, those together of whose labels size and fit test see the same. */
  alike: (kind: Kind) => readonly (readonly Element[])[]
  /** What is on the rack and issued to nobody, fit or not. */
  hanging: (kind: Kind) => readonly Element[]
  alone: (element: Element) => Alone
}

/** Does the rule look at the wearer, or at what is worn with it? */
const isAboutWearer = ({ watch }: Rule): boolean =>
  'fits' in watch || 'matches' in watch || 'part' in watch || ('since' in watch && watch.since === 'fit-test')

export function rackAt(state: State, policy: Policy, at: Instant): Rack {
  const now = settingOf(state, policy, at)
  const settings = now.until === now.today ? [now] : [now, { ...now, today: now.until }]
  const shared = policy.rules.filter(({ rule }) => isAboutWearer(rule))
  const ofKind = new Map(
    KINDS.map((kind) => {
      const rules = shared.filter(({ rule }) => rule.kinds.includes(kind))
      return [kind, settings.map((each) => ({ ...each, policy: { ...policy, rules, off: [] } }))]
    }),
  )
  const required = new Set(
    shared.flatMap(({ rule }) => ('part' in rule.watch && rule.watch.part === 'always' ? rule.kinds : [])),
  )
  const ties = tiesOf(policy)
  const known = new Map<Element, Alone>()
  const alone = (element: Element): Alone => {
    const kept = known.get(element)
    if (kept) return kept
    const verdicts = settings.flatMap((setting) => judgeElement(element, setting))
    const made = { isFit: isFit(worstOf(verdicts)), lasts: soonest(verdicts.map((each) => each.on)) }
    known.set(element, made)
    return made
  }
  const hanging = new Map(KINDS.map((kind): [Kind, Element[]] => [kind, []]))
  for (const element of state.elements.values())
    if (element.issuedTo === null && element.custody.where === 'rack')
      hanging.get(element.kind)!.push(element)
  const isSpare = (element: Element): boolean =>
    alone(element).isFit && spareFault(state, element, '') === undefined
  const spares = once((kind) => hanging.get(kind)!.filter(isSpare).toSorted(byId))
  return {
    state,
    settings,
    together: (kind) => ofKind.get(kind)!,
    ties,
    required,
    spares,
    alike: once((kind) => grouped(spares(kind), readingOf)),
    hanging: (kind) => hanging.get(kind)!,
    alone,
  }
}

/** Worked out for a kind when it is first asked for. */
function once<T>(make: (kind: Kind) => T): (kind: Kind) => T {
  const made = new Map<Kind, T>()
  return (kind) => {
    const known = made.get(kind) ?? make(kind)
    made.set(kind, known)
    return known
  }
}

/** What size and fit test see of a label. */
export const readingOf = ({ kind, size, model }: Element): string => `${kind}\n${size ?? ''}\n${model ?? ''}`

export const byId = (a: Element, b: Element): number => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)

/** What else of a kind is issued to this holder, and could go into their place. */
export const ownFor = (rack: Rack, holder: Id, kind: Kind): Element[] =>
  (rack.state.issued.get(place(holder, kind)) ?? [])
    .flatMap((id) => rack.state.elements.get(id) ?? [])
    .filter((each) => rack.alone(each).isFit && spareFault(rack.state, each, holder) === undefined)
