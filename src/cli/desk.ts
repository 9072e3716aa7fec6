// What the board asks of the station's files: the newest events, a card, an exported log. It must never write the journal.
import { lastTour } from '../domain/state.ts'
import { cardText } from '../exports/history.ts'
import type { Session } from '../session.ts'
import { readNewest } from '../store/newest.ts'
import type { Desk } from '../tui/run-board.tsx'
import { exportToStation, FORMATS } from './export.ts'
import { eventsAbout } from './history.ts'

export const deskOf = (session: Session, folder: string, data: URL): Desk => ({
  newest: (count) => readNewest(folder, count),
  card: (id) => cardText(eventsAbout(folder, id), session.state, id, session.now()).split('\n'),
  exportLog(format) {
    const known = FORMATS.find((each) => each === format)!
    return exportToStation(session, folder, lastTour(session.state)!, known, data)
  },
})
