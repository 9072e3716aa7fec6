// Keys at roll call: Enter answers the riding position, digits are its cylinder's pressure, f is a finding.
import type { Command } from '../../domain/commands.ts'
import type { ReasonLine, Row } from '../../domain/board.ts'
import {
  cylinderAt,
  doubtOf,
  isOfReading,
  psiFault,
  readingFault,
  readingIn,
  readingOf,
} from '../actions/pressure.ts'
import type { Token } from '../input/keys.ts'
import { actionBy } from '../keymap.ts'
import { say, type Ui, type Updated } from '../ui-state.ts'
import type { View } from '../view.ts'
import { startSheet, STOPPED } from './sheet.ts'

/** Has it to answer: for the first time in this tour, or again because it is called again? */
export function isCalled({ state }: View, { again }: Ui, row: Row): boolean {
  if (row.member === null) return false
  const answer = state.tour?.answers.get(row.seat)
  return !answer || (again !== null && again.seats.includes(row.seat) && answer.seq <= again.since)
}

/** The next riding position that is called, after the one in hand and then from the top. */
function nextCalled(view: View, ui: Ui, after: Row): Row | undefined {
  const { rows } = view
  const at = rows.indexOf(after)
  return [...rows.slice(at + 1), ...rows.slice(0, at)].find((each) => isCalled(view, ui, each))
}

/** The roll call opens at the seat in hand, or at the next that is called; once all have answered, where gear has changed. */
export function callRoll(ui: Ui, view: View): Updated {
  const { row, rows, state } = view
  if (view.stopped) return say(ui, STOPPED)
  if (!state.tour) return say(ui, 'No tour is open. Press o to open it.')
  const open = (seat: Row, more: Partial<Ui> = {}): Ui => ({
    ...ui,
    screen: 'roll-call',
    seat: seat.seat,
    gauge: '',
    doubted: null,
    ...more,
  })
  const called = row && (isCalled(view, ui, row) ? row : nextCalled(view, ui, row))
  if (called) return { ui: open(called) }
  const changed = rows.filter((each) => each.changed)
  const [again] = changed
  if (again) {
    const text = `Called again: ${changed.length} whose gear has changed since. a calls everybody again.`
    const seats = changed.map((each) => each.seat)
    return say(open(again, { again: { since: state.seq, seats } }), text)
  }
  const first = rows.find((each) => each.member !== null)
  return first
    ? say(open(first), 'Everybody has answered and no gear has changed since. a calls everybody again.')
    : say(ui, 'Nobody is seated yet. Press m to seat the crew.')
}

function callEverybody(ui: Ui, view: View): Updated {
  const seats = view.rows.flatMap((each) => (each.member === null ? [] : each.seat))
  const text = `Everybody is called again: ${seats.length}.`
  return say({ ...ui, seat: seats[0]!, again: { since: view.state.seq, seats } }, text)
}

/** Does its cylinder have to be read before the answer? */
export const needsReading = (row: Row): boolean => row.reasons.some(isUnread)
const isUnread = ({ rule, state }: ReasonLine): boolean =>
  rule === 'cylinder-pressure' && state === 'unproven'

/** Does the pressure that is typed wait for a second Enter? */
export const isDoubted = ({ doubted, gauge }: Ui): boolean => gauge !== '' && doubted === gauge

/**
 * What an answer without a finding says: of a position that may not ride, or would not by the pressure that is asked about,
 * nobody can say that all is serviceable.
 */
export const saysOnEnter = (row: Row, ui: Ui): string =>
  !isDoubted(ui) && row.reasons.every((each) => each.state === 'due' || isUnread(each))
    ? 'all serviceable'
    : 'nothing more found'

/** `20000 -60.5F` */
const LONGEST = 12

export function updateRollCall(ui: Ui, token: Token, view: View): Updated {
  const { row, rows } = view
  if (!row) return { ui: { ...ui, screen: 'board' } }
  // Another terminal may have handed the tour over: then nobody here gives answers.
  if (view.speaker === undefined)
    return say(
      { ...ui, screen: 'board', gauge: '' },
      ['No tour is open any more.', ...notRecorded(ui)].join(' '),
    )
  if ('char' in token) {
    // After a doubtful reading the first digit begins anew.
    const before = ui.doubted === null ? ui.gauge : ''
    if (isOfReading(before, token.char)) {
      return { ui: { ...ui, gauge: (before + token.char).slice(0, LONGEST), doubted: null } }
    }
    if (token.char === 'f') return startFinding(ui, view)
    if (token.char === 'r') return ui.gauge ? stays(ui) : callRoll(ui, view)
    if (token.char === 'a' && !view.rows.some((each) => isCalled(view, ui, each)))
      return ui.gauge ? stays(ui) : callEverybody(ui, view)
    const enter = isCalled(view, ui, row) ? `Enter answers: ${saysOnEnter(row, ui)}. ` : ''
    return say(ui, `${enter}f is a finding. Digits are the pressure. Esc leaves the roll call.`)
  }
  if (!('key' in token)) return { ui }
  switch (token.key) {
    case 'escape':
      return ui.gauge
        ? say({ ...ui, gauge: '', doubted: null }, notRecorded(ui).join())
        : { ui: { ...ui, screen: 'board' } }
    case 'backspace':
      return { ui: { ...ui, gauge: ui.gauge.slice(0, -1), doubted: null } }
    case 'up':
    case 'down': {
      if (ui.gauge) return stays(ui)
      const seats = rows.filter((each) => each.member !== null)
      const to = seats[seats.indexOf(row) + (token.key === 'up' ? -1 : 1)]
      return { ui: { ...ui, seat: (to ?? row).seat } }
    }
    case 'enter':
      return answer(ui, view, row)
    default:
      return { ui }
  }
}

/** A pressure is of the cylinder in hand: whoever goes on says first what becomes of it. */
const stays = (ui: Ui): Updated =>
  say(ui, `${ui.gauge} psi is typed and not recorded yet: Enter records it, Esc takes it away.`)

const notRecorded = ({ gauge }: Ui): string[] => (gauge ? [`${gauge} psi was not recorded.`] : [])

/** With a finding the pressure that stands typed is recorded too. */
function startFinding(ui: Ui, view: View): Updated {
  const blocked = actionBy('finding').blocked?.(view)
  if (blocked) return say(ui, blocked)
  const wrong = ui.gauge ? readingWrong(ui, view) : undefined
  return (
    wrong ??
    startSheet(ui, view, 'finding', ui.gauge ? [{ name: 'psi', value: ui.gauge, isGiven: true }] : [])
  )
}

/** Nothing is answered twice: a key that is held down must not write on and on. */
function answer(ui: Ui, view: View, row: Row): Updated {
  const next = nextCalled(view, ui, row)
  const isAnswered = !isCalled(view, ui, row)
  const who = `${row.position} ${row.name}`
  const commands: Command[] = []
  if (ui.gauge) {
    const wrong = readingWrong(ui, view) ?? doubted(ui, view)
    if (wrong) return wrong
    const { command, done } = readingOf(view, cylinderAt(view)!, ui.gauge)
    if (isAnswered) return { ui, effect: { submit: [command], done } }
    commands.push(command)
  } else if (row.member === null) {
    return { ui: { ...ui, seat: (next ?? row).seat } }
  } else if (needsReading(row)) {
    return say(ui, `Read the gauge of cylinder ${cylinderAt(view)}: type its pressure in psi, then Enter.`)
  } else if (isAnswered) {
    const onward = next ? `; r goes to ${next.seat}, the next to answer` : ', and so has everybody else'
    return say(ui, `${who} has answered${onward}; f adds a finding.`)
  }
  commands.push({ do: 'answer', by: view.speaker!, seat: row.seat, findings: [] })
  const done = next ? `${who} answered.` : sayComplete(view, ui)
  return { ui, effect: { submit: commands, done, nextSeat: next?.seat, leavesRollCall: !next } }
}

/** How far it went, said once at its end. */
function sayComplete({ board }: View, { again }: Ui): string {
  const { filled } = board.rollCall
  return again
    ? `Roll call complete: ${again.seats.length} called again and answered.`
    : `Roll call complete: ${filled} of ${filled} answered.`
}

/** Why what is typed is not recorded now. */
function readingWrong(ui: Ui, view: View): Updated | undefined {
  const takesAway = 'Backspace takes the digits away.'
  const cylinder = cylinderAt(view)
  if (cylinder === undefined) return say(ui, `${view.row!.seat} has no cylinder to read. ${takesAway}`)
  const absent = readingFault(view, cylinder)
  if (absent) return say(ui, `${absent} ${takesAway}`)
  const fault = psiFault(ui.gauge) ?? readingFault(view, cylinder, readingIn(ui.gauge).psi)
  return fault ? say(ui, fault, 'bad') : undefined
}

/** A doubtful reading is recorded by a second Enter. */
function doubted(ui: Ui, view: View): Updated | undefined {
  const doubt = doubtOf(view, cylinderAt(view)!, readingIn(ui.gauge))
  if (!doubt || isDoubted(ui)) return undefined
  const text = `${doubt.what}: Enter again records it and ${doubt.follows}; or type it anew.`
  return say({ ...ui, doubted: ui.gauge }, text)
}
