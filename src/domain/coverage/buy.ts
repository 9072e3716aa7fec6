// What to buy first: the fewest more spares after which any one element in use can be replaced. It knows no shop and no price.
import { FAMILIES } from '../fit/bundles.ts'
import type { Rack } from '../fit/rack.ts'
import { toBeRead } from '../fit/to-be-read.ts'
import { couldWear, sizeWanted } from '../fit/try-on.ts'
import type { Id } from '../gear.ts'
import { factsOf, wordOf, type Kind } from '../kinds.ts'
import { isFit } from '../rules/verdict.ts'
import { judgeElement } from '../rules/judge.ts'
import type { Wearer } from '../rules/verdict.ts'
import type { Element } from '../state.ts'
import { smallestCover } from './cover.ts'
import { onTheRack } from '../on-the-rack.ts'

export interface Purchase {
  /** All layers of one assembly where there are several. */
  kinds: Kind[]
  size: string | null
  model: string | null
  /** The riding positions that it covers. */
  seats: Id[]
  words: string
  /** What hangs on the rack and is not ready: making that ready may do instead. */
  instead: string | null
}
export interface Unmeasured {
  seat: Id
  kind: Kind
  words: string
}
interface Bought {
  /** On the rack and perhaps full: reading them comes before anything of their kind is bought. */
  toRead: Element[]
  purchases: Purchase[]
  isProven: boolean
  unmeasured: Unmeasured[]
}
interface Label {
  size?: string | undefined
  model?: string | undefined
}

export function buyFirst(
  rack: Rack,
  wearers: readonly Wearer[],
  holes: readonly { seat: Id; kind: Kind }[],
): Bought {
  const made: Bought = { toRead: toBeRead(rack), purchases: [], isProven: true, unmeasured: [] }
  for (const family of FAMILIES) {
    const short = wearers.filter(({ seat }) =>
      holes.some((hole) => hole.seat === seat.id && family.includes(hole.kind)),
    )
    if (short.length) buyFamily(rack, family, short, made)
  }
  const isReadFirst = ({ kinds }: Purchase): number =>
    Number(made.toRead.some(({ kind }) => kinds.includes(kind)))
  made.purchases.sort((a, b) => isReadFirst(a) - isReadFirst(b) || b.seats.length - a.seats.length)
  return made
}

function buyFamily(rack: Rack, family: readonly Kind[], short: readonly Wearer[], made: Bought): void {
  // A whole assembly has the size of the layer that is measured.
  const measured = family.find((kind) => factsOf(kind).measure !== undefined) ?? family[0]!
  const labels = [
    ...new Map(short.flatMap((each) => labelsFor(each, measured)).map((each) => [keyOf(each), each])),
  ]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([, label]) => label)
  const sets = labels.map(
    (label) =>
      new Set(short.flatMap((each, at) => (couldWear(rack, each, unbought(measured, label)) ? at : []))),
  )
  const coverable = short.flatMap((_, at) => (sets.some((set) => set.has(at)) ? at : []))
  for (const [at, { seat, member }] of short.entries()) {
    if (coverable.includes(at)) continue
    const what =
      measured === 'facepiece' ? 'has no fit test in date' : `has no size for ${wordOf(measured)} on record`
    made.unmeasured.push({ seat: seat.id, kind: measured, words: `${member?.name ?? seat.id} ${what}.` })
  }
  const { taken, isProven } = smallestCover(coverable, sets)
  made.isProven &&= isProven
  const instead = notReady(rack, measured)
  for (const at of taken) {
    const { size, model } = labels[at]!
    const seats = [...sets[at]!].map((each) => short[each]!.seat.id)
    const label = [model, size && `size ${size}`].filter(Boolean).join(' ')
    const words = `${family.map(wordOf).join(', ')}${label ? `, ${label}` : ''}`
    made.purchases.push({
      kinds: [...family],
      size: size ?? null,
      model: model ?? null,
      seats,
      words,
      instead,
    })
  }
}

const keyOf = ({ size, model }: Label): string => `${model ?? ''}\n${size ?? ''}`

/** What would be bought for this wearer: their own size, or a facepiece they are tested with. */
function labelsFor(wearer: Wearer, kind: Kind): Label[] {
  if (kind === 'facepiece') return wearer.member?.fitTests.map(({ facepiece }) => facepiece) ?? []
  const { measure } = factsOf(kind)
  const size = sizeWanted(wearer, kind)
  if (measure === undefined) return [{}]
  return size === undefined ? [] : [{ size }]
}

/** An element as its label would say; only rules of size and fit test are ever asked of it. */
const unbought = (kind: Kind, { size, model }: Label): Element =>
  onTheRack({ id: '', kind, ...(size !== undefined && { size }), ...(model !== undefined && { model }) }, 0)

/** How many hang on the rack that are not ready, with the first reason. */
function notReady({ settings, hanging, alone }: Rack, kind: Kind): string | null {
  const all = hanging(kind).filter((each) => !alone(each).isFit)
  const [first] = all
  if (!first) return null
  const wrong = settings.flatMap((setting) => judgeElement(first, setting)).find((each) => !isFit(each.state))
  const word = all.length === 1 ? 'one on the rack is' : `${all.length} on the rack are`
  return `${word} not ready; ${first.id}: ${wrong?.says ?? 'not fit'}`
}
