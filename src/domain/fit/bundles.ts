// Which spares, put together, make one family of layers at a riding position fit: the only place that says so. It chooses none.
import { judgePlace } from '../assess.ts'
import { factsOf, familyOf, KINDS, type Kind } from '../kinds.ts'
import { isFit, type Verdict, type Wearer } from '../rules/verdict.ts'
import { compareSize } from '../size.ts'
import { assigned, holderOf, type Element } from '../state.ts'
import type { LocalDate } from '../time.ts'
import { freeFor, soonest, type Rack } from './rack.ts'

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

/** The size of a whole assembly is that of whichever of its layers is measured. */
export const isExact = (elements: readonly Element[], wearer: Wearer): boolean =>
  elements.every(({ kind, size }) => {
    const wanted = sizeWanted(wearer, kind)
    return wanted === undefined || (size !== undefined && compareSize(size, wanted, []) === 'exact')
  })

/** What would be worn were these put in. */
export function wearing(wearer: Wearer, elements: readonly Element[]): Wearer {
  const parts = new Map(wearer.parts)
  for (const element of elements) parts.set(element.kind, element)
  return { ...wearer, parts }
}

/** Every choice of one layer a kind, `undefined` leaving what is there. */
function choicesOf(layers: readonly (readonly Element[])[]): Element[][] {
  return layers.reduce<Element[][]>(
    (made, layer) => [...made, ...made.flatMap((each) => layer.map((one) => [...each, one]))],
    [[]],
  )
}

/** Single spares, and the layers of each assembly: nothing else is ever put in together. */
function together(family: readonly Kind[], free: readonly Element[]): Element[][] {
  const singles = free.map((each) => [each])
  if (family.length === 1) return singles
  const assemblies = new Map<string, Element[]>()
  for (const each of free) {
    if (each.assembly !== undefined)
      assemblies.set(each.assembly, [...(assemblies.get(each.assembly) ?? []), each])
  }
  const sets = [...assemblies.values()].flatMap((all) =>
    choicesOf(family.map((kind) => all.filter((each) => each.kind === kind))).filter(
      (each) => each.length > 1,
    ),
  )
  return [...singles, ...sets]
}

/**
 * Every bundle with which this family is fit at this riding position now and to the tour's end, the smaller first, then by id.
 * What stays in its place counts too: a shell alone never mends a torn liner.
 */
export function bundlesFor(rack: Rack, wearer: Wearer, family: readonly Kind[]): Bundle[] {
  const holder = holderOf(wearer.seat, family[0]!)
  if (holder === null) return []
  const free = family
    .flatMap((kind) => freeFor(rack, holder, kind))
    .filter((each) => wearer.parts.get(each.kind)?.id !== each.id)
  return together(family, free)
    .flatMap((elements) => bundle(rack, wearer, family, elements) ?? [])
    .toSorted((a, b) => a.elements.length - b.elements.length || (keyOf(a) < keyOf(b) ? -1 : 1))
}

/** What is on the books for a place and not here: it is missing, and its absence is said. */
const absent = ({ state }: Rack, { seat }: Wearer, kind: Kind): Element | undefined =>
  assigned(state, holderOf(seat, kind), kind)

export const keyOf = ({ elements }: Bundle): string => elements.map((each) => each.id).join(' ')

function bundle(
  rack: Rack,
  before: Wearer,
  family: readonly Kind[],
  elements: readonly Element[],
): Bundle | undefined {
  const wearer = wearing(before, elements)
  const stays = family.flatMap((kind) => wearer.parts.get(kind) ?? [])
  if (!stays.every((each) => rack.alone(each).isFit)) return undefined
  const verdicts: Verdict[] = []
  for (const setting of rack.together) {
    for (const kind of family) {
      const said = judgePlace(setting, wearer, kind, wearer.parts.get(kind) ?? absent(rack, wearer, kind))
      if (!said.every((each) => isFit(each.state))) return undefined
      verdicts.push(...said)
    }
  }
  return {
    elements: elements as [Element, ...Element[]],
    exact: isExact(elements, before),
    lasts: soonest([...elements.map((each) => rack.alone(each).lasts), ...verdicts.map((each) => each.on)]),
  }
}
