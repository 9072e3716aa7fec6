// Before anything breaks: for everybody who rides and every kind, which spares could take its place. It judges nothing anew.
import { count } from '../count.ts'
import { assess, wearerAt } from '../assess.ts'
import { bundlesFor, FAMILIES, type Bundle } from '../fit/bundles.ts'
import { rackAt, type Rack } from '../fit/rack.ts'
import type { Id } from '../gear.ts'
import { grouped } from '../grouped.ts'
import { KINDS, type Kind } from '../kinds.ts'
import type { Policy } from '../policy/shape.ts'
import { conditionAt } from '../rules/judge.ts'
import { isFit, type Wearer } from '../rules/verdict.ts'
import { assigned, holderOf, type State } from '../state.ts'
import type { Instant } from '../time.ts'
import { buyFirst, type Purchase, type Unmeasured } from './buy.ts'

export interface CoveredPlace {
  seat: Id
  position: string
  rig: Id
  member: Id
  name: string
  kind: Kind
  /** What is in use there now. */
  element: Id | null
  /** The spares of this kind that could take its place, some of them with other layers of their assembly. */
  spares: Id[]
}
/** A spare that is the only one for somebody: losing it leaves them without. */
interface LastSpare {
  spare: Id
  kind: Kind
  seats: Id[]
}
export interface KindCoverage {
  kind: Kind
  /** Riding positions that could lose it, by how many spares there would be. */
  none: number
  one: number
  more: number
}
export interface Coverage {
  at: Instant
  words: string
  places: CoveredPlace[]
  kinds: KindCoverage[]
  /** Where one loss leaves somebody without. */
  holes: CoveredPlace[]
  lastSpares: LastSpare[]
  /** On the rack and perhaps full: reading them comes before anything of their kind is bought. */
  toRead: Id[]
  /** The fewest more spares after which any one element in use can be replaced, what covers the most first. */
  buy: Purchase[]
  isProven: boolean
  /** Nothing can be bought for them before they are measured or fit tested. */
  unmeasured: Unmeasured[]
}

export function coverageOf(state: State, policy: Policy, at: Instant): Coverage {
  const rack = rackAt(state, policy, at)
  const wearers: Wearer[] = []
  const places = assess(state, policy, at).rigs.flatMap((rig) =>
    rig.seats.flatMap(({ seat }) => {
      if (seat.member === null) return []
      const wearer = wearerAt(state, seat)
      wearers.push(wearer)
      const spares = new Map(FAMILIES.flatMap((family) => [...sparesIn(bundlesFor(rack, wearer, family))]))
      return KINDS.flatMap((kind): CoveredPlace[] => {
        const element = wearer.parts.get(kind) ?? assigned(state, holderOf(seat, kind), kind)
        if (!element && mayLack(rack, wearer, kind)) return []
        return [
          {
            seat: seat.id,
            position: seat.position,
            rig: rig.id,
            member: seat.member!,
            name: state.members.get(seat.member!)?.name ?? seat.member!,
            kind,
            element: element?.id ?? null,
            spares: spares.get(kind) ?? [],
          },
        ]
      })
    }),
  )
  const holes = places.filter((each) => !each.spares.length)
  const bought = buyFirst(rack, wearers, holes)
  const toRead = bought.toRead.map(({ id }) => id)
  return {
    at,
    words: sayCoverage(places, holes, bought.purchases.length, toRead.length),
    places,
    kinds: KINDS.map((kind) => countOf(places, kind)).filter((each) => each.none + each.one + each.more > 0),
    holes,
    lastSpares: lastOf(places),
    toRead,
    buy: bought.purchases,
    isProven: bought.isProven,
    unmeasured: bought.unmeasured,
  }
}

/** Is the place fit with nothing in it, as that of a drag rescue device in an old coat? */
const mayLack = (rack: Rack, wearer: Wearer, kind: Kind): boolean =>
  rack.together(kind).every((setting) => isFit(conditionAt(setting, wearer, kind, undefined)))

/** The spares in a list of bundles, by their kind: wearers of one size share the list. */
const inBundles = new WeakMap<readonly Bundle[], ReadonlyMap<Kind, Id[]>>()
function sparesIn(bundles: readonly Bundle[]): ReadonlyMap<Kind, Id[]> {
  const known = inBundles.get(bundles)
  if (known) return known
  const all = new Set(bundles.flatMap(({ elements }) => elements))
  const found = new Map(
    grouped([...all], ({ kind }) => kind).map((alike): [Kind, Id[]] => [
      alike[0]!.kind,
      alike.map(({ id }) => id).toSorted(),
    ]),
  )
  inBundles.set(bundles, found)
  return found
}

function countOf(places: readonly CoveredPlace[], kind: Kind): KindCoverage {
  const counts = places.flatMap((each) => (each.kind === kind ? each.spares.length : []))
  const how = (is: (spares: number) => boolean): number => counts.filter(is).length
  return {
    kind,
    none: how((each) => each === 0),
    one: how((each) => each === 1),
    more: how((each) => each > 1),
  }
}

function lastOf(places: readonly CoveredPlace[]): LastSpare[] {
  const last = new Map<Id, LastSpare>()
  for (const { kind, seat, spares } of places) {
    const [spare] = spares
    if (spares.length !== 1) continue
    const known = last.get(spare!) ?? { spare: spare!, kind, seats: [] }
    last.set(spare!, { ...known, seats: [...known.seats, seat] })
  }
  return [...last.values()].toSorted(
    (a, b) => b.seats.length - a.seats.length || (a.spare < b.spare ? -1 : 1),
  )
}

function sayCoverage(
  places: readonly CoveredPlace[],
  holes: readonly CoveredPlace[],
  buys: number,
  unread: number,
): string {
  if (!places.length) return 'Nobody is seated, so there is nothing to cover. Seat the crew first.'
  if (!holes.length) return 'Any one element in use can be replaced from the rack.'
  const people = new Set(holes.map((each) => each.seat)).size
  const read = unread ? ` Read ${count(unread, 'cylinder')} on the rack first.` : ''
  const more = buys ? ` ${count(buys, 'more spare')} would cover it.` : ''
  return `${holes.length} single losses would leave somebody without, at ${people} riding positions.${read}${more}`
}
