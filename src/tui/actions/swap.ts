// Putting a spare in and giving the member their own element back; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { capital, nameOf } from '../../domain/decide/decision.ts'
import { wordOf, type Kind } from '../../domain/kinds.ts'
import { policyOf } from '../../domain/policy/in-force.ts'
import { SIGNS } from '../../domain/signs.ts'
import { rankSpares, type Spare } from '../../domain/spares.ts'
import { assigned, holderOf, place } from '../../domain/state.ts'
import type { View } from '../view.ts'
import { confirm, type Action, type Answers, type Option, type Step } from './action.ts'
import { nobodyHere } from './ask.ts'

/** The places at the seat in hand, those that keep it from riding first. */
function placeOptions(view: View): Option[] {
  const places = view.row!.places.toSorted((a, b) => rank(a.state) - rank(b.state))
  return places.map((each) => ({
    value: each.kind,
    label: `${capital(each.word)}${each.element ? ` ${each.element}` : ''}`,
    note: each.text ? `${SIGNS[each.state].word}: ${each.text}` : SIGNS[each.state].word,
    tone: SIGNS[each.state].tone,
  }))
}
const rank = (state: keyof typeof SIGNS): number => Object.keys(SIGNS).indexOf(state)

function spareOption(spare: Spare): Option {
  const [element] = spare.elements
  const words = spare.fits ? spare.for : [...spare.against, ...spare.for]
  return {
    value: element.id,
    label: `${spare.fits ? 'fits' : 'no'}${spare.state === 'ready' ? '' : `, ${SIGNS[spare.state].word}`}: ${element.id}`,
    note: words.map((each) => each.replace(/\.$/, '')).join('; '),
    tone: SIGNS[spare.state].tone,
  }
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
    const spares = rankSpares(view.state, policyOf(view.state), view.at, seat, kind)
    if (answers['in'] === undefined) {
      const fitting = spares.filter((each) => each.fits).length
      const title = spares.length
        ? `Spare ${wordOf(kind)}: ${view.row!.name} can wear ${fitting} of ${spares.length}. Which goes in?`
        : `There is no spare ${wordOf(kind)} on the rack. ${view.row!.position} stays unfit. Esc goes back.`
      return { ask: 'choose', name: 'in', title, options: spares.map(spareOption) }
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
    const why = row.places.find((each) => each.kind === element.kind)?.text ?? ''
    const reason = why.charAt(0).toLowerCase() + why.slice(1)
    return {
      do: 'swap',
      by: view.speaker!,
      seat: row.seat,
      in: element.id,
      ...(out && { out: out.id }),
      ...(reason ? { reason } : kind !== element.kind && { reason: `one assembly with ${answers['in']}` }),
    }
  })
  const ids = spare.elements.map(nameOf).join(' and ')
  const outs = commands.flatMap((each) => ('out' in each && each.out ? each.out : []))
  const notes = outs.length ? [`Comes out: ${outs.join(', ')}. b swaps back later.`] : []
  return confirm(
    view,
    `Put ${ids} in for ${row.name}?`,
    commands,
    `${spare.elements.map((each) => each.id).join(', ')} swapped in. b swaps back.`,
    notes,
  )
}

const standIns = (view: View): Option[] =>
  view
    .row!.places.filter((each) => each.standsIn)
    .map((each) => {
      const seat = view.state.seats.get(view.row!.seat)!
      const standIn = view.state.standIns.get(place(holderOf(seat, each.kind)!, each.kind))
      return {
        value: each.kind,
        label: `${capital(each.word)} ${each.element}`,
        note: `own: ${standIn?.own ?? 'none'}`,
      }
    })

export const swapBack: Action = {
  id: 'swap-back',
  key: 'b',
  label: 'swap back',
  help: 'Give the member their own element back; the spare returns to the rack.',
  blocked: (view) =>
    nobodyHere(view) ?? (standIns(view).length ? undefined : `No spare stands in at ${view.row!.seat}.`),
  next(view, answers) {
    if (answers['kind'] === undefined) {
      return { ask: 'choose', name: 'kind', title: 'Swap back which element?', options: standIns(view) }
    }
    const kind = answers['kind'] as Kind
    const command: Command = { do: 'swap-back', by: view.speaker!, seat: view.row!.seat, kind }
    return confirm(view, `Swap the ${wordOf(kind)} back?`, [command], `Swapped the ${wordOf(kind)} back.`)
  },
}
