// Whose own gear is here again and fit while a spare still stands in for it; it proposes to swap back and never does.
import { settingOf, wearerAt } from '../assess.ts'
import type { Id } from '../gear.ts'
import { familyOf, type Kind } from '../kinds.ts'
import type { Policy } from '../policy/shape.ts'
import { isHere, place, type Element, type StandIn, type State } from '../state.ts'
import type { Instant } from '../time.ts'
import { isWhole, wearing } from './bundles.ts'
import { tiesOf, touchedBy } from './ties.ts'

export interface OwnBack {
  seat: Id
  kind: Kind
  own: Element
  spare: Id
}

/** The holder's own element, where it could be worn as far as the books go. */
function ownOf(state: State, { holder, kind, own }: StandIn): Element | undefined {
  const id = own ?? state.issued.get(place(holder, kind))?.[0]
  const element = id === undefined ? undefined : state.elements.get(id)
  return element?.issuedTo === holder && isHere(element) && !element.tags.length ? element : undefined
}

const seatOf = (state: State, holder: Id): Id | null =>
  state.seats.has(holder) ? holder : (state.members.get(holder)?.seat ?? null)

/** Fit as it would be worn: with the other layers of its own that would go back with it, and with whatever else stays. */
export function ownsBack(state: State, policy: Policy, at: Instant): OwnBack[] {
  const settings = [settingOf(state, policy, at)]
  const ties = tiesOf(policy)
  return [...state.standIns.values()].flatMap((standIn): OwnBack[] => {
    const { holder, kind, element: spare } = standIn
    const own = ownOf(state, standIn)
    const seat = state.seats.get(seatOf(state, holder) ?? '')
    if (!own || !seat) return []
    const layers = familyOf(kind).flatMap((layer) => {
      const beside = state.standIns.get(place(holder, layer))
      return beside ? (ownOf(state, beside) ?? []) : []
    })
    const wearer = wearing(wearerAt(state, seat), layers)
    const isGood = isWhole(state, wearer, touchedBy(ties, familyOf(kind)), () => settings)
    return isGood ? [{ seat: seat.id, kind, own, spare }] : []
  })
}
