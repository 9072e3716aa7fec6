// The newest events as the lines of the log, each with what became of it; it must never leave one out.
import type { Event, EventOf } from '../domain/events.ts'
import type { State } from '../domain/state.ts'
import { tell } from '../domain/tell.ts'
import type { LogEntry } from './ui-state.ts'

const LABELS: readonly Event['type'][] = ['member-added', 'element-added', 'gear-imported']

/** `withdrawn by #41`; an exposure may have been withdrawn for one of its elements only. */
function sayAmended({ seq, data }: EventOf<'event-amended'>): string {
  const what = data.with['withdrawn'] ? 'withdrawn' : 'amended'
  const isPart = data.type === 'exposure-recorded' && data.subject !== ''
  return `${what}${isPart ? ` for ${data.subject}` : ''} by #${seq}`
}

/** `events` newest first; a correction is always newer than what it corrects, so it is among them. */
export function logEntries(events: readonly Event[], state: State): LogEntry[] {
  const amended = new Map<number, string>()
  return events.map((event) => {
    if (event.type === 'event-amended' && !amended.has(event.data.seq)) {
      amended.set(event.data.seq, sayAmended(event))
    }
    return {
      seq: event.seq,
      text: `#${event.seq} ${event.at.slice(0, 10)} ${event.at.slice(11, 16)} ${event.by}: ${tell(event, state)}`,
      became: amended.get(event.seq),
      isCorrection: event.type === 'event-amended',
      isLabel: LABELS.includes(event.type),
    }
  })
}
