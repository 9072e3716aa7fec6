// Which spares, put together, make one family of layers at a riding position fit: the only place that says so. It chooses none.
import { factsOf, familyOf, KINDS, type Kind } from '../kinds.ts'
import { conditionAt, judgeElement } from '../rules/judge.ts'
import { isFit, type Setting, type Wearer } from '../rules/verdict.ts'
import { compareSize } from '../size.ts'
import { assigned, holderOf, type Element, type State } from '../state.ts'
import { soonest, type LocalDate } from '../time.ts'
import { freeFor, type Rack } from './rack.ts'
import { touchedBy } from './ties.ts'

/** Spares that go in together: one element, or the layers of one assembly. */
export interface Bundle {
  elements: readonly [Element, ...Element[]]
  /** Every measured layer is the wearer's own size. */
  exact: boolean
  /** The soonest day a limit of any of it falls. */
  lasts: LocalDate | null
}

/** The kinds that are worn only together, each family once, by its first kind. */
export const FAMILIES: readonly (readonly Kind[])[] = KINDS.filter((kind) => familyOf(kind)[0] === kind).map(
  familyOf,
)

/** The size the wearer takes of this kind, where there is a measure for it. */
export const sizeWanted = ({ member }: Wearer, kind: Kind): string | undefined => {
  const { measure } = factsOf(kind)
  return measure && member?.sizes?.[measure]
}

/** An element that fits a wearer, whatever else is worn. */
interface Worn {
  element: Element
  exact: boolean
  lasts: LocalDate | null
}

const NOTHING: Wearer['parts'] = new Map()

/** Could the wearer wear one with this label, by size and fit test? */
export const couldWear = (rack: Rack, wearer: Wearer, label: Element): boolean =>
  tryOn(rack, wearer)(label) !== undefined

/** What size and fit test see of a label, as a text: put together once for an element, asked for by every wearer. */
const readings = new WeakMap<Element, string>()
function readingOf(element: Element): string {
  let reading = readings.get(element)
  if (reading === undefined) {
    const { kind, size, model } = element
    readings.set(element, (reading = `${kind}\n${size ?? ''}\n${model ?? ''}`))
  }
  return reading
}

/** By the rules of size and fit test: what reads alike is judged once. */
function tryOn(rack: Rack, wearer: Wearer): (element: Element) => Worn | undefined {
  const bare = { ...wearer, parts: NOTHING }
  const known = new Map<string, Omit<Worn, 'element'> | undefined>()
  return (element) => {
    const key = readingOf(element)
    let worn = known.get(key)
    if (!worn && !known.has(key)) {
      const { kind, size } = element
      const verdicts = rack.together(kind).flatMap((setting) => judgeElement(element, setting, bare))
      const wanted = sizeWanted(wearer, kind)
      if (verdicts.every((each) => isFit(each.state)))
        worn = {
          exact: wanted === undefined || (size !== undefined && compareSize(size, wanted, []) === 'exact'),
          lasts: soonest(verdicts.map((each) => each.on)),
        }
      known.set(key, worn)
    }
    return worn && { element, exact: worn.exact, lasts: worn.lasts }
  }
}

/**
 * Every bundle with which this family is fit at this riding position now and to the tour's end, the smaller first, then by id.
 * What stays in its place counts too: a shell alone never mends a torn liner.
 */
export function bundlesFor(rack: Rack, wearer: Wearer, family: readonly Kind[]): Bundle[] {
  const holder = holderOf(wearer.seat, family[0]!)
  if (holder === null) return []
  const on = tryOn(rack, wearer)
  const free = family
    .flatMap((kind) => freeFor(rack, holder, kind))
    .flatMap((element) => (wearer.parts.get(element.kind)?.id === element.id ? [] : (on(element) ?? [])))
  // What is wrong by itself, or not there though it must be, has to be among what goes in.
  const must = family.filter((kind) => {
    const worn = wearer.parts.get(kind)
    return worn ? !rack.alone(worn).isFit : rack.required.has(kind)
  })
  const isSingle = family.length === 1
  const isTied = rack.ties.some(({ kind, to }) => family.includes(kind) || family.includes(to))
  const made = together(family, free)
    .filter((put) => must.every((kind) => put.some(({ element }) => element.kind === kind)))
    // What is worn with nothing it has to match was judged whole as it was tried on.
    .filter((put) => (isSingle && !isTied) || staysWhole(rack, wearer, family, put))
    .map((put): Bundle => ({
      elements: put.map(({ element }) => element) as [Element, ...Element[]],
      exact: put.every((each) => each.exact),
      lasts: soonest(put.flatMap((each) => [each.lasts, rack.alone(each.element).lasts])),
    }))
  // Single spares come by id already.
  return isSingle
    ? made
    : made.toSorted((a, b) => a.elements.length - b.elements.length || (keyOf(a) < keyOf(b) ? -1 : 1))
}

export const keyOf = ({ elements }: Bundle): string => elements.map((each) => each.id).join(' ')

/** Single spares, and the layers of each assembly: nothing else is ever put in together. */
function together(family: readonly Kind[], free: readonly Worn[]): Worn[][] {
  const singles = free.map((each) => [each])
  if (family.length === 1) return singles
  const assemblies = new Map<string, Worn[]>()
  for (const each of free) {
    const { assembly } = each.element
    if (assembly === undefined) continue
    const layers = assemblies.get(assembly)
    if (layers) layers.push(each)
    else assemblies.set(assembly, [each])
  }
  const sets = [...assemblies.values()].flatMap((all) =>
    choicesOf(family.map((kind) => all.filter(({ element }) => element.kind === kind))),
  )
  return [...singles, ...sets.filter((each) => each.length > 1)]
}

/** Every choice of at most one of each layer. */
const choicesOf = <T>(layers: readonly (readonly T[])[]): T[][] =>
  layers.reduce<T[][]>(
    (made, layer) => [...made, ...made.flatMap((each) => layer.map((one) => [...each, one]))],
    [[]],
  )

/** What would be worn were these put in. */
export function wearing(wearer: Wearer, elements: readonly Element[]): Wearer {
  const parts = new Map(wearer.parts)
  for (const element of elements) parts.set(element.kind, element)
  return { ...wearer, parts }
}

/** Is every place of the family fit with these in, and whatever is judged by it that is to stay? */
function staysWhole(rack: Rack, before: Wearer, family: readonly Kind[], put: readonly Worn[]): boolean {
  const wearer = wearing(
    before,
    put.map((each) => each.element),
  )
  const others = touchedBy(rack.ties, family).filter((kind) => {
    const worn = wearer.parts.get(kind)
    return !family.includes(kind) && worn && rack.alone(worn).isFit
  })
  return isWhole(rack.state, wearer, [...family, ...others], rack.together)
}

/** Are the places of these kinds fit as they are worn: what must be there, and what must match? */
export const isWhole = (
  state: State,
  wearer: Wearer,
  kinds: readonly Kind[],
  settings: (kind: Kind) => readonly Setting[],
): boolean =>
  kinds.every((kind) => {
    // What is on the books for a place and not here is missing, and its absence is said.
    const worn = wearer.parts.get(kind) ?? assigned(state, holderOf(wearer.seat, kind), kind)
    return settings(kind).every((setting) => isFit(conditionAt(setting, wearer, kind, worn)))
  })
