// The cares and exposures of one element as they stand after every amendment; nothing withdrawn is dropped, only marked.
import type { DoneCare, Event, EventOf } from '../domain/events.ts'
import type { Id } from '../domain/gear.ts'
import type { Exposure } from '../domain/kinds.ts'
import { dateOf, type LocalDate } from '../domain/time.ts'

type Amendment = EventOf<'event-amended'>

interface Standing {
  event: Event
  withdrawn: boolean
  amendments: Amendment[]
}
export interface StandingCare extends Standing {
  care: DoneCare
}
interface StandingExposure extends Standing {
  on: LocalDate
  exposure: Exposure
  incident: string | undefined
}

const isMeant = ({ data }: Amendment, seq: number, id: Id): boolean =>
  data.seq === seq && (data.subject === '' || data.subject === id)

/** The amendments of one event that are about this element, oldest first. */
export const amendmentsOf = (events: readonly Event[], seq: number, id: Id): Amendment[] =>
  events.filter((each): each is Amendment => each.type === 'event-amended' && isMeant(each, seq, id))

const isWithdrawn = (amendments: readonly Amendment[]): boolean =>
  amendments.some(({ data }) => data.with['withdrawn'] === true)

/** Every care that an event records, whatever way it came in. */
export function caresIn({ type, data }: Event): DoneCare[] {
  if (type === 'care-recorded') return [data]
  return type === 'batch-received' || type === 'records-imported' ? data.cares : []
}

/** Oldest first by the day they were done. */
export function caresOf(events: readonly Event[], id: Id): StandingCare[] {
  return events
    .flatMap((event) =>
      caresIn(event)
        .filter((each) => each.element === id)
        .map((first): StandingCare => {
          let care = first
          const amendments = amendmentsOf(events, event.seq, id).filter(({ data }) => {
            const isOfThis =
              (data.care === undefined || data.care === care.care) &&
              (data.on === undefined || data.on === care.on)
            if (isOfThis && !data.with['withdrawn']) care = { ...care, ...data.with }
            return isOfThis
          })
          return { event, care, amendments, withdrawn: isWithdrawn(amendments) }
        }),
    )
    .toSorted((one, other) => one.care.on.localeCompare(other.care.on) || one.event.seq - other.event.seq)
}

/** In the order of the journal; one that an amendment took this element out of counts as withdrawn. */
export function exposuresOf(events: readonly Event[], id: Id): StandingExposure[] {
  return events.flatMap((event): StandingExposure[] => {
    if (event.type !== 'exposure-recorded' || !event.data.elements.includes(id)) return []
    const amendments = amendmentsOf(events, event.seq, id)
    let { exposure, incident, elements } = event.data
    for (const { data } of amendments)
      ({ exposure, incident, elements } = { exposure, incident, elements, ...data.with })
    const withdrawn = isWithdrawn(amendments) || !elements.includes(id)
    return [{ event, on: dateOf(event.at), exposure, incident, amendments, withdrawn }]
  })
}
