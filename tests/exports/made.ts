// Exports the log of a recorded tour for a test, and fails where it is refused; it must never fill in for the program.
import { followTour, type LoggedEvent } from '../../src/exports/follow-tour.ts'
import { logOf, type LogAnswer, type ReadinessLog } from '../../src/exports/readiness-log.ts'
import { instant, type Recorder } from './recorder.ts'

export const EXPORTED = instant('26 08:00')

interface Asked {
  events: readonly LoggedEvent[]
  tourId: string
  at: string
  headHash: string
}

/** Walks the events as `bayboard export` walks a journal; `last` is the newest tour. */
export function readinessLog({ events, tourId, ...rest }: Asked): LogAnswer {
  const newest = events.findLast((each) => each.type === 'tour-opened')?.data.tour ?? 'last'
  const asked = tourId === 'last' ? newest : tourId
  const walk = followTour(asked)
  for (const event of events) walk.see(event)
  return logOf(walk.end(), { tourId: asked, ...rest })
}

export function madeOf({ events, head }: Recorder, tourId = 'last'): ReadinessLog {
  const made = readinessLog({ events, tourId, at: EXPORTED, headHash: head })
  if ('refused' in made) throw new Error(made.refused)
  return made.log
}

/** Without the breaks that paper needs. */
export const unwrapped = (text: string): string => text.replace(/\s+/g, ' ')

export const UNSAFE =
  /[\u0000-\u0009\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/
