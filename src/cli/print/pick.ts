// Which elements are meant: named one by one, by kind, by member, or all; it must never quietly leave out one that was named.
import type { Id } from '../../domain/gear.ts'
import { KINDS, type Kind } from '../../domain/kinds.ts'
import { ensembleAt } from '../../domain/ensemble.ts'
import type { Element, State } from '../../domain/state.ts'

export interface Asked {
  ids: readonly Id[]
  kind?: string | undefined
  member?: string | undefined
  all?: boolean | undefined
}

export const isOpenToAll = ({ ids, kind, member, all }: Asked): boolean =>
  !ids.length && kind === undefined && member === undefined && !all

/** `coat shell` and `coat-shell` are the same kind; undefined for one there is not. */
export const kindNamed = (name: string): Kind | undefined => {
  const plain = name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/g, '-')
  return KINDS.find((each) => each === plain)
}

/** In the order asked for, or that of the books; the sentence when something asked for is not there. */
export function pickElements(
  asked: Asked,
  state: State,
  among: (element: Element) => boolean,
): Id[] | string {
  const { ids, kind, member } = asked
  const unknown = ids.filter((id) => !state.elements.has(id))
  if (unknown.length) {
    const names = unknown.slice(0, 5).join(', ')
    const more = unknown.length > 5 ? ` and ${unknown.length - 5} more` : ''
    return `There is no element ${names}${more} in this station. Nothing was made.`
  }
  if (member !== undefined && !state.members.has(member) && !state.seats.has(member)) {
    return `There is no member or riding position ${member} in this station. Nothing was made.`
  }
  if (ids.length && kind === undefined && member === undefined) return [...new Set(ids)]
  const worn = new Set(wornBy(state, member))
  return [...state.elements.values()]
    .filter((each) => among(each) || ids.includes(each.id))
    .filter((each) => !ids.length || ids.includes(each.id))
    .filter((each) => kind === undefined || each.kind === kindNamed(kind))
    .filter((each) => member === undefined || each.issuedTo === member || worn.has(each.id))
    .map((each) => each.id)
}

/** What stands in for a member's own counts as theirs while they ride with it. */
function wornBy(state: State, member: string | undefined): Id[] {
  const seat = state.seats.get(state.members.get(member ?? '')?.seat ?? member ?? '')
  return seat ? ensembleAt(state, seat).map((each) => each.id) : []
}
