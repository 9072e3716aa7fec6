// Folds events into what is known; it never refuses, never judges, and never changes a state it was given.
import { applyAmendment } from './evolve/amendment.ts'
import * as crew from './evolve/crew.ts'
import * as gear from './evolve/gear.ts'
import { importGear, importRecords } from './evolve/import.ts'
import { callRoll, readPressure } from './evolve/inspection.ts'
import { markMoves } from './evolve/moves.ts'
import type { Event } from './events.ts'
import type { State } from './state.ts'
import { forkOf } from './table.ts'

/** The state after one more event; the given state stays as it was. */
export const evolve = (state: State, event: Event): State => replay(state, [event])

/** The state after all of these events. */
export function replay(state: State, events: Iterable<Event>): State {
  const draft = fork(state)
  for (const event of events) apply(draft, event)
  return draft
}

/**
 * A draft of our own to fold many events into: its tables are copies that cost nothing, and it copies a record the first
 * time that one changes. Once others have seen it, it is a state like any other: only a fork of it may go on.
 */
export const fork = (state: State): State => ({
  ...state,
  rigs: forkOf(state.rigs),
  seats: forkOf(state.seats),
  members: forkOf(state.members),
  elements: forkOf(state.elements),
  issued: forkOf(state.issued),
  standIns: new Map(state.standIns),
  tour: state.tour && {
    ...state.tour,
    answers: forkOf(state.tour.answers),
    acknowledged: new Map(state.tour.acknowledged),
  },
  tours: forkOf(state.tours),
  ridingLists: new Map(state.ridingLists),
})

/** Folds one event into a draft that nobody else holds. */
export function apply(draft: State, event: Event): void {
  draft.seq = event.seq
  markMoves(draft, event)
  switch (event.type) {
    case 'station-made': {
      const { recordedAt: _, ...facts } = event.data
      draft.station = { ...facts, madeAt: event.at }
      return
    }
    case 'rig-added':
      return crew.addRig(draft, event)
    case 'member-added':
      return crew.addMember(draft, event.data.member, event.seq)
    case 'element-added':
      return gear.addElement(draft, event.data.element, event.seq)
    case 'gear-imported':
      return importGear(draft, event)
    case 'records-imported':
      return importRecords(draft, event)
    case 'element-issued':
      return gear.issue(draft, event.data.element, event.data.to, event.data.on)
    case 'element-returned':
      return gear.unissue(draft, event.data.element)
    case 'tour-opened':
      return crew.openTour(draft, event)
    case 'member-seated':
      return crew.seatMember(draft, event)
    case 'seat-cleared':
      return crew.clearSeat(draft, event.data.seat)
    case 'seat-answered':
      crew.answer(draft, event)
      callRoll(draft, event)
      for (const { element, point, matter } of event.data.findings)
        gear.tag(draft, element, event, point, matter)
      return
    case 'pressure-read':
      return readPressure(draft, event)
    case 'element-tagged':
      return gear.tag(draft, event.data.element, event, event.data.reason, event.data.matter)
    case 'tag-lifted':
      return gear.liftTags(draft, event.data.element)
    case 'element-swapped':
      return gear.swap(draft, event)
    case 'swap-reversed':
      return gear.swapBack(draft, event)
    case 'exposure-recorded':
      return gear.expose(draft, event)
    case 'care-recorded':
      return gear.recordCare(draft, event.data, event)
    case 'fit-test-recorded':
      return crew.recordFitTest(draft, event.data, event)
    case 'elements-sent-away':
      return gear.sendAway(draft, event)
    case 'elements-received-back':
      return gear.receiveBack(draft, event)
    case 'batch-received':
      for (const care of event.data.cares) gear.recordCare(draft, care, event)
      return gear.receiveBack(draft, event)
    case 'element-held':
      return gear.hold(draft, event)
    case 'element-retired':
      return gear.retire(draft, event)
    case 'note-made':
      draft.notes = [
        ...draft.notes.slice(-49),
        { seq: event.seq, at: event.at, by: event.by, text: event.data.text },
      ]
      return
    case 'event-amended':
      return applyAmendment(draft, event)
    case 'item-acknowledged':
      return crew.acknowledge(draft, event)
    case 'tour-handed-over':
      crew.closeTour(draft, event)
      draft.sealKey = event.data.sealKey ?? draft.sealKey
      return crew.tookPin(draft, event)
    case 'key-made':
      draft.sealKey = event.data.key
      return
    case 'policy-adopted':
      draft.overlay = event.data.overlay
      return crew.tookPin(draft, event)
    case 'pin-set':
    case 'pin-cleared':
      crew.keepPin(draft, event)
      return crew.tookPin(draft, event)
    case 'pin-refused':
      return crew.refusedPin(draft, event)
    case 'journal-recovered':
      return
  }
}
