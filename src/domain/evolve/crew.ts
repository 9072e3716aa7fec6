// Folds what happens to rigs, members, seats and tours into a draft; it changes records of the draft's own only.
import type { DoneFitTest, EventOf } from '../events.ts'
import type { Id, MemberFacts } from '../gear.ts'
import { ownOf, Table } from '../table.ts'
import type { FitTest, Member, Said, Seat, State } from '../state.ts'

/** Older records stay in the journal; these are enough for any amendment to fall back on. */
const KEPT_FIT_TESTS = 8

export const said = ({ seq, at, by }: Said): Said => ({ seq, at, by })

export function addRig(draft: State, { data: { rig } }: EventOf<'rig-added'>): void {
  draft.rigs.set(rig.id, { ...rig, seats: rig.seats.map((seat) => seat.id) })
  for (const { id, position, critical = false } of rig.seats) {
    draft.seats.set(id, { id, rig: rig.id, position, critical, member: null })
  }
}

export function addMember(draft: State, member: MemberFacts, seq: number): void {
  draft.members.set(member.id, { ...member, seq, seat: null, fitTests: [] })
}

export function changeMember(draft: State, id: Id, change: (member: Member) => Partial<Member>): void {
  const member = ownOf(draft.members, id, (each) => ({ ...each }))
  if (member) Object.assign(member, change(member))
}

/** For what a change would leave behind. */
function replaceMember(draft: State, id: Id, change: (member: Member) => Member): void {
  const member = draft.members.get(id)
  if (member) draft.members.set(id, change(member))
}

const ownSeat = (draft: State, id: Id): Seat | undefined => ownOf(draft.seats, id, (each) => ({ ...each }))

export function changeSeat(draft: State, id: Id, change: (seat: Seat) => Partial<Seat>): void {
  const seat = ownSeat(draft, id)
  if (seat) Object.assign(seat, change(seat))
}

const standUp = (draft: State, id: Id): void => changeMember(draft, id, () => ({ seat: null }))

export function openTour(draft: State, event: EventOf<'tour-opened'>): void {
  const { tour: id, platoon, officer, on, relieved } = event.data
  for (const { seat } of relieved) clearSeat(draft, seat)
  draft.tour = {
    id,
    platoon,
    officer,
    on,
    opened: said(event),
    answers: new Table(),
    acknowledged: new Map(),
  }
  draft.tours.set(id, { platoon, on, openedAt: event.at })
  // Whoever of the platoon came early is where they are for this tour, and no longer there on a trade.
  for (const { id: seat, member, as: _, ...rest } of draft.seats.values()) {
    if (member === null || draft.members.get(member)?.platoon !== platoon) continue
    draft.seats.set(seat, { id: seat, member, ...rest })
    listRider(draft, platoon, seat, member)
  }
}

export function closeTour(draft: State, { at, data }: EventOf<'tour-handed-over'>): void {
  const worked = draft.tours.get(data.tour)
  if (worked) draft.tours.set(data.tour, { ...worked, to: data.to, endedAt: at })
  draft.tour = null
}

function listRider(draft: State, platoon: string, seat: Id, member: Id): void {
  const known = draft.ridingLists.get(platoon)
  // Nobody is listed twice, so whoever is listed here is listed nowhere else.
  if (known?.get(seat) === member) return
  const list = new Map(known)
  for (const [place, name] of list) if (name === member) list.delete(place)
  draft.ridingLists.set(platoon, list.set(seat, member))
}

export function seatMember(draft: State, { data: { seat, member, as } }: EventOf<'member-seated'>): void {
  clearSeat(draft, seat)
  changeSeat(draft, seat, () => ({ member, ...(as && { as }) }))
  changeMember(draft, member, () => ({ seat }))
  // The list is the platoon's own: a trade, overtime, or the relief that comes early is no part of it.
  if (!draft.tour || as || draft.members.get(member)?.platoon !== draft.tour.platoon) return
  listRider(draft, draft.tour.platoon, seat, member)
}

/** Whoever sits there leaves; the seat has to answer again. */
export function clearSeat(draft: State, id: Id): void {
  const seat = ownSeat(draft, id)
  if (seat?.member) standUp(draft, seat.member)
  if (seat?.as) {
    const { as: _, ...rest } = seat
    draft.seats.set(id, { ...rest, member: null })
  } else if (seat) seat.member = null
  draft.tour?.answers.delete(id)
}

export function answer(draft: State, event: EventOf<'seat-answered'>): void {
  const { seq, at, by, data } = event
  const { seat, member, findings } = data
  draft.tour?.answers.set(seat, { seq, at, by, member, findings })
}

export function recordFitTest(draft: State, done: DoneFitTest, event: Said): void {
  const { member, facepiece, on, result } = done
  const test: FitTest = { ...said(event), facepiece, on, result }
  changeMember(draft, member, ({ fitTests }) => ({ fitTests: inOrder([...fitTests, test], KEPT_FIT_TESTS) }))
}

/** Oldest first by the day it was done, then by the journal; the newest `most` of them. */
export const inOrder = <T extends Said & { on: string }>(records: T[], most: number): T[] =>
  records.toSorted((a, b) => (a.on === b.on ? a.seq - b.seq : a.on < b.on ? -1 : 1)).slice(-most)

export function acknowledge(draft: State, event: EventOf<'item-acknowledged'>): void {
  draft.tour?.acknowledged.set(event.data.item, said(event))
}

export function keepPin(draft: State, { type, data }: EventOf<'pin-set' | 'pin-cleared'>): void {
  replaceMember(draft, data.member, ({ pin: _, pinTries: __, ...rest }) =>
    type === 'pin-set' ? { ...rest, pin: data.pin } : rest,
  )
}

/** The right PIN ends the count of wrong ones: of everybody who gave theirs. */
export function tookPin(
  draft: State,
  { type, by, data }: EventOf<'tour-handed-over' | 'policy-adopted' | 'pin-set' | 'pin-cleared'>,
): void {
  const gave = [
    data.byPin && by,
    type === 'tour-handed-over' && data.readBackByPin && data.to,
    type === 'pin-set' && data.witness,
  ]
  for (const id of gave) if (id) replaceMember(draft, id, ({ pinTries: _, ...rest }) => rest)
}

export function refusedPin(draft: State, { at, data }: EventOf<'pin-refused'>): void {
  changeMember(draft, data.member, () => ({ pinTries: { count: data.tries, last: at } }))
}
