// Names what an event is about: elements, members, seats, rigs, tours; it must never leave one out.
import type { Event } from './events.ts'
import type { Id } from './gear.ts'
import { importedIds } from './tell-import.ts'

/** Every id an event is about: elements, members, seats, rigs, tours. */
export function aboutOf(event: Event): Id[] {
  switch (event.type) {
    case 'station-made':
    case 'note-made':
    case 'policy-adopted':
    case 'key-made':
    case 'journal-recovered':
      return []
    case 'rig-added':
      return [event.data.rig.id, ...event.data.rig.seats.map((seat) => seat.id)]
    case 'member-added':
      return [event.data.member.id]
    case 'element-added':
      return [event.data.element.id]
    case 'gear-imported': {
      const { members, elements } = event.data
      return [...members, ...elements]
        .map((each) => each.id)
        .concat(elements.flatMap((each) => each.issuedTo ?? []))
    }
    case 'records-imported':
      return importedIds(event.data)
    case 'element-issued':
      return [event.data.element, event.data.to]
    case 'tour-opened':
      return [
        event.data.tour,
        event.data.officer,
        ...event.data.relieved.flatMap(({ seat, member }) => [seat, member]),
      ]
    case 'member-seated':
      return [event.data.seat, event.data.member, ...(event.data.relieves ? [event.data.relieves] : [])]
    case 'seat-cleared':
      return [event.data.seat, event.data.member]
    case 'seat-answered':
      return [event.data.seat, event.data.member, ...event.data.findings.map((each) => each.element)]
    case 'element-swapped':
    case 'swap-reversed':
      return [event.data.seat, event.data.holder, event.data.in, ...(event.data.out ? [event.data.out] : [])]
    case 'exposure-recorded':
      return [...event.data.seats, ...event.data.elements]
    case 'fit-test-recorded':
    case 'pin-cleared':
    case 'pin-refused':
      return [event.data.member]
    case 'pin-set':
      return [event.data.member, ...(event.data.witness ? [event.data.witness] : [])]
    case 'elements-sent-away':
    case 'elements-received-back':
    case 'batch-received':
      return event.data.elements
    case 'event-amended':
      return [event.data.subject, ...elementsIn(event.data.with), ...elementsIn(event.data.was)].filter(
        Boolean,
      )
    case 'item-acknowledged':
      return event.data.about
    case 'tour-handed-over':
      return [...new Set([event.data.tour, event.data.from, event.data.to, event.by])]
    case 'element-returned':
    case 'pressure-read':
    case 'element-tagged':
    case 'tag-lifted':
    case 'care-recorded':
    case 'element-held':
    case 'element-retired':
      return [event.data.element]
  }
}

const elementsIn = ({ elements }: Record<string, unknown>): Id[] => (elements as Id[] | undefined) ?? []
