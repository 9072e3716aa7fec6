// Ranks what could take a place, with the reasons for and against each; it proposes and never swaps.
import { listed } from './count.ts'
import { settingOf, wearerAt } from './assess.ts'
import { spareFault } from './decide/crew.ts'
import type { Id } from './gear.ts'
import { grouped } from './grouped.ts'
import { tiesOf, touchedBy } from './fit/ties.ts'
import { factsOf, familyOf, wordOf, type Kind } from './kinds.ts'
import type { Condition, Policy } from './policy/shape.ts'
import { judgePresence } from './rules/composition.ts'
import { judgeElement } from './rules/judge.ts'
import {
  byWeight,
  isFit,
  sayVerdict,
  severity,
  verdict,
  worstOf,
  type Setting,
  type Wearer,
} from './rules/verdict.ts'
import { compareSize } from './size.ts'
import { holderOf, type Element, type State } from './state.ts'
import { byDate, sayDate, type Instant, type LocalDate } from './time.ts'

export interface Spare {
  /** The element asked for, and the layers that have to come with it because they are one assembly. */
  elements: [Element, ...Element[]]
  /** What these places would be with it in. */
  state: Condition
  fits: boolean
  exact: boolean
  /** The soonest day a limit of it falls. */
  lasts: LocalDate | null
  for: string[]
  /** Why not, worst first; the first is the refusal where the books forbid it. */
  against: string[]
}

/**
 * What nobody else has for one place, best first: fit before unfit, exact size before larger, one element before an
 * assembly, then the one whose limits fall last, then by id so that ties fall the same way every time.
 */
export function rankSpares(state: State, policy: Policy, at: Instant, seatId: Id, kind: Kind): Spare[] {
  const seat = state.seats.get(seatId)
  const holder = seat && holderOf(seat, kind)
  if (!seat || holder === null || holder === undefined) return []
  const setting = settingOf(state, policy, at)
  const wearer = wearerAt(state, seat)
  const free = grouped(
    [...state.elements.values()].filter(
      (each) =>
        familyOf(kind).includes(each.kind) &&
        (each.issuedTo === null ? each.custody.where === 'rack' : each.issuedTo === holder) &&
        each.id !== wearer.parts.get(each.kind)?.id,
    ),
    assemblyOf,
  )
  return free
    .flatMap((set) =>
      set
        .filter((each) => each.kind === kind)
        .map((element) =>
          weigh(state, setting, wearer, holder, [element, ...layersFor(element, wearer, set)]),
        ),
    )
    .toSorted(
      (a, b) =>
        Number(b.fits) - Number(a.fits) ||
        severity(b.state) - severity(a.state) ||
        Number(b.exact) - Number(a.exact) ||
        a.elements.length - b.elements.length ||
        byDate(b.lasts ?? '9999', a.lasts ?? '9999') ||
        (a.elements[0].id < b.elements[0].id ? -1 : 1),
    )
}

const assemblyOf = ({ assembly }: Element): string => assembly ?? ''

/** The other layers of its own assembly, where those now worn with it are not of that assembly. */
function layersFor(element: Element, wearer: Wearer, set: readonly Element[]): Element[] {
  const others = familyOf(element.kind).filter((kind) => kind !== element.kind)
  return others.flatMap((kind) => {
    const worn = wearer.parts.get(kind)
    if (element.assembly === undefined || worn?.assembly === element.assembly) return []
    return set.find((each) => each.kind === kind) ?? []
  })
}

function weigh(
  state: State,
  setting: Setting,
  before: Wearer,
  holder: Id,
  elements: [Element, ...Element[]],
): Spare {
  const parts = new Map(before.parts)
  for (const element of elements) parts.set(element.kind, element)
  const wearer = { ...before, parts }
  // What the change does to the layers that stay counts too: a shell alone may unmatch the liner.
  const family = familyOf(elements[0].kind)
  const touched = touchedBy(tiesOf(setting.policy), family).flatMap((kind) => parts.get(kind) ?? [])
  const verdicts = touched.flatMap((each) =>
    judgeElement(each, setting, wearer).filter(
      (one) => elements.includes(each) || 'matches' in watchOf(setting, one.rule),
    ),
  )
  // A coat may ask for a drag rescue device that the one it relieves could lawfully lack.
  const asked = setting.policy.rules.flatMap(({ rule }) => {
    const { watch } = rule
    const isOfThese = 'whenEdition' in watch && elements.some((each) => each.kind === watch.part)
    return isOfThese
      ? rule.kinds.flatMap((kind) => judgePresence(rule, kind, parts.get(kind), wearer, verdict) ?? [])
      : []
  })
  verdicts.push(...asked)
  const refused = elements.map((each) => spareFault(state, each, holder)).find((each) => each !== undefined)
  const condition = worstOf(verdicts)
  const wrong = verdicts.filter((each) => each.state !== 'ready').toSorted(byWeight)
  const lasts = verdicts.flatMap((each) => each.on ?? []).toSorted()[0] ?? null
  const [element, ...layers] = elements
  // The size of a whole assembly is that of whichever of its layers is measured.
  const misfits = elements.filter((each) => {
    const { measure } = factsOf(each.kind)
    const wanted = measure && wearer.member?.sizes?.[measure]
    return wanted && (each.size === undefined || compareSize(each.size, wanted, []) !== 'exact')
  })
  const exact = misfits.length === 0
  const isMeasured = elements.some((each) => factsOf(each.kind).measure !== undefined)
  return {
    elements,
    state: condition,
    fits: refused === undefined && isFit(condition),
    exact,
    lasts,
    for: [
      ...(element.size ? [`size ${element.size}${isMeasured && exact ? ', exact' : ''}`] : []),
      ...(layers.length ? [`with ${listed(layers.map((each) => `${wordOf(each.kind)} ${each.id}`))}`] : []),
      ...(element.issuedTo === null ? [] : ['their own second set']),
      ...(lasts && lasts > setting.today ? [`in date to ${sayDate(lasts)}`] : []),
    ],
    against: [...(refused === undefined ? [] : [refused]), ...wrong.map(sayVerdict)],
  }
}

const watchOf = (setting: Setting, rule: string): object =>
  setting.policy.rules.find((each) => each.rule.id === rule)?.rule.watch ?? {}
