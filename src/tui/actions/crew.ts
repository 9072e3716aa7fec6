// Who rides where: seating a member, on a trade or detailed in, and clearing a riding position; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { sayMember } from '../../domain/decide/decision.ts'
import { COVER_WORDS, type Cover } from '../../domain/gear.ts'
import type { Member } from '../../domain/state.ts'
import type { View } from '../view.ts'
import { confirm, refusalOf, type Action, type Answers, type Option, type Step } from './action.ts'
import { askMember, nobodyHere, noSeat } from './ask.ts'
import { detailed } from './brought.ts'
import { askDetailed } from './detail.ts'
import { comingPlatoon } from './turn.ts'

/** Its value holds a space, so it is never the id of a member. */
const NEW = 'not on the books'

function askWho(view: View, answers: Answers): Step | undefined {
  const row = view.row!
  const title = `Who rides as ${row.position} (${row.seat})? Whoever is not on the books: the last of the list.`
  const platoon = comingPlatoon(view) ?? view.state.tour?.platoon
  const usual = platoon && view.state.ridingLists.get(platoon)?.get(row.seat)
  const ridesAlready = ({ id, seat }: Member): string | undefined =>
    seat === null ? undefined : refusalOf(view, { do: 'seat-member', seat: row.seat, member: id })
  const asked = askMember(
    view,
    answers,
    'member',
    title,
    platoon,
    ({ id }) => Number(id === usual),
    ridesAlready,
  )
  if (asked?.ask !== 'choose') return asked
  const other: Option = { value: NEW, label: 'Somebody not on the books', note: 'detailed in from elsewhere' }
  return { ...asked, options: [...asked.options, other] }
}

/** Why somebody of another platoon rides; the relief that comes on rides because it is their turn. */
function askCover(view: View, answers: Answers, { name, platoon }: Member): Step | undefined {
  const { tour } = view.state
  const isExpected = !tour || platoon === tour.platoon || platoon === comingPlatoon(view)
  if (isExpected || answers['as'] !== undefined) return undefined
  const options: Option[] = [
    { value: 'trade', label: 'On a trade' },
    { value: 'overtime', label: 'On overtime' },
    { value: 'detail', label: 'Detailed in' },
    { value: 'none', label: 'None of these', note: 'nothing is said of it' },
  ]
  const whose = platoon ? `of platoon ${platoon}` : 'of no platoon'
  return { ask: 'choose', name: 'as', title: `${name} is ${whose}. How do they come to ride?`, options }
}

export const seatMember: Action = {
  id: 'seat-member',
  key: 'm',
  label: 'seat',
  help: 'Seat a member at the riding position: of the platoon, on a trade, on overtime, or detailed in with their own gear.',
  blocked: noSeat,
  next(view, answers) {
    const row = view.row!
    const asked = askWho(view, answers)
    if (asked) return asked
    if (answers['member'] === NEW) return seatDetailed(view, answers)
    const member = view.state.members.get(answers['member']!)!
    const why = askCover(view, answers, member)
    if (why) return why
    const as = answers['as'] === 'none' ? undefined : (answers['as'] as Cover | undefined)
    const command: Command = {
      do: 'seat-member',
      by: view.speaker!,
      seat: row.seat,
      member: member.id,
      ...(as && { as }),
    }
    const name = sayMember(view.state, member.id)
    const how = as ? `, ${COVER_WORDS[as]}` : ''
    const title = `Seat ${name} at ${row.seat}${how}?`
    return confirm(view, title, [command], `${name} rides as ${row.position}${how}.`, relieves(view))
  },
}

const relieves = ({ row }: View): string[] => (row!.member === null ? [] : [`${row!.name} is relieved.`])

/** Whoever comes from another station is put on the books with what they brought, and seated, in one go. */
function seatDetailed(view: View, answers: Answers): Step {
  const row = view.row!
  const asked = askDetailed(view, answers)
  if (asked) return asked
  const { member, commands, notes } = detailed(view, answers)
  const seat: Command = {
    do: 'seat-member',
    by: view.speaker!,
    seat: row.seat,
    member: member.id,
    as: 'detail',
  }
  const title = `Put ${member.name} (${member.id}) on the books and seat them at ${row.seat}, detailed in?`
  const done = `${member.name} rides as ${row.position}, detailed in. i issues them more gear.`
  return confirm(view, title, [...commands, seat], done, [...relieves(view), ...notes])
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
