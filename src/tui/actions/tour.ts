// Opening a tour with its crew, reading back what is open, handing over; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { sayMember } from '../../domain/decide/decision.ts'
import type { Id } from '../../domain/gear.ts'
import { acknowledgedBy, openItems } from '../../domain/items.ts'
import { onDuty, ROTATIONS } from '../../domain/rotation.ts'
import type { State } from '../../domain/state.ts'
import { addDays, clockOf, dateOf } from '../../domain/time.ts'
import { clip } from '../cells.ts'
import type { View } from '../view.ts'
import { confirm, type Action, type Option } from './action.ts'
import { askOfficer } from './ask.ts'

const platoonsOf = (state: State): string[] =>
  [...new Set([...state.members.values()].flatMap((member) => member.platoon ?? []))].toSorted()

/** A tour keeps the date it started on: before the station's hour it is still yesterday's. */
function tourDate(view: View): string {
  const starts = view.state.station?.starts ?? '07:00'
  // Officers come on early: an hour before the hour is already the new tour.
  const early = `${String(Math.max(0, Number(starts.slice(0, 2)) - 1)).padStart(2, '0')}${starts.slice(2)}`
  return clockOf(view.at) < early ? addDays(dateOf(view.at), -1) : dateOf(view.at)
}

/** Whose turn it is by the station's rotation; the officer decides. */
function proposedPlatoon(view: View, platoons: readonly string[]): string | undefined {
  return turnOn(view.state, tourDate(view), platoons)
}
const turnOn = (
  state: State,
  date: string,
  platoons: readonly string[] = platoonsOf(state),
): string | undefined =>
  ROTATIONS[state.station!.rotation] && onDuty(state.station!.rotation, platoons, date, newestTours(state))[0]

/** Enough to tell one calendar from another, however the pattern runs. */
const newestTours = (state: State) => [...state.tours.values()].slice(-24)

/** Who relieves the tour that is open, by the rotation: the next platoon that is another one. */
function nextPlatoon({ state }: View): string | undefined {
  if (!state.tour) return undefined
  const { on, platoon } = state.tour
  const coming = [1, 2, 3].map((days) => turnOn(state, addDays(on, days)))
  return coming.find((each) => each !== undefined && each !== platoon)
}

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
    if (answers['platoon'] === undefined) {
      const options = platoons.map((platoon): Option => {
        const count = [...state.members.values()].filter((member) => member.platoon === platoon).length
        const turn = platoon === proposed ? `, its turn by the ${state.station!.rotation} rotation` : ''
        return { value: platoon, label: `Platoon ${platoon}`, note: `${count} members${turn}` }
      })
      const start = Math.max(0, platoons.indexOf(proposed ?? ''))
      return { ask: 'choose', name: 'platoon', title: 'Which platoon comes on duty?', options, start }
    }
    const platoon = answers['platoon']
    const asked = askOfficer(view, answers, 'officer', 'Who is its officer?', platoon)
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
    const items = openItems(state).length
    if (items) notes.push(`${items} open items are left to you. Press a to read and acknowledge them.`)
    return confirm(
      view,
      `Open tour ${tour}, officer ${sayMember(state, officer)}?`,
      [open, ...seats],
      `Tour ${tour} is open. r begins the roll call.`,
      notes,
    )
  },
}

/** Of an item's words when it is repeated: a whole crew's exposure names every element. */
const LONGEST = 160

const unread = (view: View): Option[] =>
  openItems(view.state)
    .filter((item) => !acknowledgedBy(view.state, item))
    .map((item) => ({
      value: item.id,
      label: item.words,
      note: `since ${dateOf(item.opened.at)}, ${item.opened.by}`,
    }))

export const acknowledge: Action = {
  id: 'acknowledge',
  isOfStation: true,
  key: 'a',
  label: 'open items',
  help: 'Read the open items of the station one by one and acknowledge them.',
  blocked: (view) =>
    view.state.tour
      ? unread(view).length
        ? undefined
        : 'Every open item has been acknowledged in this tour.'
      : 'No tour is open. Open the tour first.',
  next(view, answers) {
    const items = unread(view)
    if (answers['item'] === undefined) {
      return {
        ask: 'choose',
        name: 'item',
        title: `${items.length} of ${openItems(view.state).length} open items not yet acknowledged. Which one do you take on?`,
        options: items,
      }
    }
    const words = items.find((each) => each.value === answers['item'])?.label ?? answers['item']
    const command: Command = { do: 'acknowledge', by: view.speaker!, item: answers['item'] }
    const left = items.length - 1
    const done = `Acknowledged: ${clip(words, LONGEST, view.unicode)} ${left ? `${left} left; a reads the next.` : 'None is left.'}`
    return confirm(view, 'Acknowledge this?', [command], done, [words])
  },
}

export const handOver: Action = {
  id: 'hand-over',
  isOfStation: true,
  key: 'h',
  label: 'hand over',
  help: 'Hand the tour over to the incoming officer: who may not ride, what is open, and the end of the tour.',
  blocked: (view) => (view.state.tour ? undefined : 'No tour is open, so there is none to hand over.'),
  next(view, answers) {
    const asked = askOfficer(view, answers, 'to', 'Hand over to whom?', nextPlatoon(view))
    if (asked) return asked
    const { board, state } = view
    const to = answers['to']!
    const items = openItems(state).map((item) => item.words)
    const unfit = view.rows.filter((row) => row.member !== null && !row.fit).map((row) => row.name)
    const notes = [
      board.headline,
      ...(unfit.length && !board.headline.includes(unfit[0]!) ? [`May not ride: ${unfit.join(', ')}.`] : []),
      board.rollCall.words,
      `${items.length} open items${items.length ? ':' : '.'}`,
      ...items.map((text) => ({ text, isItem: true as const })),
    ]
    const command: Command = { do: 'hand-over', by: view.speaker!, to }
    const done = `Tour ${state.tour!.id} is handed over. x exports its readiness log.`
    return confirm(
      view,
      `Hand tour ${state.tour!.id} over to ${sayMember(state, to)}?`,
      [command],
      done,
      notes,
    )
  },
}
