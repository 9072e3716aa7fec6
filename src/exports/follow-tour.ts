// Walks a journal once and keeps one tour's events and the state it left; it must never keep the events of other tours.
import { recordsOf } from '../domain/decide/amend.ts'
import type { StandingRecord } from '../domain/decide/amend-meant.ts'
import type { Event, EventOf } from '../domain/events.ts'
import { apply } from '../domain/evolve.ts'
import type { Id } from '../domain/gear.ts'
import { emptyState, type Said, type State } from '../domain/state.ts'

/** An event as the journal hands it out; its line's hash is used where it is there. */
export type LoggedEvent = Event & { hash?: string | undefined }

export interface Riding extends Said {
  member: Id
  relieves: Id | null
}

/** A tour as the journal tells it, from its opening to its hand-over or as far as it has come. */
export interface Course {
  opened: EventOf<'tour-opened'>
  closed: EventOf<'tour-handed-over'> | null
  events: LoggedEvent[]
  /** Who rode where when it opened, before its opening relieved anybody. */
  riders: ReadonlyMap<Id, Riding>
  /** What each withdrawn record had said, by the event that withdrew it. */
  withdrawn: Map<number, StandingRecord[]>
  laterAmendments: EventOf<'event-amended'>[]
}

export interface Followed {
  course: Course | undefined
  /** As the tour left it: before its hand-over is folded in, so that its roll call still stands. */
  state: State
  tours: readonly Id[]
  /** The number of the journal's last event. */
  length: number
}

/** Give it every event of the journal in order, then ask for the tour. */
export function followTour(tourId: Id): { see(event: LoggedEvent): void; end(): Followed } {
  const state = emptyState()
  const tours: Id[] = []
  const riders = new Map<Id, Riding>()
  let course: Course | undefined
  let length = 0

  const open = (opened: EventOf<'tour-opened'>): void => {
    course = {
      opened,
      closed: null,
      events: [],
      riders: new Map(riders),
      withdrawn: new Map(),
      laterAmendments: [],
    }
  }

  return {
    see(event) {
      length = event.seq
      if (event.type === 'tour-opened') {
        tours.push(event.data.tour)
        if (event.data.tour === tourId) open(event)
      }
      if (event.type === 'event-amended' && course && isWithin(course, event.data.seq)) {
        keepWithdrawn(course, state, event)
        if (course.closed) course.laterAmendments.push(event)
      }
      // What came after its hand-over does not change how the tour was left.
      if (course?.closed) return
      course?.events.push(event)
      if (course && event.type === 'tour-handed-over') {
        course.closed = event
        return
      }
      trackRiders(riders, event)
      apply(state, event)
    },
    end: () => ({ course, state, tours, length }),
  }
}

const isWithin = ({ opened, closed }: Course, seq: number): boolean =>
  seq >= opened.seq && (closed === null || seq <= closed.seq)

function keepWithdrawn(course: Course, state: State, { seq, data }: EventOf<'event-amended'>): void {
  if (!data.with.withdrawn) return
  const records = recordsOf(state, data.seq)
  const meant = records.filter(
    ({ type, subject, said }) =>
      type === data.type &&
      (data.subject === '' || subject === data.subject) &&
      (data.care === undefined || said['care'] === data.care) &&
      (data.on === undefined || said['on'] === data.on),
  )
  course.withdrawn.set(seq, meant)
}

function trackRiders(riders: Map<Id, Riding>, { seq, at, by, type, data }: Event): void {
  if (type === 'member-seated') {
    riders.set(data.seat, { member: data.member, relieves: data.relieves ?? null, seq, at, by })
  } else if (type === 'seat-cleared') {
    riders.delete(data.seat)
  } else if (type === 'tour-opened') {
    for (const { seat } of data.relieved) riders.delete(seat)
  }
}
