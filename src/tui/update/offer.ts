// An action offered as soon as another is recorded; it must never be taken, or leave, by a key that was held down.
import type { Follow, Step } from '../actions/action.ts'
import { actionBy } from '../keymap.ts'
import type { Ui } from '../ui-state.ts'
import type { View } from '../view.ts'
import { startSheet, stepOf } from './sheet.ts'

/** Nothing of a list is in hand: Enter takes nothing before a key has chosen. */
const NONE = -1

/** Offers the next action while what was done is still said; whatever cannot be done now is not offered. */
export function offer(ui: Ui, follow: Extract<Follow, { action: string }>, view: View): Ui {
  const { action, answers = {}, later } = follow
  if (view.speaker === undefined || actionBy(action).blocked?.(view)) return ui
  if (ui.screen === 'roll-call')
    return later && ui.message ? { ...ui, message: withMore(ui.message, later) } : ui
  const given = Object.entries(answers).map(([name, value]) => ({ name, value, isGiven: true as const }))
  const { ui: next } = startSheet(ui, view, action, given)
  const step = stepOf(view, next)
  // No held Enter is a PIN.
  if (step.ask === 'write' && step.isSecret) return next
  return step.ask === 'choose' ? { ...next, cursor: NONE } : ui
}

const withMore = (said: NonNullable<Ui['message']>, more: string): Ui['message'] => ({
  ...said,
  text: `${said.text} ${more}`,
})

/** An offer that nobody has gone into: the keys of the board still are what they are. */
export const isOffered = (ui: Ui): boolean => ui.screen === 'sheet' && ui.cursor === NONE

/** The spares of what was just tagged: the key that puts a spare in means these, and takes none of them. */
const ENTERED = 'swap'
export const entersOffer = ({ action }: Ui, char: string): boolean =>
  action === ENTERED && char === actionBy(ENTERED).key

/** What the keys do while it is offered. */
export function keysOfOffer({ action }: Ui, step: Step): string {
  if (step.ask === 'choose' && !step.options.length) return 'Esc or a key of the board goes back'
  return action === ENTERED
    ? `up, down or ${actionBy(ENTERED).key} chooses   Enter takes   Esc or another key leaves it for now`
    : 'up, down chooses   Enter takes   Esc or a key of the board leaves it for now'
}
