// Tells each event of a tour for its readiness log; it must never leave one out, nor shorten what it said.
import { sayMember } from '../domain/decide/decision.ts'
import type { Event } from '../domain/events.ts'
import { aboutOf } from '../domain/about.ts'
import { sayChange } from '../domain/tell-import.ts'
import { tell } from '../domain/tell.ts'
import type { State } from '../domain/state.ts'
import type { Course } from './follow-tour.ts'
import type { LogEntry, Section } from './log-shape.ts'
import { sayWhen } from './said.ts'

function sectionOf({ type }: Event): Section {
  switch (type) {
    case 'tour-opened':
    case 'tour-handed-over':
      return 'tour'
    case 'member-seated':
    case 'seat-cleared':
      return 'crew'
    case 'seat-answered':
      return 'roll-call'
    case 'pressure-read':
      return 'pressures'
    case 'element-tagged':
    case 'tag-lifted':
      return 'tags'
    case 'element-swapped':
    case 'swap-reversed':
      return 'swaps'
    case 'exposure-recorded':
      return 'exposures'
    case 'care-recorded':
    case 'batch-received':
    case 'fit-test-recorded':
      return 'care'
    case 'element-issued':
    case 'element-returned':
    case 'elements-sent-away':
    case 'elements-received-back':
    case 'element-held':
    case 'element-retired':
      return 'custody'
    case 'note-made':
      return 'notes'
    case 'event-amended':
      return 'amendments'
    case 'item-acknowledged':
      return 'acknowledged'
    case 'policy-adopted':
      return 'policy'
    case 'station-made':
    case 'rig-added':
    case 'member-added':
    case 'element-added':
    case 'gear-imported':
    case 'pin-set':
    case 'pin-cleared':
    case 'pin-refused':
    case 'records-imported':
    case 'key-made':
    case 'journal-recovered':
      return 'books'
  }
}

export function entriesOf(course: Course, state: State, events: readonly Event[]): LogEntry[] {
  const amendments = [...course.events, ...course.laterAmendments].filter(
    (each) => each.type === 'event-amended',
  )
  const amendersOf = new Map<number, number[]>()
  for (const { seq, data } of amendments) amendersOf.set(data.seq, [...(amendersOf.get(data.seq) ?? []), seq])
  return events.map((event): LogEntry => {
    const { seq, at, by, type, data } = event
    // An import can bring a whole department: its rows are in the journal, the log says how many.
    const about = type === 'gear-imported' || type === 'records-imported' ? [] : [...new Set(aboutOf(event))]
    return {
      seq,
      at,
      by,
      byName: state.members.get(by)?.name ?? '',
      recordedAt: data.recordedAt ?? null,
      type,
      section: sectionOf(event),
      seats: about.filter((id) => state.seats.has(id)),
      members: about.filter((id) => state.members.has(id)),
      elements: about.flatMap((id) => state.elements.get(id) ?? []).map(({ id, kind }) => ({ id, kind })),
      words: tell(event, state),
      details: detailsOf(event, course, state),
      amendedBy: amendersOf.get(seq) ?? [],
      amendment:
        type === 'event-amended' ? { seq: data.seq, why: data.why, was: data.was, with: data.with } : null,
    }
  })
}

/** More than this many and the sentence names only the first ones. */
const NAMED = 6

const all = (what: string, ids: readonly string[]): string[] =>
  ids.length > NAMED ? [`${what}: ${ids.join(', ')}.`] : []

function detailsOf({ type, seq, data }: Event, course: Course, state: State): string[] {
  switch (type) {
    case 'tour-opened':
      return data.relieved.map(
        ({ seat, member }) => `Relieved at the opening: ${sayMember(state, member)} at ${seat}.`,
      )
    case 'exposure-recorded':
      return [...all('All riding positions', data.seats), ...all('All elements', data.elements)]
    case 'elements-sent-away':
    case 'elements-received-back':
      return all('All elements', data.elements)
    case 'seat-answered':
      return state.tour?.answers.get(data.seat)?.seq === seq
        ? []
        : ['This answer no longer stands: the riding position changed hands or was answered again.']
    case 'records-imported':
      return data.changes.map((each) => `Changed ${sayChange(each)}.`)
    case 'policy-adopted': {
      const { changes, add } = data.overlay
      return [
        ...changes.map((each) => `Rule ${each.id} ${each.off ? 'switched off' : 'changed'}: ${each.reason}`),
        ...add.map((each) => `Rule ${each.id} added: ${each.reason}`),
      ]
    }
    case 'event-amended':
      return [
        ...new Set((course.withdrawn.get(seq) ?? []).map(({ said }) => `It had said: ${sayRecord(said)}.`)),
      ]
    default:
      return []
  }
}

const sayRecord = ({ at, by, ...fields }: Record<string, unknown>): string => {
  const told = Object.entries(fields).flatMap(([key, value]) =>
    key === 'seq' ? [] : `${key} ${typeof value === 'object' ? JSON.stringify(value) : String(value)}`,
  )
  return `${told.join(', ')} (${sayWhen(String(at))}, by ${String(by)})`
}
