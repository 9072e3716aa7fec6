// How a label sits on a wearer by the rules of size and fit test; whatever else is worn with it is not looked at.
import { factsOf, type Kind } from '../kinds.ts'
import { judgeElement } from '../rules/judge.ts'
import { isFit, type Wearer } from '../rules/verdict.ts'
import { compareSize } from '../size.ts'
import type { Element } from '../state.ts'
import { soonest, type LocalDate } from '../time.ts'
import { byId, type Rack } from './rack.ts'

/** An element that fits a wearer, whatever else is worn. */
export interface Worn {
  element: Element
  /** It is the wearer's own size, where it has one. */
  exact: boolean
  /** The soonest day a limit falls that hangs on the wearer. */
  lasts: LocalDate | null
}

/** The size the wearer takes of this kind, where there is a measure for it. */
export const sizeWanted = ({ member }: Wearer, kind: Kind): string | undefined => {
  const { measure } = factsOf(kind)
  return measure && member?.sizes?.[measure]
}

const NOTHING: Wearer['parts'] = new Map()

export function tryOn(rack: Rack, wearer: Wearer, element: Element): Worn | undefined {
  const { kind, size } = element
  const bare = { ...wearer, parts: NOTHING }
  const verdicts = rack.together(kind).flatMap((setting) => judgeElement(element, setting, bare))
  if (!verdicts.every((each) => isFit(each.state))) return undefined
  const wanted = sizeWanted(wearer, kind)
  const exact = wanted === undefined || (size !== undefined && compareSize(size, wanted, []) === 'exact')
  return { element, exact, lasts: soonest(verdicts.map((each) => each.on)) }
}

/** Could the wearer wear one with this label, by size and fit test? */
export const couldWear = (rack: Rack, wearer: Wearer, label: Element): boolean =>
  tryOn(rack, wearer, label) !== undefined

/** The spares of a kind that fit a wearer. */
interface Fitting {
  /** The same for all whom the same spares fit in the same way. */
  key: string
  /** By id. */
  spares: readonly Worn[]
}
const fittings = new WeakMap<Rack, Map<string, Fitting>>()

/** One label of those that read alike is tried on for all, and wearers of one size share the list. */
export function fittingAt(rack: Rack, wearer: Wearer, kind: Kind): Fitting {
  const fits = rack.alike(kind).flatMap((alike, at) => {
    const worn = tryOn(rack, wearer, alike[0]!)
    return worn ? { at, alike, worn } : []
  })
  const key = [kind, ...fits.map(({ at, worn }) => `${at} ${worn.exact} ${worn.lasts}`)].join()
  const known = fittings.get(rack) ?? new Map<string, Fitting>()
  fittings.set(rack, known)
  let fitting = known.get(key)
  if (!fitting) {
    const spares = fits.flatMap(({ alike, worn }) => alike.map((element) => ({ ...worn, element })))
    known.set(key, (fitting = { key, spares: spares.toSorted((a, b) => byId(a.element, b.element)) }))
  }
  return fitting
}
