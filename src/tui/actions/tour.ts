// Opening a tour with its crew; it must never record by itself.
import { count } from '../../domain/count.ts'
import type { Command } from '../../domain/commands.ts'
import { sayMember } from '../../domain/decide/decision.ts'
import type { Id } from '../../domain/gear.ts'
import { openItems } from '../../domain/items.ts'
import { tourBefore, type State } from '../../domain/state.ts'
import { confirm, type Action, type Option } from './action.ts'
import { askOfficer } from './ask.ts'
import { sayItems } from './read-back.ts'
import { platoonsOf, proposedPlatoon, tourDate } from './turn.ts'

function tourId(state: State, date: string, platoon: string): Id {
  const id = `${date}-${platoon.replaceAll(/[^A-Za-z0-9_.-]/g, '').slice(0, 20)}`
  let number = 2
  let free = id
  while (state.tours.has(free)) free = `${id}-${number++}`
  return free
}

/** The seating of the platoon's last tour, as far as its members are free. */
function seatings(state: State, platoon: string, by: Id): Command[] {
  const list = state.ridingLists.get(platoon) ?? new Map<Id, Id>()
  return [...list].flatMap(([seat, member]): Command[] => {
    // Early relief of the platoon that comes on stays where it is, whatever the list says.
    const isOfPlatoon = (id: Id | null | undefined): boolean =>
      Boolean(id) && state.members.get(id!)?.platoon === platoon
    const stays = Boolean(state.members.get(member)?.seat) && isOfPlatoon(member)
    return state.seats.has(seat) && !stays && !isOfPlatoon(state.seats.get(seat)?.member)
      ? [{ do: 'seat-member', by, seat, member }]
      : []
  })
}

export const openTour: Action = {
  id: 'open-tour',
  isOfStation: true,
  asksWho: true,
  key: 'o',
  label: 'open tour',
  help: "Open a tour: its platoon, its officer, and the crew from the platoon's last riding list.",
  blocked: ({ state }) =>
    state.tour
      ? `Tour ${state.tour.id} is still open. Hand it over first.`
      : platoonsOf(state).length
        ? undefined
        : 'No member is of any platoon yet. Import members first: bayboard import FILE',
  next(view, answers) {
    const { state } = view
    const platoons = platoonsOf(state)
    const proposed = proposedPlatoon(view, platoons)
    const taker = state.members.get(tourBefore(state)?.to ?? '')
    if (answers['platoon'] === undefined) {
      const options = platoons.map((platoon): Option => {
        const members = [...state.members.values()].filter((member) => member.platoon === platoon).length
        const turn = platoon === proposed ? `, its turn by the ${state.station!.rotation} rotation` : ''
        const took = platoon === taker?.platoon ? `, ${taker.name} took over` : ''
        return {
          value: platoon,
          label: `Platoon ${platoon}`,
          note: `${count(members, 'member')}${took}${turn}`,
        }
      })
      const start = Math.max(0, platoons.indexOf(taker?.platoon ?? proposed ?? ''))
      return { ask: 'choose', name: 'platoon', title: 'Which platoon comes on duty?', options, start }
    }
    const platoon = answers['platoon']
    const asked = askOfficer(view, answers, 'officer', 'Who is its officer?', platoon, taker?.id)
    if (asked) return asked
    const officer = answers['officer']!
    const date = tourDate(view)
    const tour = tourId(state, date, platoon)
    const open: Command = { do: 'open-tour', by: officer, tour, platoon, officer, on: date }
    const seats = seatings(state, platoon, officer)
    const names = seats.map((each) =>
      'member' in each ? `${'seat' in each ? each.seat : ''} ${sayMember(state, String(each.member))}` : '',
    )
    const notes = names.length
      ? [`Seated from the last riding list: ${names.join('; ')}.`]
      : ['Seat the crew with m.']
    const stays = [...state.seats.values()].some(
      ({ member }) => member !== null && state.members.get(member)?.platoon === platoon,
    )
    const next = seats.length || stays ? 'r begins the roll call.' : 'm seats the crew.'
    const items = openItems(state).length
    if (items) notes.push(`${sayItems(items)} left to you; they are read back next, one by one.`)
    return confirm(
      view,
      `Open tour ${tour}, officer ${sayMember(state, officer)}?`,
      [open, ...seats],
      `Tour ${tour} is open. ${next}`,
      notes,
      { action: 'acknowledge' },
    )
  },
}
