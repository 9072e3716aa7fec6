// What a key does to the screen: a pure function of the screen's state, the token and the view. Only an effect can record.
import { cleanText } from '../domain/clean.ts'
import { KINDS } from '../domain/kinds.ts'
import { labelled } from '../domain/labels.ts'
import type { Token } from './input/keys.ts'
import { ACTIONS, LOOKING } from './keymap.ts'
import { isTooSmall } from './panels/frame.ts'
import { lastTop, pageOf, partFrom } from './panels/reading.ts'
import { WORKING } from './planning.ts'
import { leave, say, type Ui, type Updated } from './ui-state.ts'
import { updateDeadlines } from './update/deadlines.ts'
import { updateCoverage } from './update/coverage.ts'
import { updatePlan } from './update/plan.ts'
import { updateLog } from './update/log.ts'
import { callRoll, updateRollCall } from './update/roll-call.ts'
import { PAGE, scrolled } from './update/scroll.ts'
import { entersOffer, isOffered } from './update/offer.ts'
import { startSheet, updateSheet } from './update/sheet.ts'
import type { View } from './view.ts'

export function update(before: Ui, token: Token, view: View): Updated {
  const ui = before.message ? { ...before, message: null } : before
  if ('key' in token && token.key === 'ctrl-c') return { ui, effect: { quit: true } }
  // What cannot be seen is not asked, so it cannot be answered.
  if (isTooSmall(view.size)) return { ui: before }
  if (isOffered(ui) && 'char' in token)
    return entersOffer(ui, token.char) ? { ui: { ...ui, cursor: 0 } } : update(leave(ui), token, view)
  if (ui.screen === 'sheet') return updateSheet(ui, token, view)
  if ('scan' in token) return scanned(ui, token, view)
  switch (ui.screen) {
    case 'board':
      return updateBoard(ui, token, view)
    case 'roll-call':
      return updateRollCall(ui, token, view)
    case 'log':
      return updateLog(ui, token, view)
    case 'deadlines':
      return updateDeadlines(ui, token, view, scrolled)
    case 'plan':
      return updatePlan(ui, token, view)
    case 'coverage':
      return updateCoverage(ui, token, view)
    case 'card':
    case 'help':
      return updateReading(ui, token, view)
  }
}

function scanned(ui: Ui, { scan, tooLong }: Extract<Token, { scan: string }>, view: View): Updated {
  if (tooLong) return say(ui, 'The scanner sent more than any label holds. Nothing was done.')
  const [one, ...others] = labelled(view.state, scan)
  if (!one) {
    return say(
      ui,
      `Read "${cleanText(scan)}": no element, member or riding position here has this id or serial.`,
    )
  }
  return others.length
    ? startSheet(ui, view, 'which', [{ name: 'code', value: scan, isGiven: true }])
    : { ui, effect: { card: one.id } }
}

function updateBoard(ui: Ui, token: Token, view: View): Updated {
  if ('char' in token) return press(ui, token.char, view)
  if (!('key' in token)) return { ui }
  const { rows, row, rig, board } = view
  const at = row ? rows.indexOf(row) : 0
  const to = (index: number): Updated => ({
    ui: { ...ui, seat: rows[Math.max(0, Math.min(rows.length - 1, index))]?.seat ?? null },
  })
  switch (token.key) {
    case 'up':
      return to(at - 1)
    case 'down':
      return to(at + 1)
    case 'page-up':
      return to(at - PAGE)
    case 'page-down':
      return to(at + PAGE)
    case 'home':
      return to(0)
    case 'end':
      return to(rows.length - 1)
    case 'tab':
    case 'back-tab': {
      const rigs = board.rigs
      const step = token.key === 'tab' ? 1 : rigs.length - 1
      const next = rigs[(rigs.indexOf(rig!) + step) % Math.max(1, rigs.length)]
      return { ui: { ...ui, seat: next?.rows[0]?.seat ?? ui.seat } }
    }
    case 'left':
    case 'right': {
      // None, then each column in turn, and around.
      const columns = [null, ...KINDS]
      const step = token.key === 'right' ? 1 : columns.length - 1
      return { ui: { ...ui, kind: columns[(columns.indexOf(ui.kind) + step) % columns.length]! } }
    }
    case 'escape':
      return { ui: { ...ui, kind: null } }
    case 'enter':
      return row ? { ui, effect: { card: row.seat } } : { ui }
    default:
      return { ui }
  }
}

function press(ui: Ui, char: string, view: View): Updated {
  const looking = LOOKING.find((each) => each.key === char)
  switch (looking?.id) {
    case 'quit':
      return { ui, effect: { quit: true } }
    case 'help':
      return { ui: { ...ui, screen: 'help', top: 0 } }
    case 'log':
      return { ui: { ...ui, screen: 'log', entry: null, filter: null }, effect: { log: true } }
    case 'deadlines':
      return { ui: { ...ui, screen: 'deadlines', deadline: 0 } }
    case 'coverage':
      return { ui: { ...ui, screen: 'coverage', top: 0 } }
    case 'plan':
      return { ui: { ...ui, screen: 'plan', plan: WORKING, planned: 0 } }
    case 'roll-call':
      return callRoll(ui, view)
    case undefined:
      break
  }
  const action = ACTIONS.find((each) => each.key === char)
  if (!action) return say(ui, `"${char}" is not a key of the board. Press ? for all keys.`)
  const blocked = action.blocked?.(view)
  if (blocked) return say(ui, blocked)
  return action.id === 'undo' ? { ui, effect: { undo: true } } : startSheet(ui, view, action.id)
}

function updateReading(ui: Ui, token: Token, view: View): Updated {
  if ('key' in token && (token.key === 'tab' || token.key === 'back-tab'))
    return { ui: { ...ui, top: partFrom(view, ui, view.size, token.key === 'back-tab') } }
  if ('char' in token && token.char !== ' ')
    return say(
      ui,
      `"${token.char}" does nothing here: the keys of the board are on the board. Esc goes back.`,
    )
  if (!('key' in token) || token.key !== 'escape')
    return { ui: { ...ui, top: scrolled(ui.top, token, lastTop(view, ui, view.size), pageOf(view.size)) } }
  if (ui.screen === 'help') return { ui: { ...ui, screen: 'board', top: 0 } }
  const left = { ...ui, card: null, top: 0 }
  return {
    ui: ui.under ? { ...left, ...ui.under, screen: 'sheet', under: null } : { ...left, screen: ui.from },
  }
}
