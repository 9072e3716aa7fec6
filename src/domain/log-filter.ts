// Which events of the journal a reader of the log wants to see; it must never hide that one of them was corrected.
import type { Event } from './events.ts'
import type { Id } from './gear.ts'
import { aboutOf } from './about.ts'

const FILTERS = ['tour', 'seat', 'element', 'member'] as const
export interface LogFilter {
  by: (typeof FILTERS)[number]
  id: Id
}

/** Asks of each event, in the order of the journal, whether it is wanted; a correction follows what it corrects. */
export function passing({ by, id }: LogFilter): (event: Event) => boolean {
  const wanted = by === 'tour' ? ofTour(id) : by === 'member' ? ofMember(id) : ofOne(id)
  const seqs = new Set<number>()
  return (event) => {
    const passes = wanted(event) || (event.type === 'event-amended' && seqs.has(event.data.seq))
    if (passes) seqs.add(event.seq)
    return passes
  }
}

const ofOne =
  (id: Id) =>
  (event: Event): boolean =>
    aboutOf(event).includes(id)

/** What they were part of, and what they recorded. */
const ofMember =
  (id: Id) =>
  (event: Event): boolean =>
    event.by === id || aboutOf(event).includes(id)

/** From its opening to its hand-over: tours never overlap. */
function ofTour(id: Id): (event: Event) => boolean {
  let isOpen = false
  return (event) => {
    if (event.type === 'tour-opened') isOpen = event.data.tour === id
    const passes = isOpen
    if (event.type === 'tour-handed-over') isOpen = false
    return passes
  }
}
