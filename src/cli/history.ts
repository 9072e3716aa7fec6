// `bayboard history`: all that happened to one element, member, riding position or rig; it must never change the station.
import type { Event } from '../domain/events.ts'
import { aboutOf } from '../domain/about.ts'
import { historyText } from '../exports/history.ts'
import { readEvents, readEventsNaming } from '../store/station.ts'
import { progressOf, type Progress } from './progress.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

export const history = (world: World, id: string, options: { station?: string }): Promise<ExitStatus> =>
  withStation(world, options.station, (session, folder) => {
    const { state } = session
    const isKnown = [state.elements, state.members, state.seats, state.rigs].some((table) => table.has(id))
    if (!isKnown && !state.tours.has(id)) {
      return complain(
        world,
        `There is no element, member, riding position, rig or tour ${id} in this station.`,
        1,
      )
    }
    const progress = progressOf(world, 'Reading the journal', session.head.seq)
    const events = eventsAbout(folder, id, session.head.seq, progress)
    print(world, historyText(events, state, id, session.now()))
    return 0
  })

/** Every event up to `lastSeq` that is about an id, in the order of the journal. */
export function eventsAbout(folder: string, id: string, lastSeq: number, progress?: Progress): Event[] {
  const events: Event[] = []
  const take = (event: Event): void => {
    if (aboutOf(event).includes(id)) events.push(event)
    progress?.step(event.seq)
  }
  if (!readEventsNaming(folder, [id], lastSeq, take)) readEvents(folder, take)
  progress?.end()
  return events
}
