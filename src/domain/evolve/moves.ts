// Keeps when last somebody or something came to a riding position or left it; what is entered late asks for it.
import type { Event } from '../events.ts'
import type { Id } from '../gear.ts'
import { standInOf, type State } from '../state.ts'
import { isLater, type Instant } from '../time.ts'
import { changeMember, changeSeat } from './crew.ts'

/** Has to come before the event is folded: what leaves is still where it was. */
export function markMoves(draft: State, event: Event): void {
  for (const id of movedBy(draft, event)) {
    const mark = ({ movedAt }: { movedAt?: Instant }) => ({ movedAt: latest(movedAt, event.at) })
    if (draft.seats.has(id)) changeSeat(draft, id, mark)
    else changeMember(draft, id, mark)
  }
}

const latest = (one: Instant | undefined, other: Instant): Instant =>
  one !== undefined && isLater(one, other) ? one : other

/** The riding positions whose rider changes, and the holders of what comes or goes. */
function movedBy(state: State, event: Event): Id[] {
  switch (event.type) {
    case 'member-seated':
    case 'seat-cleared':
      return [event.data.seat]
    case 'tour-opened':
      return event.data.relieved.map(({ seat }) => seat)
    case 'element-swapped':
    case 'swap-reversed':
      return [event.data.holder]
    case 'element-issued':
      return [event.data.to]
    case 'element-returned':
    case 'element-held':
    case 'element-retired':
      return holdersOf(state, event.data.element)
    case 'elements-sent-away':
    case 'elements-received-back':
    case 'batch-received':
      return event.data.elements.flatMap((id) => holdersOf(state, id))
    case 'records-imported':
      return event.data.changes.flatMap(({ id, with: { issuedTo } }) =>
        typeof issuedTo === 'string' ? [issuedTo, ...holdersOf(state, id)] : [],
      )
    default:
      return []
  }
}

/** Whose own it is, and in whose place it stands. */
function holdersOf(state: State, id: Id): Id[] {
  const ids = [state.elements.get(id)?.issuedTo, standInOf(state, id)?.holder]
  return ids.filter((each) => each != null)
}
