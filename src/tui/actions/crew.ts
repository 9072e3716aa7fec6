// Who rides where: seating a member, clearing a riding position; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { sayMember } from '../../domain/decide/decision.ts'
import type { Member } from '../../domain/state.ts'
import { confirm, refusalOf, type Action } from './action.ts'
import { askMember, nobodyHere, noSeat } from './ask.ts'

export const seatMember: Action = {
  id: 'seat-member',
  key: 'm',
  label: 'seat',
  help: 'Seat a member at the riding position; whoever is there is relieved.',
  blocked: noSeat,
  next(view, answers) {
    const row = view.row!
    const title = `Who rides as ${row.position} (${row.seat})?`
    const ridesAlready = ({ id, seat }: Member): string | undefined =>
      seat === null ? undefined : refusalOf(view, { do: 'seat-member', seat: row.seat, member: id })
    const asked = askMember(view, answers, 'member', title, view.state.tour?.platoon, undefined, ridesAlready)
    if (asked) return asked
    const member = answers['member']!
    const command: Command = { do: 'seat-member', by: view.speaker!, seat: row.seat, member }
    const name = sayMember(view.state, member)
    return confirm(view, `Seat ${name} at ${row.seat}?`, [command], `${name} rides as ${row.position}.`)
  },
}

export const clearSeat: Action = {
  id: 'clear-seat',
  key: 'c',
  label: 'clear',
  help: 'Clear the riding position: the member leaves it.',
  blocked: nobodyHere,
  next(view) {
    const row = view.row!
    const command: Command = { do: 'clear-seat', by: view.speaker!, seat: row.seat }
    return confirm(view, `${row.name} leaves ${row.seat}?`, [command], `${row.seat} is clear.`)
  },
}
