// What the board asks of the station's files: the newest events, a card, an exported log. It must never write the journal.
import type { Event } from '../domain/events.ts'
import { passing, type LogFilter } from '../domain/log-filter.ts'
import { lastTour } from '../domain/state.ts'
import { cardText } from '../exports/history.ts'
import type { Session } from '../session.ts'
import { readNewest } from '../store/newest.ts'
import { readEvents, readEventsNaming } from '../store/station.ts'
import type { Desk } from '../tui/run-board.ts'
import { exportToStation, FORMATS } from './export.ts'
import { eventsAbout } from './history.ts'
import { planApart } from './plan-apart.ts'

export const deskOf = (session: Session, folder: string, data: URL): Desk => ({
  newest: (count, filter) => (filter ? newestPassing(folder, filter, count) : readNewest(folder, count)),
  card: (id) =>
    cardText(eventsAbout(folder, id, session.head.seq), session.state, id, session.now()).split('\n'),
  async exportLog(format) {
    const known = FORMATS.find((each) => each === format)
    if (known) return exportToStation(session, folder, lastTour(session.state)!, known, data)
    const { printToStation } = await import('./print.ts')
    return printToStation(session, folder, format, data)
  },
  plan: () => planApart(session),
})

/** So many hold a tour that is open or has just ended. */
const A_TOUR = 5_000
const AMENDED: Event['type'] = 'event-amended'

/** A filter has to see in the journal's own order all that it may want; only the newest of what passes is kept. */
function newestPassing(folder: string, filter: LogFilter, count: number): Event[] {
  const passes = passing(filter)
  let kept: Event[] = []
  const take = (event: Event): void => {
    if (!passes(event)) return
    kept.push(event)
    if (kept.length >= 2 * count) kept = kept.slice(-count)
  }
  if (filter.by === 'tour') {
    const tail = readNewest(folder, A_TOUR).toReversed()
    const isWhole = tail.some((each) => each.type === 'tour-opened' && each.data.tour === filter.id)
    if (isWhole) tail.forEach(take)
    else readEvents(folder, take)
  } else if (!readEventsNaming(folder, [filter.id, AMENDED], Infinity, take)) {
    // A correction may name nothing but the event that it corrects.
    readEvents(folder, take)
  }
  return kept.slice(-count).toReversed()
}
