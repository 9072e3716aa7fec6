// Who rode where and when in one tour, early relief among it; it must never guess a time that no event gives.
import { sayMember } from '../domain/decide/decision.ts'
import type { Event } from '../domain/events.ts'
import type { Id } from '../domain/gear.ts'
import type { State } from '../domain/state.ts'
import type { Course, Riding } from './follow-tour.ts'
import type { Seating } from './log-shape.ts'
import { sayWhen } from './said.ts'

/** In the order in which they began. */
export function seatingsOf({ opened, closed, events, riders }: Course, state: State): Seating[] {
  const seatings: Seating[] = []
  const now = new Map<Id, Seating>()
  const start = (seat: Id, { member, at, seq, relieves }: Riding): void => {
    const seating: Seating = {
      seat,
      member,
      name: state.members.get(member)?.name ?? '',
      from: at,
      fromSeq: seq,
      beforeOpening: seq < opened.seq,
      relieves,
      until: null,
      untilSeq: null,
      relievedBy: null,
      relievedEarly: false,
      words: '',
    }
    now.set(seat, seating)
    seatings.push(seating)
  }
  const end = (seat: Id, { at, seq }: Event, relievedBy: Id | null): void => {
    const seating = now.get(seat)
    if (!seating) return
    const platoon = relievedBy === null ? undefined : state.members.get(relievedBy)?.platoon
    const relievedEarly = relievedBy !== null && platoon !== opened.data.platoon
    Object.assign(seating, { until: at, untilSeq: seq, relievedBy, relievedEarly })
    now.delete(seat)
  }
  for (const [seat, riding] of riders)
    if (!opened.data.relieved.some((each) => each.seat === seat)) start(seat, riding)
  for (const event of events) {
    if (event.type === 'seat-cleared') end(event.data.seat, event, null)
    if (event.type !== 'member-seated') continue
    const { seat, member, relieves = null } = event.data
    end(seat, event, member)
    start(seat, { ...event, member, relieves })
  }
  return seatings.map((each) => ({ ...each, words: saySeating(each, state, closed !== null) }))
}

function saySeating(seating: Seating, state: State, isClosed: boolean): string {
  const { seat, member, from, beforeOpening, relieves, until, relievedBy, relievedEarly } = seating
  const who = (id: Id): string => sayMember(state, id)
  const early = beforeOpening ? ', before the tour opened' : ''
  const relieving = relieves === null ? '' : `, relieving ${who(relieves)}`
  const by = relievedBy === null ? '' : `, relieved ${relievedEarly ? 'early ' : ''}by ${who(relievedBy)}`
  const last =
    until === null ? (isClosed ? 'to the close of the tour' : 'still riding') : `to ${sayWhen(until)}`
  return `${seat}: ${who(member)} from ${sayWhen(from)}${early}${relieving}; ${last}${by}.`
}
