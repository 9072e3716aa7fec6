// Putting a spare in and giving the member their own element back; it must never record by itself.
import { listed } from '../../domain/count.ts'
import type { Command } from '../../domain/commands.ts'
import { capital, nameOf } from '../../domain/decide/decision.ts'
import { factsOf, familyOf, wordOf, type Kind } from '../../domain/kinds.ts'
import { rankOf, SIGNS } from '../../domain/signs.ts'
import type { Spare } from '../../domain/spares.ts'
import { assigned, holderOf, place, type StandIn } from '../../domain/state.ts'
import { sayPlace } from '../say.ts'
import type { View } from '../view.ts'
import { ownGearBack } from '../own-back.ts'
import { confirm, type Action, type Answers, type LookLine, type Option, type Step } from './action.ts'
import { nobodyHere } from './ask.ts'
import { NOTHING_LEFT } from './many.ts'
import { sayLast, spareOptions, sparesAt, unreadSpares } from './spare-options.ts'

/** The places at the seat in hand, those that keep it from riding first. */
function placeOptions(view: View): Option[] {
  const places = view.row!.places.toSorted((a, b) => rankOf(a.state) - rankOf(b.state))
  return places.map((each) => ({
    value: each.kind,
    label: `${capital(each.word)}${each.element ? ` ${each.element}` : ''}`,
    note: sayPlace(each),
    tone: SIGNS[each.state].tone,
  }))
}

export const swap: Action = {
  id: 'swap',
  key: 's',
  label: 'swap',
  help: 'Put a spare in: the spares that fit come first, each with its reasons.',
  blocked: (view) =>
    nobodyHere(view) ?? (view.state.tour ? undefined : 'No tour is open. Open the tour first.'),
  next(view, answers) {
    const { seat } = view.row!
    if (answers['kind'] === undefined) {
      return { ask: 'choose', name: 'kind', title: 'Swap which element?', options: placeOptions(view) }
    }
    const kind = answers['kind'] as Kind
    const spares = sparesAt(view, seat, kind)
    if (answers['in'] === undefined) {
      const fitting = spares.filter((each) => each.fits).length
      const isWorn = factsOf(kind).held === 'member'
      const can = isWorn ? `${view.row!.name} can wear` : `${seat} can take`
      const unread = kind === 'cylinder' ? unreadSpares(view).length : 0
      const first = unread ? ` ${unread} to be read first: p.` : ''
      const title = spares.length
        ? `Spare ${wordOf(kind)}: ${can} ${fitting} of ${spares.length}.${first} Which goes in?`
        : `The rack has no spare ${wordOf(kind)}.${view.row!.fit ? '' : ` ${view.row!.position} stays unfit.`} Esc goes back.`
      return {
        ask: 'choose',
        name: 'in',
        title,
        options: spareOptions(view, seat, kind),
      }
    }
    return confirmSwap(view, answers, kind, spares)
  },
}

function confirmSwap(view: View, answers: Answers, kind: Kind, spares: readonly Spare[]): Step {
  const row = view.row!
  const spare = spares.find((each) => each.elements[0].id === answers['in'])
  if (!spare) {
    // Another terminal took it while this one was choosing.
    const lines = [
      { text: `${answers['in']} is no longer free. Esc goes back to the spares.`, tone: 'bad' as const },
    ]
    return { ask: 'confirm', title: 'That spare is gone.', lines, deed: { commands: [], done: '' } }
  }
  const seat = view.state.seats.get(row.seat)!
  const commands = spare.elements.map((element): Command => {
    const out = assigned(view.state, holderOf(seat, element.kind), element.kind)
    const reason = row.places.find((each) => each.kind === element.kind)?.text
    return {
      do: 'swap',
      by: view.speaker!,
      seat: row.seat,
      in: element.id,
      ...(out && { out: out.id }),
      ...(reason ? { reason } : kind !== element.kind && { reason: `one assembly with ${answers['in']}` }),
    }
  })
  const ids = listed(spare.elements.map(nameOf))
  const outs = commands.flatMap((each) => ('out' in each && each.out ? each.out : []))
  const last = sayLast(view, row.seat, kind, spare)
  const notes: LookLine[] = [
    ...(outs.length ? [{ text: `Comes out: ${outs.join(', ')}. b swaps back later.` }] : []),
    ...(last ? [{ text: `It ${last}.`, tone: 'warn' as const }] : []),
  ]
  return confirm(
    view,
    `Put ${ids} in for ${row.name}?`,
    commands,
    `${spare.elements.map((each) => each.id).join(', ')} swapped in. b swaps back.`,
    notes,
  )
}

/** What goes back with a spare of this kind: every layer that stands in beside it, since they go as one assembly. */
function goesBack(view: View, kind: Kind): StandIn[] {
  const seat = view.state.seats.get(view.row!.seat)!
  return familyOf(kind).flatMap((layer) => {
    const holder = holderOf(seat, layer)
    return (holder !== null && view.state.standIns.get(place(holder, layer))) || []
  })
}
const nameIn = ({ state }: View, { element }: StandIn): string => nameOf(state.elements.get(element)!)

const isBack = (view: View, kind: Kind): boolean =>
  ownGearBack(view).some((each) => each.seat === view.row!.seat && each.kind === kind)

const standIns = (view: View): Option[] =>
  view
    .row!.places.filter((each) => each.standsIn)
    .map((each) => {
      const all = goesBack(view, each.kind)
      const others = all.filter(({ kind }) => kind !== each.kind).map((one) => nameIn(view, one))
      const own = all.flatMap((one) => one.own ?? [])
      const beside = others.length ? `with ${listed(others)}; ` : ''
      return {
        value: each.kind,
        label: `${capital(each.word)} ${each.element}`,
        note: `${beside}own: ${own.join(', ') || 'none'}${isBack(view, each.kind) ? ', here and fit' : ''}`,
      }
    })

export const swapBack: Action = {
  id: 'swap-back',
  key: 'b',
  label: 'swap back',
  help: 'Give the member their own element back; the spare returns to the rack. Layers of one assembly go together.',
  blocked: (view) =>
    nobodyHere(view) ?? (standIns(view).length ? undefined : `No spare stands in at ${view.row!.seat}.`),
  next(view, answers) {
    if (answers['kind'] === undefined) {
      return { ask: 'choose', name: 'kind', title: 'Swap back which element?', options: standIns(view) }
    }
    const [by, { seat }] = [view.speaker!, view.row!]
    const all = goesBack(view, answers['kind'] as Kind)
    // A layer that the holder has none of their own for only leaves with the others.
    const hasOwn = ({ holder, kind }: StandIn): boolean => view.state.issued.has(place(holder, kind))
    const commands = all.map((each): Command =>
      hasOwn(each) || all.length === 1
        ? { do: 'swap-back', by, seat, kind: each.kind }
        : { do: 'return-to-rack', by, element: each.element },
    )
    if (!commands.length) return NOTHING_LEFT
    const own = all.flatMap((each) => each.own ?? [])
    const spares = listed(all.map((each) => nameIn(view, each)))
    const notes = own.length ? [`${view.row!.name || seat} has ${own.join(', ')} again.`] : []
    return confirm(view, `Swap ${spares} back?`, commands, `Swapped back: ${spares}.`, notes)
  },
}
