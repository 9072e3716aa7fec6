// The order in which gear is called at roll call, and what has come since a riding position answered; it must never judge gear.
import type { Id } from './gear.ts'
import type { Kind } from './kinds.ts'
import { ensembleAt } from './ensemble.ts'
import type { Answer, Element, State } from './state.ts'

/** As it is put on; what goes on as one is called as one. */
export const CALLS: readonly (readonly Kind[])[] = [
  ['trouser-shell', 'trouser-liner'],
  ['boots'],
  ['hood'],
  ['coat-shell', 'coat-liner', 'drag-rescue-device'],
  ['helmet'],
  ['gloves'],
  ['facepiece'],
  ['air-pack'],
  ['cylinder'],
]
const ORDER: readonly Kind[] = CALLS.flat()

export const inCallOrder = <T extends { kind: Kind }>(places: readonly T[]): T[] =>
  places.toSorted((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind))

/** Of what is at a riding position now, what its answer did not speak of: put in since, come back since, or exposed since. */
export function unspokenOf(answer: Answer, ensemble: readonly Element[]): Element[] {
  const found = new Set(answer.findings.map((each) => each.element))
  return ensemble.filter(({ id, called, exposures }) => {
    const isSpokenOf = found.has(id) || (called !== undefined && called.seq >= answer.seq)
    return !isSpokenOf || exposures.some((each) => each.seq > answer.seq)
  })
}

export function changedSince(state: State, seatId: Id): Element[] {
  const answer = state.tour?.answers.get(seatId)
  const seat = state.seats.get(seatId)
  return answer && seat ? unspokenOf(answer, ensembleAt(state, seat)) : []
}

/** The riding positions that answered and have other gear now, in the order of the board. */
export const changedSeats = (state: State): Id[] =>
  [...state.seats.keys()].filter((seat) => changedSince(state, seat).length > 0)
