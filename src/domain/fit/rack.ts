// What is free to go into somebody's place, and what its own dates and condition say of it; it must never look at a wearer.
import { settingOf } from '../assess.ts'
import { spareFault } from '../decide/crew.ts'
import type { Id } from '../gear.ts'
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
  /** Spares that no rule and no book forbids by themselves, by kind and then by id. */
  spares: ReadonlyMap<Kind, readonly Element[]>
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
  const spares = new Map<Kind, Element[]>()
  for (const element of state.elements.values()) {
    const isFree = element.issuedTo === null && element.custody.where === 'rack'
    if (!isFree || !alone(element).isFit || spareFault(state, element, '') !== undefined) continue
    spares.set(element.kind, [...(spares.get(element.kind) ?? []), element])
  }
  for (const [kind, elements] of spares) spares.set(kind, elements.toSorted(byId))
  return { state, settings, together: (kind) => ofKind.get(kind)!, ties, required, spares, alone }
}

export const byId = (a: Element, b: Element): number => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)

/** What could go into this holder's place: the rack's, and what else is issued to them. */
export function freeFor(rack: Rack, holder: Id, kind: Kind): Element[] {
  const own = (rack.state.issued.get(place(holder, kind)) ?? [])
    .flatMap((id) => rack.state.elements.get(id) ?? [])
    .filter((each) => rack.alone(each).isFit && spareFault(rack.state, each, holder) === undefined)
  return [...own, ...(rack.spares.get(kind) ?? [])]
}
