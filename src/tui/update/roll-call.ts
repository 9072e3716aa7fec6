// Keys at roll call: Enter answers the riding position, digits are its cylinder's pressure, f is a finding.
import type { Command } from '../../domain/commands.ts'
import type { ReasonLine, Row } from '../../domain/board.ts'
import { cylinderAt, doubtOf, psiFault, readingFault } from '../actions/pressure.ts'
import type { Token } from '../input/keys.ts'
import { actionBy } from '../keymap.ts'
import { say, type Ui, type Updated } from '../ui-state.ts'
import type { View } from '../view.ts'
import { startSheet } from './sheet.ts'

/** The next riding position that has not answered, after the one in hand and then from the top. */
export function nextUnanswered(rows: readonly Row[], after: Row): Row | undefined {
  const at = rows.indexOf(after)
  const around = [...rows.slice(at + 1), ...rows.slice(0, at)]
  return around.find((each) => each.member !== null && !each.answered)
}

/** Does its cylinder have to be read before the answer? */
export const needsReading = (row: Row): boolean => row.reasons.some(isUnread)
const isUnread = ({ rule, state }: ReasonLine): boolean =>
  rule === 'cylinder-pressure' && state === 'unproven'

/** What an answer without a finding says: of a position that may not ride nobody can say that all is serviceable. */
export const saysOnEnter = (row: Row): string =>
  row.reasons.every((each) => each.state === 'due' || isUnread(each))
    ? 'all serviceable'
    : 'nothing more found'

export function updateRollCall(ui: Ui, token: Token, view: View): Updated {
  const { row, rows } = view
  if (!row) return { ui: { ...ui, screen: 'board' } }
  // Another terminal may have handed the tour over: then nobody here gives answers.
  if (view.speaker === undefined)
    return say({ ...ui, screen: 'board', text: '' }, 'No tour is open any more.')
  if ('char' in token) {
    if (/\d/.test(token.char)) {
      // After a doubtful reading the first digit begins anew.
      const before = ui.doubted === null ? ui.text : ''
      return { ui: { ...ui, text: (before + token.char).slice(0, 5), doubted: null } }
    }
    if (token.char === 'f') {
      const blocked = actionBy('finding').blocked?.(view)
      return blocked ? say(ui, blocked) : startSheet({ ...ui, text: '' }, view, 'finding')
    }
    const enter = row.answered ? '' : `Enter answers: ${saysOnEnter(row)}. `
    return say(ui, `${enter}f is a finding. Digits are the pressure. Esc leaves the roll call.`)
  }
  if (!('key' in token)) return { ui }
  switch (token.key) {
    case 'escape':
      return { ui: ui.text ? { ...ui, text: '', doubted: null } : { ...ui, screen: 'board' } }
    case 'backspace':
      return { ui: { ...ui, text: ui.text.slice(0, -1), doubted: null } }
    case 'up':
    case 'down': {
      const seats = rows.filter((each) => each.member !== null)
      const to = seats[seats.indexOf(row) + (token.key === 'up' ? -1 : 1)]
      return { ui: { ...ui, seat: (to ?? row).seat, text: '', doubted: null } }
    }
    case 'enter':
      return answer(ui, view, row)
    default:
      return { ui }
  }
}

/** Nothing is answered twice: a key that is held down must not write on and on. */
function answer(ui: Ui, view: View, row: Row): Updated {
  const next = nextUnanswered(view.rows, row)
  if (row.member === null) return { ui: { ...ui, seat: (next ?? row).seat } }
  const who = `${row.position} ${row.name}`
  const by = view.speaker!
  const cylinder = cylinderAt(view)
  const commands: Command[] = []
  if (ui.text) {
    const wrong = readingWrong(ui, view, row, cylinder)
    if (wrong) return wrong
    commands.push({ do: 'read-pressure', by, element: cylinder!, psi: Number(ui.text) })
  } else if (row.answered) {
    return say(ui, `${who} has answered; f adds a finding, up and down choose another.`)
  } else if (needsReading(row)) {
    return say(ui, `Read the gauge of cylinder ${cylinder}: type its pressure in psi, then Enter.`)
  }
  const read = { ...ui, text: '', doubted: null }
  if (row.answered)
    return { ui: read, effect: { submit: commands, done: `Read ${ui.text} psi on ${cylinder}.` } }
  commands.push({ do: 'answer', by, seat: row.seat, findings: [] })
  const done = next ? `${who} answered.` : 'Roll call complete.'
  return { ui: read, effect: { submit: commands, done, nextSeat: next?.seat, leavesRollCall: !next } }
}

/** Why the digits typed are not recorded now. */
function readingWrong(ui: Ui, view: View, row: Row, cylinder: string | undefined): Updated | undefined {
  const takesAway = 'Backspace takes the digits away.'
  if (cylinder === undefined) return say(ui, `${row.seat} has no cylinder to read. ${takesAway}`)
  const absent = readingFault(view, cylinder)
  if (absent) return say(ui, `${absent} ${takesAway}`)
  const fault = psiFault(ui.text) ?? readingFault(view, cylinder, Number(ui.text))
  if (fault) return say(ui, fault, 'bad')
  const doubt = doubtOf(view, cylinder, Number(ui.text))
  if (!doubt || ui.doubted === ui.text) return undefined
  const text = `${doubt.what}: Enter again records it and ${doubt.follows}; or type it anew.`
  return say({ ...ui, doubted: ui.text }, text)
}
