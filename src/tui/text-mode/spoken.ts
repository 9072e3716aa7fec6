// A screen told in plain lines with numbered choices, for a screen reader or a terminal that only prints; it must never hold what a sign or a place alone would say.
import { count } from '../../domain/count.ts'
import type { PlaceLine } from '../../domain/board.ts'
import { capital } from '../../domain/decide/decision.ts'
import { inCallOrder } from '../../domain/roll-call.ts'
import { groupsOf, sayHolder } from '../../domain/forecast/groups.ts'
import { plain, wordOf } from '../../domain/kinds.ts'
import { sayDate } from '../../domain/time.ts'
import { deadlinesOf, MONTHS_AHEAD } from '../deadlines.ts'
import { actionBy, EVERYWHERE, LOG_ACTIONS } from '../keymap.ts'
import { sayPlace } from '../say.ts'
import { isProposed, type Ui } from '../ui-state.ts'
import { isCalled, needsReading, saysOnEnter } from '../update/roll-call.ts'
import { isOffered } from '../update/offer.ts'
import { narrowed } from '../update/narrowed.ts'
import { isRefused, stepOf } from '../update/sheet.ts'
import type { View } from '../view.ts'
import { BACK, inLines, TYPED_HERE, type Spoken } from './choice.ts'
import { pageOf } from './page.ts'
import { spokenBoard } from './spoken-board.ts'
import { spokenPlan } from './spoken-plan.ts'

export function spoken(view: View, ui: Ui): Spoken {
  switch (ui.screen) {
    case 'board':
      return spokenBoard(view)
    case 'sheet':
      return sheet(view, ui)
    case 'log':
      return log(view, ui)
    case 'roll-call':
      return rollCall(view, ui)
    case 'deadlines':
      return deadlines(view)
    case 'plan':
      return view.plan ? spokenPlan(view.plan) : { lines: pageOf(view, ui), choices: [], hint: BACK }
    default:
      return {
        // Only the help speaks of keys; what a card holds was written by others.
        lines: ui.screen === 'help' ? help(pageOf(view, ui)) : pageOf(view, ui),
        choices: [],
        hint: `An id or a name is looked up. ${BACK}`,
      }
  }
}

const help = (page: readonly string[]): string[] => [
  ...TYPED_HERE,
  ...page.filter((each) => !EVERYWHERE.some(({ keys }) => each.startsWith(`${keys}: `))).map(inLines),
]

/** What is not ready, each with what is known of it; then the rest as it is called; then the reading, where one is to be taken. */
function rollCall(view: View, ui: Ui): Spoken {
  const { row, board } = view
  if (!row) return { lines: ['Nobody is called.'], choices: [], hint: BACK }
  const { answered, filled, complete } = board.rollCall
  const called = isCalled(view, ui, row) ? 'is called: look at each one' : 'has answered'
  const places = inCallOrder(row.places)
  // Ready by a looser rule is told too.
  const isPlain = (each: PlaceLine): boolean => each.state === 'ready' && !each.text
  const elements = places
    .filter((each) => !isPlain(each))
    .map((each) => `${capital(`${each.word} ${each.element ?? ''}`.trim())}: ${sayPlace(each)}.`)
  const ready = places.filter(isPlain).flatMap(({ word, element }) => (element ? `${word} ${element}` : []))
  const rest = ready.length
    ? [`${elements.length ? 'The rest is ready' : 'All is ready'}: ${ready.join(', ')}.`]
    : []
  const says = saysOnEnter(row, ui)
  const answers = needsReading(row)
    ? `psi 4400 is its pressure and answers: ${says}`
    : `ok answers: ${says}. psi 4400 is its pressure and answers`
  const unread = needsReading(row) ? ['Its cylinder has to be read first: type it as psi 4400.'] : []
  return {
    lines: [
      `Roll call, ${answered} of ${filled} answered. ${row.seat} ${row.position}: ${row.name} ${called}.`,
      ...elements,
      ...rest,
      ...unread,
    ],
    choices: [],
    hint: `${answers}. f is a finding${complete ? ', a calls everybody again' : ''}. next and previous choose another. ${BACK}`,
  }
}

function sheet(view: View, ui: Ui): Spoken {
  const step = stepOf(view, ui)
  const action = actionBy(ui.action!)
  const where = view.row && !action.isOfStation ? ` at ${view.row.seat} ${view.row.position}` : ''
  const title = `${capital(action.label)}${where}.`
  switch (step.ask) {
    case 'choose': {
      const options = narrowed(step, ui.text)
      const typed = ui.text ? [`Narrowed by "${ui.text}": ${options.length} of ${step.options.length}.`] : []
      return {
        // What was read once is not read again only because a list was narrowed.
        lines: [
          title,
          ...(ui.text ? [] : (step.lines ?? [])).map((each) => inLines(each.text)),
          step.title,
          ...typed,
          ...(options.length ? [] : [NOTHING]),
        ],
        isLong: !ui.text && options.length > MANY,
        // What is answered for has been heard to its end.
        isWhole: !ui.text && Boolean(step.lines?.length),
        choices: options.map(({ value, label, note, blocked }) => ({
          value,
          label: `${label}${note ? `, ${note}` : ''}${blocked ? `. Not now: ${inLines(blocked)}` : ''}`,
        })),
        hint: `A number takes one. Words narrow the list; /12 looks for 12.${isOffered(ui) ? ' A key of the board leaves it for now.' : ''} ${BACK}`,
      }
    }
    case 'write':
      return {
        lines: [title, `${step.title}${step.hint ? ` (${step.hint})` : ''}`],
        choices: [],
        hint: step.isSecret
          ? `Careful: here it is seen as you type it. ${BACK}`
          : `Type it.${isProposed(ui) ? ` keep takes ${ui.text}.` : ''} none leaves it empty. ${BACK}`,
      }
    case 'confirm':
      return {
        lines: [title, step.title, ...step.lines.map((each) => inLines(each.text))],
        choices: [],
        hint: isRefused(step) ? BACK : `yes does it. ${BACK}`,
        isWhole: true,
      }
    case 'done':
      return { lines: [title], choices: [], hint: BACK }
  }
}

/** More choices than this are not read out unasked. */
const MANY = 40
const NOTHING = 'There is nothing to choose. Other words look again; b goes one step back.'

const ENTRY_KEYS = LOG_ACTIONS.map(({ key, label }) => `${key} ${label}`).join(', ')

function log(view: View, { log: entries, filter, entry }: Ui): Spoken {
  const what = filter ? ` of ${filter.by} ${filter.id} only` : ''
  const inHand = entries.find((each) => each.seq === entry)
  return {
    lines: [
      `The log${what}, newest first: ${entries.length} of ${count(view.state.seq, 'event')}.`,
      ...(inHand ? [`In hand: ${inHand.text}`, ...inHand.versions] : []),
    ],
    choices: entries.map(({ seq, text, became }) => ({
      value: String(seq),
      label: became ? `(${became}) ${text}` : text,
    })),
    hint: `A number takes a record in hand. Keys: ${ENTRY_KEYS}. ${BACK}`,
  }
}

/** The plot as its counts, and every deadline by a number that shows its card. */
function deadlines(view: View): Spoken {
  const { forecast, entries } = deadlinesOf(view)
  const { past, ahead, undated } = forecast
  const months = groupsOf(forecast, 'month').filter((each) => each.ahead.length)
  const counts = months.map(
    ({ label, ahead: all, replacements }) =>
      `${label} ${all.length}${replacements ? `, ${replacements} of them the end of a life` : ''}`,
  )
  return {
    lines: [
      `Deadlines: ${past.length} past, ${ahead.length} in ${MONTHS_AHEAD} months, ${undated.length} without a day.`,
      ...(counts.length ? [`By month: ${counts.join('; ')}.`] : []),
    ],
    choices: entries.map((entry) => ({
      value: `${entry.element} ${entry.rule}`,
      label: `${entry.when === 'ahead' ? '' : `${entry.when}, `}${entry.deadline ? `${sayDate(entry.deadline.on)}: ` : ''}${wordOf(entry.kind)} ${entry.element}, ${sayHolder(entry)}: ${entry.need === 'replacement' ? 'end of life' : plain(entry.need)}`,
    })),
    hint: `A number shows the card. ${BACK}`,
  }
}
