// Writes an iCalendar file (RFC 5545): escaped, folded by octets. It must never make up an identity, a time or a word.
import ical, { ICalCalendarMethod, ICalEventTransparency } from 'ical-generator'

interface CalendarEntry {
  /** The same for the same matter in every calendar, so that a newer one moves it and never doubles it. */
  uid: string
  on: string
  summary: string
  description: string
}
export interface Calendar {
  name: string
  /** When it was made, and how many revisions its source had by then. */
  at: string
  sequence: number
  entries: readonly CalendarEntry[]
}

/** All-day events, not to-dos: every calendar shows events, and many drop to-dos from a file. They take up nobody's time. */
export function calendarFile({ name, at, sequence, entries }: Calendar): string {
  const calendar = ical({
    // The library leaves a name as it is; a comma in a text of RFC 5545 would begin another value.
    name: name.replaceAll(/[\\;,]/g, String.raw`\$&`),
    prodId: { company: 'Bayboard', product: 'forecast', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
  })
  for (const { uid, on, summary, description } of entries) {
    calendar.createEvent({
      id: uid,
      sequence,
      stamp: new Date(at),
      start: on,
      allDay: true,
      summary,
      description,
      transparency: ICalEventTransparency.TRANSPARENT,
    })
  }
  return `${calendar.toString()}\r\n`
}
