// What the board asks of the station's files: the newest events, a card, an exported log. It must never write the journal.
import { lastTour } from '../domain/state.ts'
import type { Event } from '../domain/events.ts'
import { aboutOf } from '../domain/tell.ts'
import { historyText } from '../exports/history.ts'
import type { Session } from '../session.ts'
import { readEvents } from '../store/station.ts'
import type { Desk } from '../tui/run-board.tsx'
import { exportToStation, FORMATS } from './export.ts'

export const deskOf = (session: Session, folder: string): Desk => ({
  newest(count) {
    const newest: Event[] = []
    readEvents(folder, (event) => {
      newest.push(event)
      if (newest.length > count * 2) newest.splice(0, count)
    })
    return newest.slice(-count).toReversed()
  },
  card(id) {
    const events: Event[] = []
    readEvents(folder, (event) => {
      if (aboutOf(event).includes(id)) events.push(event)
    })
    return historyText(events, session.state, id).split('\n')
  },
  exportLog(format) {
    const known = FORMATS.find((each) => each === format)!
    return exportToStation(session, folder, lastTour(session.state)!, known)
  },
})
