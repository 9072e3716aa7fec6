// Years of invented tours: seating, roll call, gauges, findings, spares, fires, care, hand-over. Every act is one the program accepts.
import type { Command } from '../../../src/domain/commands.ts'
import { ensembleAt } from '../../../src/domain/ensemble.ts'
import { isHere, type Element } from '../../../src/domain/state.ts'
import type { LocalDate } from '../../../src/domain/time.ts'
import type { Book } from './book.ts'
import type { Dice } from './dice.ts'
import { caresFor, FACEPIECE, type Crew, type PLATOONS } from './setting-up.ts'

export interface Tours {
  /** Opens the tour, seats the platoon, calls the roll, and goes on with the day until `events` of it are recorded. */
  tour(date: LocalDate, platoon: (typeof PLATOONS)[number], events: number): void
  handOver(date: LocalDate, to: (typeof PLATOONS)[number]): void
}

export function toursOf(
  book: Book,
  dice: Dice,
  { seats, riding, elements }: Crew,
  full: () => boolean,
): Tours {
  const { state } = book
  const give = (by: string, command: Parameters<Book['give']>[1]): void => {
    if (!full()) book.give(by, command)
  }
  const offer = (by: string, command: Parameters<Book['give']>[1]): void => {
    if (!full()) book.offer(by, command)
  }
  const at = (seat: string): Element[] => ensembleAt(state, state.seats.get(seat)!)
  let next = 0
  /** The elements in turn, so that care goes round the whole department. */
  const inTurn = (): Element => state.elements.get(elements[next++ % elements.length]!)!

  function rollCall(officer: string): void {
    for (const seat of seats) {
      const cylinder = at(seat).find((each) => each.kind === 'cylinder')
      if (cylinder)
        give(officer, { do: 'read-pressure', element: cylinder.id, psi: 4100 + dice.between(0, 40) * 10 })
      const gloves = at(seat).find((each) => each.kind === 'gloves')
      const doubtful = dice.once(120) ? gloves : undefined
      const findings = doubtful && [
        { element: doubtful.id, point: 'seam open at the thumb', matter: 'safety' as const },
      ]
      give(officer, { do: 'answer', seat, ...(findings && { findings }) })
    }
  }

  function care(officer: string, date: LocalDate): void {
    const element = inTurn()
    if (element.custody.where === 'retired') return
    for (const each of caresFor(element.kind)) {
      const facts = { care: each, on: date, result: 'serviceable' as const, who: 'Invented Gear Works' }
      offer(officer, { do: 'record-care', element: element.id, ...facts })
    }
  }

  /** What was tagged is mended or cleaned and goes back in; the tag is lifted on that basis. */
  function mend(officer: string, date: LocalDate): void {
    const standIn = dice.pick([...state.standIns.values()].slice(0, 8))
    if (standIn?.own && state.seats.get(standIn.seat)?.member === standIn.holder) {
      const own = state.elements.get(standIn.own)!
      if (own.tags.length) offer(officer, { do: 'lift-tag', element: own.id, basis: 'sewn and looked over' })
      offer(officer, { do: 'swap-back', seat: standIn.seat, kind: standIn.kind })
    }
    care(officer, date)
  }

  function tagAndSwap(officer: string): void {
    const seat = dice.pick(seats)
    const mine = at(seat).find((each) => each.kind === 'gloves' && each.issuedTo !== null)
    const spare = elements
      .slice(-400)
      .map((id) => state.elements.get(id)!)
      .find((each) => each.kind === 'gloves' && each.issuedTo === null && each.custody.where === 'rack')
    if (!mine) return
    offer(officer, { do: 'tag', element: mine.id, reason: 'burn hole in the palm', matter: 'safety' })
    if (spare && isHere(mine)) offer(officer, { do: 'swap', seat, out: mine.id, in: spare.id })
  }

  function fire(officer: string, date: LocalDate): void {
    const crew = [...new Set([dice.pick(seats), dice.pick(seats)])]
    const incident = `${date.slice(2, 4)}-${dice.between(1000, 9999)}`
    offer(officer, { do: 'record-exposure', exposure: 'products-of-combustion', seats: crew, incident })
    for (const seat of crew) {
      for (const { id, kind } of at(seat)) {
        if (full()) return
        const cleaned: Extract<Command, { do: 'record-care' }>['care'] =
          kind === 'air-pack' || kind === 'cylinder' || kind === 'facepiece'
            ? 'routine-cleaning'
            : 'advanced-cleaning'
        offer(officer, { do: 'record-care', element: id, care: cleaned, on: date, result: 'serviceable' })
      }
    }
  }

  function send(officer: string, date: LocalDate): void {
    const element = inTurn()
    if (!isHere(element) || state.seats.size === 0) return
    offer(officer, {
      do: 'send-away',
      elements: [element.id],
      to: 'Invented Gear Works',
      for: 'advanced-cleaning',
    })
    offer(officer, { do: 'receive-back', elements: [element.id] })
    const facts = { care: 'routine-cleaning' as const, on: date, result: 'serviceable' as const }
    offer(officer, { do: 'record-care', element: element.id, ...facts })
  }

  function hour(officer: string, date: LocalDate): void {
    const turn = dice.between(1, 100)
    if (turn <= 3) return fire(officer, date)
    if (turn <= 6) return tagAndSwap(officer)
    if (turn <= 12) return mend(officer, date)
    if (turn <= 16) return send(officer, date)
    if (turn <= 18)
      return offer(officer, { do: 'note', text: `Hydrant ${dice.between(1, 400)} was looked over.` })
    if (turn <= 60) return care(officer, date)
    const cylinder = at(dice.pick(seats)).find((each) => each.kind === 'cylinder')
    if (cylinder)
      offer(officer, { do: 'read-pressure', element: cylinder.id, psi: 4100 + dice.between(0, 40) * 10 })
  }

  return {
    tour(date, platoon, events) {
      const crew = riding[platoon]
      const officer = crew[0]!
      const end = book.position.seq + events
      give(officer, { do: 'open-tour', tour: `${date}-${platoon}`, platoon, officer, on: date })
      for (const [index, seat] of seats.entries()) {
        const facepiece = { model: FACEPIECE, size: state.members.get(crew[index]!)!.sizes!.facepiece! }
        if (state.members.get(crew[index]!)!.fitTests.every((test) => test.on.slice(0, 4) < date.slice(0, 4)))
          give(officer, { do: 'record-fit-test', member: crew[index]!, facepiece, on: date, result: 'pass' })
        give(officer, { do: 'seat-member', seat, member: crew[index]! })
      }
      rollCall(officer)
      while (book.position.seq < end && !full()) hour(officer, date)
    },
    handOver(date, to) {
      book.turnTo(date, '06:50')
      give(state.tour?.officer ?? 'setup', { do: 'hand-over', to: riding[to][0]! })
    },
  }
}
