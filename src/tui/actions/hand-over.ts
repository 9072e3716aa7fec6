// Handing a tour over: the gravest first, what is open and whose, read back by whoever takes it; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { sayMember } from '../../domain/decide/decision.ts'
import { acknowledgedBy, openItems, type OpenItem } from '../../domain/items.ts'
import type { Id } from '../../domain/gear.ts'
import type { Row } from '../../domain/board.ts'
import { sayRollCall } from '../../domain/headline.ts'
import { isFit } from '../../domain/rules/verdict.ts'
import { SIGNS } from '../../domain/signs.ts'
import { pinHolders, pinsAsked } from '../../domain/pin.ts'
import type { View } from '../view.ts'
import {
  confirm,
  type Action,
  type Answers,
  type Follow,
  type LookLine,
  type Option,
  type Step,
} from './action.ts'
import { askOfficer } from './ask.ts'
import { pinStep } from './pin.ts'
import { nextTurn, sayNextTurn } from './turn.ts'

export const handOver: Action = {
  id: 'hand-over',
  isOfStation: true,
  key: 'h',
  label: 'hand over',
  help: 'Hand the tour over: who may not ride, what is open and whose, read back by the incoming officer; then the log is exported.',
  blocked: (view) => (view.state.tour ? undefined : 'No tour is open, so there is none to hand over.'),
  next(view, answers) {
    const title = ['Hand over to whom?', sayNextTurn(view)].filter(Boolean).join(' ')
    const asked =
      askOfficer(view, answers, 'to', title, nextTurn(view)?.platoon) ??
      askReadBack(view, answers) ??
      askSignatory(view, answers)
    if (asked) return asked
    const { state } = view
    const { id, officer } = state.tour!
    const by = answers['signs'] ?? officer
    const command: Command = { do: 'hand-over', by, to: answers['to']!, readBack: true }
    const pins = pinsAsked(state, command)
    for (const { field, member } of pins) {
      const who = sayMember(state, member.id)
      const title = field === 'pin' ? `The PIN of ${who}?` : `The PIN of ${who}, who has read this back?`
      if (answers[field] === undefined) return pinStep(title, field)
    }
    const given = Object.fromEntries(pins.map(({ field }) => [field, answers[field]]))
    const signs = `${sayMember(state, by)} signs off${by === officer ? '' : ` for ${sayMember(state, officer)}`}`
    const notes = [view.board.headline, 'The journal is sealed and the readiness log exported next.']
    const step = confirm(
      view,
      `${signs} and hands tour ${id} over to ${sayMember(state, answers['to']!)}?`,
      [{ ...command, ...given }],
      `Tour ${id} is handed over.`,
      notes,
      { export: 'pdf' },
    )
    // A wrong PIN asks for the PINs again, not for all that was read back.
    const { to, readBack, signs: signatory } = answers
    const known = { to: to!, readBack: readBack!, ...(signatory !== undefined && { signs: signatory }) }
    const again: Follow = { action: 'hand-over', answers: known }
    return pins.length && step.ask === 'confirm' ? { ...step, deed: { ...step.deed, again } } : step
  },
}

const FOR_ANOTHER = 'for another'

function askReadBack(view: View, answers: Answers): Step | undefined {
  if (answers['readBack'] !== undefined) return undefined
  const { state } = view
  const to = sayMember(state, answers['to']!)
  const { officer } = state.tour!
  const options: Option[] = [
    {
      value: 'no',
      label: 'Not yet: something is unclear',
      blocked: 'Settle it together first; Esc goes back.',
    },
    { value: 'yes', label: `${to} has read this back and takes it over` },
  ]
  // Whoever is ill or gone cannot give their PIN; somebody else who has one signs off.
  if (state.members.get(officer)?.pin && pinHolders(state, officer).length) {
    const label = `The same, but somebody else signs off for ${sayMember(state, officer)}`
    options.push({ value: FOR_ANOTHER, label })
  }
  const lines = [...whoMayNotRide(view), ...whatIsOpen(view)]
  return { ask: 'choose', name: 'readBack', title: `${to} reads this back.`, lines, options }
}

function askSignatory({ state }: View, answers: Answers): Step | undefined {
  if (answers['readBack'] !== FOR_ANOTHER || answers['signs'] !== undefined) return undefined
  const isIncoming = (id: Id): number => Number(id === answers['to'])
  const options = pinHolders(state, state.tour!.officer)
    .toSorted((a, b) => isIncoming(b.id) - isIncoming(a.id))
    .map(({ id, rank }): Option => ({ value: id, label: sayMember(state, id), ...(rank && { note: rank }) }))
  return { ask: 'choose', name: 'signs', title: 'Who signs off, with a PIN of their own?', options }
}

/** The gravest first: who may not ride and why, then the rigs, then the roll. */
function whoMayNotRide({ board, rows }: View): LookLine[] {
  const unfit = rows.filter((row) => row.member !== null && !row.fit)
  const empty = rows.filter((row) => row.member === null).map((row) => row.position)
  const rigs = board.rigs.map(({ name, words, tone }): LookLine => ({ text: `${name} ${words}.`, tone }))
  return [
    ...unfit.map((row): LookLine => ({
      text: `${row.position} ${row.name} may not ride: ${row.sentence}${sayOthers(row)}`,
      tone: 'bad',
    })),
    ...(unfit.length ? [] : [{ text: board.headline, tone: board.tone }]),
    ...rigs,
    ...(empty.length ? [{ text: `Nobody rides as ${empty.join(', ')}.` }] : []),
    { text: sayRollCall(board.rollCall) },
  ]
}

/** ` Also: helmet H-9081 expired, hood missing.` Whoever mends the worst alone still has nobody fit. */
function sayOthers({ places, reasons }: Row): string {
  const others = places.filter((each) => !isFit(each.state) && each.kind !== reasons[0]?.kind)
  const said = others.map(({ word, element, state }) =>
    [word, element, SIGNS[state].word].filter(Boolean).join(' '),
  )
  return said.length ? ` Also: ${said.join(', ')}.` : ''
}

function whatIsOpen({ state }: View): LookLine[] {
  const items = openItems(state)
  const count = items.length ? `${items.length} open:` : 'Nothing is open.'
  const whose = (item: OpenItem): string => {
    const taken = acknowledgedBy(state, item)
    return taken ? `${sayMember(state, taken.by)} has it` : 'nobody has taken it on'
  }
  const sorts = [...new Set(items.map((each) => each.ifThen))]
  return [
    { text: count },
    ...sorts.flatMap((ifThen) => [
      ...items
        .filter((item) => item.ifThen === ifThen)
        .map((item): LookLine => ({ text: `${item.words.slice(0, -1)}; ${whose(item)}.` })),
      { text: ifThen, tone: 'warn' as const },
    ]),
  ]
}
