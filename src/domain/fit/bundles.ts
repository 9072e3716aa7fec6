// Which spares, put together, make one family of layers at a riding position fit: the only place that says so. It chooses none.
import { grouped } from '../grouped.ts'
import { familyOf, KINDS, type Kind } from '../kinds.ts'
import { conditionAt } from '../rules/judge.ts'
import { isFit, type Setting, type Wearer } from '../rules/verdict.ts'
import { assigned, holderOf, type Element, type State } from '../state.ts'
import { soonest, type LocalDate } from '../time.ts'
import { ownFor, type Rack } from './rack.ts'
import { touchedBy } from './ties.ts'
import { fittingAt, tryOn, type Worn } from './try-on.ts'

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

const wholes = new WeakMap<Rack, Map<string, readonly Bundle[]>>()

/**
 * Every bundle with which this family is fit at this riding position now and to the tour's end, the smaller first, then by id.
 * What stays in its place counts too: a shell alone never mends a torn liner.
 */
export function bundlesFor(rack: Rack, wearer: Wearer, family: readonly Kind[]): readonly Bundle[] {
  const holder = holderOf(wearer.seat, family[0]!)
  if (holder === null) return []
  const own = family
    .flatMap((kind) => ownFor(rack, holder, kind))
    .flatMap((element) => tryOn(rack, wearer, element) ?? [])
  const fitting = family.map((kind) => fittingAt(rack, wearer, kind))
  const free = [...own, ...fitting.flatMap(({ spares }) => spares)]
  // What is wrong by itself, or not there though it must be, has to be among what goes in.
  const must = family.filter((kind) => {
    const worn = wearer.parts.get(kind)
    return worn ? !rack.alone(worn).isFit : rack.required.has(kind)
  })
  const isWorn = wornWith(rack, wearer, family)
  const made = (needed: readonly Kind[], most: number): Bundle[] => {
    const puts = together(family, free, needed).filter((put) => put.length <= most && isWorn(put))
    const bundles = puts.map((put) => bundleOf(rack, put))
    // Single spares come in order: what is the holder's own, then by id.
    return family.length === 1 ? bundles : inOrder(bundles)
  }
  if (own.length || isTied(rack, family)) return made(must, family.length)
  // What takes every layer's place is fit or not whatever is worn now: found once for all whom the same spares fit.
  const key = fitting.map((each) => each.key).join(';')
  const known = wholes.get(rack) ?? new Map<string, readonly Bundle[]>()
  wholes.set(rack, known)
  const whole = known.get(key) ?? made(family, family.length)
  known.set(key, whole)
  return must.length === family.length ? whole : [...made(must, family.length - 1), ...whole]
}

/** Is any of it judged by what is worn of another family, or the other way round? Only a department's own rule makes such a tie. */
const isTied = ({ ties }: Rack, family: readonly Kind[]): boolean =>
  ties.some(({ kind, to }) => family.includes(kind) !== family.includes(to))

const bundleOf = ({ alone }: Rack, put: readonly Worn[]): Bundle => ({
  elements: put.map(({ element }) => element) as [Element, ...Element[]],
  exact: put.every((each) => each.exact),
  lasts: soonest(put.flatMap((each) => [each.lasts, alone(each.element).lasts])),
})

const inOrder = (bundles: readonly Bundle[]): Bundle[] =>
  bundles
    .map((bundle) => ({ bundle, key: keyOf(bundle) }))
    .toSorted((a, b) => a.bundle.elements.length - b.bundle.elements.length || (a.key < b.key ? -1 : 1))
    .map(({ bundle }) => bundle)

export const keyOf = ({ elements }: Bundle): string => elements.map((each) => each.id).join(' ')

/** Single spares, and the layers of each assembly, with these kinds among them: nothing else is ever put in together. */
function together(family: readonly Kind[], free: readonly Worn[], must: readonly Kind[]): Worn[][] {
  if (family.length === 1) return free.map((each) => [each])
  let alone = 0
  return grouped(free, ({ element }) => element.assembly ?? `\n${alone++}`)
    .flatMap((set) =>
      choicesOf(
        family.map((kind) => ({
          layer: set.filter(({ element }) => element.kind === kind),
          isNeeded: must.includes(kind),
        })),
      ),
    )
    .filter((put) => put.length > 0)
}

/** Every choice of one of each layer that is needed and at most one of the others. */
const choicesOf = <T>(layers: readonly { layer: readonly T[]; isNeeded: boolean }[]): T[][] =>
  layers.reduce<T[][]>(
    (made, { layer, isNeeded }) => [
      ...(isNeeded ? [] : made),
      ...made.flatMap((each) => layer.map((one) => [...each, one])),
    ],
    [[]],
  )

/** What would be worn were these put in. */
export function wearing(wearer: Wearer, elements: readonly Element[]): Wearer {
  const parts = new Map(wearer.parts)
  for (const element of elements) parts.set(element.kind, element)
  return { ...wearer, parts }
}

/** Is every place of the family fit with these in, and whatever is judged by it that is to stay? */
function wornWith(rack: Rack, before: Wearer, family: readonly Kind[]): (put: readonly Worn[]) => boolean {
  const others = touchedBy(rack.ties, family).filter((kind) => {
    const worn = before.parts.get(kind)
    return !family.includes(kind) && worn && rack.alone(worn).isFit
  })
  const kinds = [...family, ...others]
  // What is worn with nothing it has to match was judged whole as it was tried on.
  if (kinds.length === 1 && !isTied(rack, family)) return () => true
  return (put) => {
    const wearer = wearing(
      before,
      put.map((each) => each.element),
    )
    return isWhole(rack.state, wearer, kinds, rack.together)
  }
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
