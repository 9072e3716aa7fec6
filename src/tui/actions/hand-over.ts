// Handing a tour over: the gravest first, what is open and whose, read back by whoever takes it; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { sayMember } from '../../domain/decide/decision.ts'
import { acknowledgedBy, openItems, type OpenItem } from '../../domain/items.ts'
import { asksPin } from '../../domain/pin.ts'
import type { View } from '../view.ts'
import { confirm, type Action, type Follow, type LookLine, type Option } from './action.ts'
import { askOfficer } from './ask.ts'
import { pinStep } from './pin.ts'
import { nextPlatoon } from './turn.ts'

export const handOver: Action = {
  id: 'hand-over',
  isOfStation: true,
  key: 'h',
  label: 'hand over',
  help: 'Hand the tour over: who may not ride, what is open and whose, read back by the incoming officer; then the log is exported.',
  blocked: (view) => (view.state.tour ? undefined : 'No tour is open, so there is none to hand over.'),
  next(view, answers) {
    const asked = askOfficer(view, answers, 'to', 'Hand over to whom?', nextPlatoon(view))
    if (asked) return asked
    const { state, speaker } = view
    const to = sayMember(state, answers['to']!)
    if (answers['readBack'] === undefined) {
      const options: Option[] = [
        {
          value: 'no',
          label: 'Not yet: something is unclear',
          blocked: 'Settle it together first; Esc goes back.',
        },
        { value: 'yes', label: `${to} has read this back and takes it over` },
      ]
      const lines = [...whoMayNotRide(view), ...whatIsOpen(view)]
      return { ask: 'choose', name: 'readBack', title: `${to} reads this back.`, lines, options }
    }
    const { pin } = answers
    if (asksPin(state, speaker!, 'hand-over') && pin === undefined)
      return pinStep(`The PIN of ${sayMember(state, speaker!)}?`)
    const { id } = state.tour!
    const command: Command = {
      do: 'hand-over',
      by: speaker!,
      to: answers['to']!,
      readBack: true,
      ...(pin !== undefined && { pin }),
    }
    const title = `${sayMember(state, speaker!)} signs off and hands tour ${id} over to ${to}?`
    const notes = [view.board.headline, 'The journal is sealed and the readiness log exported next.']
    const step = confirm(view, title, [command], `Tour ${id} is handed over.`, notes, { export: 'pdf' })
    // A wrong PIN asks for the PIN again, not for all that was read back.
    const again: Follow = { action: 'hand-over', answers: { to: answers['to']!, readBack: 'yes' } }
    return pin !== undefined && step.ask === 'confirm' ? { ...step, deed: { ...step.deed, again } } : step
  },
}

/** The gravest first: who may not ride and why, then the rigs, then the roll. */
function whoMayNotRide({ board, rows }: View): LookLine[] {
  const unfit = rows.filter((row) => row.member !== null && !row.fit)
  const empty = rows.filter((row) => row.member === null).map((row) => row.position)
  const rigs = board.rigs.map(({ name, words, tone }): LookLine => ({ text: `${name} ${words}.`, tone }))
  return [
    ...unfit.map((row): LookLine => ({
      text: `${row.position} ${row.name} may not ride: ${row.sentence}`,
      tone: 'bad',
    })),
    ...(unfit.length ? [] : [{ text: board.headline, tone: board.tone }]),
    ...rigs,
    ...(empty.length ? [{ text: `Nobody rides as ${empty.join(', ')}.` }] : []),
    { text: `${board.rollCall.words} ${board.rollCall.again}`.trim() },
  ]
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
