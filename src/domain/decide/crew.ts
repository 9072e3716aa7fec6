// Decides tours, seats, roll call and hand-over; it must never judge whether gear is fit.
import { ensembleAt } from '../ensemble.ts'
import { wordOf, isHeldBySeat } from '../kinds.ts'
import { cleanText } from '../clean.ts'
import type { CommandOf, Dated } from '../commands.ts'
import { acknowledgedBy, findItem } from '../items.ts'
import { handOverFault } from '../pin.ts'
import {
  assigned,
  holderOf,
  isHere,
  place,
  standInOf,
  tourBefore,
  type Element,
  type State,
} from '../state.ts'
import { clockOf, daysBetween, dateOf, isLater, sayDate } from '../time.ts'
import {
  capital,
  findElement,
  findMember,
  findSeat,
  findTour,
  movedFault,
  Name,
  nameOf,
  record,
  refuse,
  sayAbsence,
  sayMember,
  type Decision,
} from './decision.ts'

export function openTour(command: Dated<CommandOf<'open-tour'>>, state: State): Decision {
  const { tour, platoon, on, at } = command
  if (state.tour) return refuse(`Tour ${state.tour.id} is still open. Hand it over first.`)
  if (state.tours.has(tour)) return refuse(`There was already a tour ${tour}. Give this one another id.`)
  const officer = findMember(state, command.officer)
  if (typeof officer === 'string') return refuse(officer)
  const platoons = [
    ...new Set([...state.members.values()].flatMap((member) => member.platoon ?? [])),
  ].toSorted()
  if (!platoons.includes(platoon)) {
    return refuse(
      `No member is of platoon ${platoon}. The platoons are: ${platoons.join(', ') || 'none yet'}.`,
    )
  }
  const ended = tourBefore(state)?.endedAt
  if (ended !== undefined && isLater(ended, at)) {
    const when = `on ${sayDate(dateOf(ended))} at ${clockOf(ended)}`
    return refuse(`The last tour was handed over ${when}: another cannot begin before that.`)
  }
  if (daysBetween(dateOf(at), on) > 1) return refuse(`${sayDate(on)} is more than a day ahead.`)
  const relieved = [...state.seats.values()].flatMap((seat) =>
    seat.member !== null && state.members.get(seat.member)?.platoon !== platoon
      ? { seat: seat.id, member: seat.member }
      : [],
  )
  return record('tour-opened', {
    tour,
    platoon,
    officer: officer.id,
    on,
    relieved,
  })
}

export function seatMember(command: Dated<CommandOf<'seat-member'>>, state: State): Decision {
  const seat = findSeat(state, command.seat)
  if (typeof seat === 'string') return refuse(seat)
  const member = findMember(state, command.member)
  if (typeof member === 'string') return refuse(member)
  if (member.seat === seat.id) return refuse(`${member.name} already rides at ${seat.id}.`)
  if (member.seat !== null) {
    return refuse(
      `${member.name} already rides at ${member.seat}: nobody rides twice. Clear ${member.seat} first.`,
    )
  }
  return record('member-seated', {
    seat: seat.id,
    member: member.id,
    ...(seat.member !== null && { relieves: seat.member }),
    ...(command.as !== undefined && { as: command.as }),
  })
}

export function clearSeat(command: Dated<CommandOf<'clear-seat'>>, state: State): Decision {
  const seat = findSeat(state, command.seat)
  if (typeof seat === 'string') return refuse(seat)
  if (seat.member === null) return refuse(`Nobody rides at ${seat.id}.`)
  return record('seat-cleared', { seat: seat.id, member: seat.member })
}

export function answer(command: Dated<CommandOf<'answer'>>, state: State): Decision {
  const seat = findSeat(state, command.seat)
  if (typeof seat === 'string') return refuse(seat)
  const tour = findTour(state)
  if (typeof tour === 'string') return refuse(tour)
  if (seat.member === null) return refuse(`Nobody rides at ${seat.id}: there is nobody to answer.`)
  const moved = movedFault(state, seat, command)
  if (moved) return refuse(`${moved} Call the roll there as it is now. Nothing was recorded.`)
  const findings = command.findings ?? []
  const here = new Set(ensembleAt(state, seat).map((element) => element.id))
  for (const { element } of findings) {
    const found = findElement(state, element)
    if (typeof found === 'string') return refuse(`${found} Nothing was recorded.`)
    if (!here.has(element)) return refuse(`${Name(found)} is not at ${seat.id}. Nothing was recorded.`)
  }
  return record('seat-answered', { seat: seat.id, member: seat.member, tour: tour.id, findings })
}

export function swap(command: Dated<CommandOf<'swap'>>, state: State): Decision {
  const seat = findSeat(state, command.seat)
  if (typeof seat === 'string') return refuse(seat)
  const tour = findTour(state)
  if (typeof tour === 'string') return refuse(tour)
  const spare = findElement(state, command.in)
  if (typeof spare === 'string') return refuse(spare)
  const { kind } = spare
  const holder = holderOf(seat, kind)
  if (holder === null) return refuse(`Nobody rides at ${seat.id}: seat a member before swapping their gear.`)
  const worn = assigned(state, holder, kind)
  if (command.out !== undefined) {
    const out = findElement(state, command.out)
    if (typeof out === 'string') return refuse(out)
    if (out.kind !== kind) {
      return refuse(`${Name(spare)} cannot take the place of ${nameOf(out)}: it is another kind of element.`)
    }
    if (out.id !== worn?.id) return refuse(`${Name(out)} is not at ${seat.id}.`)
  } else if (worn && isHere(worn)) {
    return refuse(`${seat.id} has ${nameOf(worn)}. Name it as the one that goes out.`)
  }
  const fault = spareFault(state, spare, holder)
  if (fault) return refuse(fault)
  return record('element-swapped', {
    seat: seat.id,
    kind,
    holder,
    in: spare.id,
    ...(worn && { out: worn.id }),
    ...(command.reason !== undefined && { reason: command.reason }),
    tour: tour.id,
  })
}

/** Why an element cannot be put into a holder's place, as far as the books show; its fitness is for the rules. */
export function spareFault(state: State, spare: Element, holder: string): string | undefined {
  const standIn = standInOf(state, spare.id)
  if (standIn) return `${Name(spare)} is already in use: it stands in at ${standIn.seat}.`
  if (spare.issuedTo !== null && spare.issuedTo !== holder) {
    return `${Name(spare)} is already in use: it is issued to ${sayMember(state, spare.issuedTo)}.`
  }
  if (!isHere(spare)) return `${Name(spare)} is ${sayAbsence(spare)}.`
  if (assigned(state, holder, spare.kind)?.id === spare.id) return `${Name(spare)} is already in this place.`
  if (spare.tags.length) return `${Name(spare)} is itself out of service: ${spare.tags[0]!.reason}.`
  return undefined
}

export function swapBack(command: Dated<CommandOf<'swap-back'>>, state: State): Decision {
  const seat = findSeat(state, command.seat)
  if (typeof seat === 'string') return refuse(seat)
  const tour = findTour(state)
  if (typeof tour === 'string') return refuse(tour)
  const { kind } = command
  const holder = holderOf(seat, kind)
  const standIn = holder === null ? undefined : state.standIns.get(place(holder, kind))
  if (holder === null || !standIn) return refuse(`No spare ${wordOf(kind)} stands in at ${seat.id}.`)
  const ownId = standIn.own ?? state.issued.get(place(holder, kind))?.[0]
  const own = ownId === undefined ? undefined : state.elements.get(ownId)
  if (!own || own.issuedTo !== holder) {
    const whose = isHeldBySeat(kind) ? seat.id : sayMember(state, holder)
    return refuse(`${whose} has no ${wordOf(kind)} of their own to go back to.`)
  }
  if (!isHere(own)) return refuse(`${Name(own)} is ${sayAbsence(own)}. Receive it back first.`)
  if (own.tags.length)
    return refuse(`${Name(own)} is still out of service: ${own.tags[0]!.reason}. Lift its tag first.`)
  return record('swap-reversed', {
    seat: seat.id,
    kind,
    holder,
    in: own.id,
    out: standIn.element,
    tour: tour.id,
  })
}

export function acknowledge(command: Dated<CommandOf<'acknowledge'>>, state: State): Decision {
  const tour = findTour(state)
  if (typeof tour === 'string') return refuse(tour)
  const item = findItem(state, command.item)
  if (!item) return refuse(`There is no open item ${cleanText(command.item)}.`)
  const earlier = acknowledgedBy(state, item)
  if (earlier)
    return refuse(`${capital(item.id)} was already acknowledged by ${sayMember(state, earlier.by)}.`)
  return record('item-acknowledged', {
    item: item.id,
    about: item.about,
    words: item.words,
    tour: tour.id,
  })
}

export function handOver(command: Dated<CommandOf<'hand-over'>>, state: State): Decision {
  const tour = findTour(state)
  if (typeof tour === 'string') return refuse('No tour is open, so there is none to hand over.')
  const to = findMember(state, command.to)
  if (typeof to === 'string') return refuse(to)
  const fault = handOverFault(state, command.by, tour.officer)
  if (fault) return refuse(`${fault} Nothing was recorded.`)
  const { readBack } = command
  return record('tour-handed-over', {
    tour: tour.id,
    from: tour.officer,
    to: to.id,
    ...(readBack && { readBack }),
  })
}
