// Folds what was looked at, at roll call or as a gauge was read, into a draft; what is entered late must never hide what is newer.
import type { EventOf } from '../events.ts'
import type { Id } from '../gear.ts'
import { ensembleAt } from '../ensemble.ts'
import { assigned, isHere, standInOf, type Reading, type Said, type State } from '../state.ts'
import { isLater, type Instant } from '../time.ts'
import { said } from './crew.ts'
import { ownElement } from './gear.ts'
import { KEPT } from './kept.ts'

function lookedAt(draft: State, id: Id, look: Said): void {
  const element = ownElement(draft, id)
  if (!element) return
  const { called } = element
  if (called && isLater(called.at, look.at)) return
  if (called) element.calledBefore = called
  element.called = look
}

/** An answer looks at all that is worn there; what it found something wrong with has not passed. */
export function callRoll(draft: State, event: EventOf<'seat-answered'>): void {
  const seat = draft.seats.get(event.data.seat)
  if (!draft.tour || !seat) return
  const { findings } = event.data
  const look = said(event)
  for (const { id } of ensembleAt(draft, seat))
    if (!findings.some((each) => each.element === id)) lookedAt(draft, id, look)
}

/** The air pack on which a cylinder was mounted then: that of the seat whose cylinder it is, if nothing there has moved since. */
function packOf(draft: State, cylinder: Id, at: Instant): Id | undefined {
  const seat = standInOf(draft, cylinder)?.holder ?? draft.elements.get(cylinder)?.issuedTo ?? null
  const moved = seat === null ? undefined : draft.seats.get(seat)?.movedAt
  if (moved !== undefined && isLater(moved, at)) return undefined
  const pack = assigned(draft, seat, 'air-pack')
  return pack && isHere(pack) && assigned(draft, seat, 'cylinder')?.id === cylinder ? pack.id : undefined
}

/**
 * Whoever reads the gauge has the apparatus in hand: that is a routine inspection of cylinder and air pack. A reading
 * entered later than it was taken goes where it belongs among the others, so that the newest stays the last.
 */
export function readPressure(draft: State, event: EventOf<'pressure-read'>): void {
  const { seq, at, by, data } = event
  const { element: id, psi, celsius, recordedAt } = data
  const reading: Reading = celsius === undefined ? { seq, at, by, psi } : { seq, at, by, psi, celsius }
  const readings = ownElement(draft, id)?.readings ?? []
  const later = recordedAt === undefined ? [] : readings.filter((each) => isLater(each.at, reading.at))
  if (later.length) {
    const sooner = readings.filter((each) => !later.includes(each))
    readings.splice(0, Infinity, ...sooner, reading, ...later)
  } else readings.push(reading)
  if (readings.length > KEPT) readings.splice(0, readings.length - KEPT)
  const look = said(event)
  lookedAt(draft, id, look)
  const pack = packOf(draft, id, at)
  if (pack !== undefined) lookedAt(draft, pack, look)
}

/** An answer or a reading withdrawn was no inspection either: what stands is the look before it, where that is known. */
export function withdrawLook(draft: State, seq: number): void {
  for (const { id, called, calledBefore, readings, ...element } of draft.elements.values()) {
    if (called?.seq !== seq && calledBefore?.seq !== seq) continue
    const read = readings.at(-1)
    const before = calledBefore?.seq === seq ? undefined : calledBefore
    const now = called?.seq === seq ? (before ?? (read && said(read))) : called
    const beforeThat = now === called ? before : undefined
    draft.elements.set(id, {
      id,
      readings,
      ...element,
      ...(now && { called: now }),
      ...(beforeThat && { calledBefore: beforeThat }),
    })
  }
}
