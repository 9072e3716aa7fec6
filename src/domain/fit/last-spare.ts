// For whom a spare is the last that fits: what taking it from the rack leaves uncovered. It chooses none.
import { wearerAt } from '../assess.ts'
import type { Id } from '../gear.ts'
import { familyOf, type Kind } from '../kinds.ts'
import type { Element } from '../state.ts'
import { bundlesFor, type Bundle } from './bundles.ts'
import type { Rack } from './rack.ts'

interface Uncovered {
  seat: Id
  kind: Kind
}

/** Of every other riding position that is filled, what fits it from the rack in this family. */
export function othersFor(rack: Rack, seatId: Id, kind: Kind): [seat: Id, bundles: readonly Bundle[]][] {
  const family = familyOf(kind)
  return [...rack.state.seats.values()]
    .filter((seat) => seat.id !== seatId && seat.member !== null)
    .map((seat) => [seat.id, bundlesFor(rack, wearerAt(rack.state, seat), family)])
}

/** Those for whom nothing else that fits is left once these are taken. */
export function leftUncovered(
  others: readonly [seat: Id, bundles: readonly Bundle[]][],
  taken: readonly Element[],
): Uncovered[] {
  const ids = new Set(taken.map((each) => each.id))
  const [first] = taken
  return others.flatMap(([seat, bundles]) =>
    first && bundles.length && bundles.every((each) => each.elements.some(({ id }) => ids.has(id)))
      ? [{ seat, kind: first.kind }]
      : [],
  )
}
