// The newest events as the lines of the log, each with what became of it; it must never leave one out.
import { aboutOf } from '../domain/about.ts'
import type { Event, EventOf } from '../domain/events.ts'
import type { State } from '../domain/state.ts'
import { sayMember } from '../domain/decide/decision.ts'
import { sayFields } from '../domain/tell-import.ts'
import { tell } from '../domain/tell.ts'
import type { LogEntry } from './ui-state.ts'

const LABELS: readonly Event['type'][] = [
  'member-added',
  'element-added',
  'gear-imported',
  'records-imported',
]

/** `withdrawn by #41`; an exposure may have been withdrawn for one of its elements only. */
function sayAmended({ seq, data }: EventOf<'event-amended'>): string {
  const what = data.with['withdrawn'] ? 'withdrawn' : 'amended'
  const isPart = data.type === 'exposure-recorded' && data.subject !== ''
  return `${what}${isPart ? ` for ${data.subject}` : ''} by #${seq}`
}

/** What was corrected, and why, with who said so and when. */
function sayVersion({ seq, at, by, data }: EventOf<'event-amended'>, state: State): string {
  const subject = data.subject ? `${data.subject}: ` : ''
  const says = data.with['withdrawn'] ? 'withdrawn' : sayFields(data.with, data.was)
  const who = `${sayWhen(at)}, ${sayMember(state, by)}`
  return `As amended by #${seq} (${who}): ${subject}${says}. Why: ${data.why}`
}

const sayWhen = (at: string): string => `${at.slice(0, 10)} ${at.slice(11, 16)}`

/** `events` newest first; a correction is always newer than what it corrects, so it is among them. */
export function logEntries(events: readonly Event[], state: State): LogEntry[] {
  const amended = new Map<number, EventOf<'event-amended'>[]>()
  return events.map((event) => {
    if (event.type === 'event-amended') {
      amended.set(event.data.seq, [event, ...(amended.get(event.data.seq) ?? [])])
    }
    const said = tell(event, state)
    const amendments = amended.get(event.seq) ?? []
    const last = amendments.at(-1)
    return {
      seq: event.seq,
      text: `#${event.seq} ${sayWhen(event.at)} ${event.by}: ${said}`,
      became: last && sayAmended(last),
      about: [...new Set(aboutOf(event))],
      versions: last
        ? [`As first recorded: ${said}`, ...amendments.map((each) => sayVersion(each, state))]
        : [],
      isCorrection: event.type === 'event-amended',
      isLabel: LABELS.includes(event.type),
    }
  })
}
