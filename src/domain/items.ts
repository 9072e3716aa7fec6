// The open items one officer leaves to the next; derived from the books alone, never from the rules.
import { nameOf, capital, sayAbsence, sayMember } from './decide/decision.ts'
import type { Said, State } from './state.ts'

export interface OpenItem {
  /** `tag-C-1041`, `away-C-1041`, `held-C-1041`, `stand-in-C-1900`: what is open, and on which element. */
  id: string
  /** One sentence. */
  words: string
  /** Who opened it, and when. */
  opened: Said
}

export function openItems(state: State): OpenItem[] {
  const items: OpenItem[] = []
  for (const element of state.elements.values()) {
    const { id, custody, tags } = element
    if (custody.where === 'retired') continue
    const [tag] = tags
    if (tag) {
      const reasons = tags.map((each) => each.reason).join('; ')
      items.push({
        id: `tag-${id}`,
        words: `${capital(nameOf(element))} is out of service: ${reasons}.`,
        opened: tag,
      })
    }
    if (custody.where === 'away' || custody.where === 'held') {
      const words = `${capital(nameOf(element))} is ${sayAbsence(element)}.`
      items.push({ id: `${custody.where}-${id}`, words, opened: custody.since })
    }
  }
  for (const standIn of state.standIns.values()) {
    const spare = state.elements.get(standIn.element)!
    const own = standIn.own ? ` for ${standIn.own}` : ''
    const words = `${capital(nameOf(spare))} stands in${own} at ${standIn.seat}, with ${holderName(state, standIn.holder)}.`
    items.push({ id: `stand-in-${spare.id}`, words, opened: standIn })
  }
  return items
}

const holderName = (state: State, holder: string): string =>
  state.members.has(holder) ? sayMember(state, holder) : 'the riding position itself'

export const findItem = (state: State, id: string): OpenItem | undefined =>
  openItems(state).find((item) => item.id === id)

/** Who took the item on in this tour; what was opened anew since then has to be read again. */
export function acknowledgedBy(state: State, item: OpenItem): Said | undefined {
  const said = state.tour?.acknowledged.get(item.id)
  return said && said.seq > item.opened.seq ? said : undefined
}
