// What the board asks of the station's files: the newest events, a card, an exported log. It must never write the journal.
import type { Event } from '../domain/events.ts'
import { passing, type LogFilter } from '../domain/log-filter.ts'
import { lastTour } from '../domain/state.ts'
import { cardText } from '../exports/history.ts'
import type { Session } from '../session.ts'
import { readNewest } from '../store/newest.ts'
import { readEvents } from '../store/station.ts'
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

/** A filter has to see the journal in its own order; only the newest of what passes is kept. */
function newestPassing(folder: string, filter: LogFilter, count: number): Event[] {
  const passes = passing(filter)
  let kept: Event[] = []
  readEvents(folder, (event) => {
    if (!passes(event)) return
    kept.push(event)
    if (kept.length >= 2 * count) kept = kept.slice(-count)
  })
  return kept.slice(-count).toReversed()
}
