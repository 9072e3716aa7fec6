// An action offered as soon as another is recorded; it must never be taken, or leave, by a key that was held down.
import type { Follow } from '../actions/action.ts'
import { actionBy } from '../keymap.ts'
import type { Ui } from '../ui-state.ts'
import type { View } from '../view.ts'
import { startSheet, stepOf } from './sheet.ts'

/** Nothing of a list is in hand: Enter takes nothing before a key has chosen. */
const NONE = -1

/** Offers the next action while what was done is still said; whatever cannot be done now is not offered. */
export function offer(ui: Ui, { action, answers = {} }: Extract<Follow, { action: string }>, view: View): Ui {
  // The roll is called to its end before anything is settled.
  if (view.speaker === undefined || ui.screen === 'roll-call' || actionBy(action).blocked?.(view)) return ui
  const given = Object.entries(answers).map(([name, value]) => ({ name, value, isGiven: true as const }))
  const { ui: next } = startSheet(ui, view, action, given)
  const step = stepOf(view, next)
  // No held Enter is a PIN.
  if (step.ask === 'write' && step.isSecret) return next
  return step.ask === 'choose' ? { ...next, cursor: NONE } : ui
}

/** An offer that nobody has gone into: the keys of the board still are what they are. */
export const isOffered = (ui: Ui): boolean => ui.screen === 'sheet' && ui.cursor === NONE
