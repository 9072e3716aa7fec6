// Keys at roll call: Enter answers the riding position, digits are its cylinder's pressure, f is a finding.
import type { Command } from '../../domain/commands.ts'
import type { Row } from '../../domain/board.ts'
import { psiFault } from '../actions/care.ts'
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
export const needsReading = (row: Row): boolean =>
  row.reasons.some((each) => each.rule === 'cylinder-pressure' && each.state === 'unproven')

export const cylinderOf = (row: Row): string | undefined =>
  row.places.find((place) => place.kind === 'cylinder')?.element ?? undefined

export function updateRollCall(ui: Ui, token: Token, view: View): Updated {
  const { row, rows } = view
  if (!row) return { ui: { ...ui, screen: 'board' } }
  // Another terminal may have handed the tour over: then nobody here gives answers.
  if (view.speaker === undefined)
    return say({ ...ui, screen: 'board', text: '' }, 'No tour is open any more.')
  if ('char' in token) {
    if (/\d/.test(token.char)) return { ui: { ...ui, text: (ui.text + token.char).slice(0, 5) } }
    if (token.char === 'f') {
      const blocked = actionBy('finding').blocked?.(view)
      return blocked ? say(ui, blocked) : startSheet({ ...ui, text: '' }, view, 'finding')
    }
    return say(
      ui,
      'Enter answers: all serviceable. f is a finding. Digits are the pressure. Esc leaves the roll call.',
    )
  }
  if (!('key' in token)) return { ui }
  switch (token.key) {
    case 'escape':
      return { ui: ui.text ? { ...ui, text: '' } : { ...ui, screen: 'board' } }
    case 'backspace':
      return { ui: { ...ui, text: ui.text.slice(0, -1) } }
    case 'up':
    case 'down': {
      const seats = rows.filter((each) => each.member !== null)
      const to = seats[seats.indexOf(row) + (token.key === 'up' ? -1 : 1)]
      return { ui: { ...ui, seat: (to ?? row).seat, text: '' } }
    }
    case 'enter':
      return answer(ui, view, row)
    default:
      return { ui }
  }
}

function answer(ui: Ui, view: View, row: Row): Updated {
  const next = nextUnanswered(view.rows, row)
  if (row.member === null) return { ui: { ...ui, seat: (next ?? row).seat } }
  const cylinder = cylinderOf(row)
  const commands: Command[] = []
  if (ui.text && cylinder) {
    const fault = psiFault(ui.text)
    if (fault) return say(ui, fault)
    commands.push({ do: 'read-pressure', by: view.speaker!, element: cylinder, psi: Number(ui.text) })
  } else if (needsReading(row)) {
    return say(ui, `Read the gauge of cylinder ${cylinder}: type its pressure in psi, then Enter.`)
  }
  commands.push({ do: 'answer', by: view.speaker!, seat: row.seat, findings: [] })
  const done = next ? `${row.position} ${row.name} answered.` : 'Roll call complete.'
  return {
    ui: { ...ui, text: '' },
    effect: { submit: commands, done, nextSeat: next?.seat, leavesRollCall: !next },
  }
}
