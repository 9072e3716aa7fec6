// What a key does to the deadlines ahead: it moves, shows the card of the one in hand, or goes back. It never records.
import { deadlinesOf } from '../deadlines.ts'
import type { Token } from '../input/keys.ts'
import type { Ui, Updated } from '../ui-state.ts'
import type { View } from '../view.ts'

/** @param move where a token leads from one entry, never past the last */
export function updateDeadlines(
  ui: Ui,
  token: Token,
  view: View,
  move: (from: number, token: Token, last: number) => number,
): Updated {
  if (!('key' in token)) return { ui }
  if (token.key === 'escape') return { ui: { ...ui, screen: 'board' } }
  const { entries } = deadlinesOf(view)
  const at = Math.min(ui.deadline, Math.max(0, entries.length - 1))
  const entry = entries[at]
  const card = entry?.element ?? entry?.holder
  if (token.key === 'enter') return card ? { ui, effect: { card } } : { ui }
  return { ui: { ...ui, deadline: move(at, token, Math.max(0, entries.length - 1)) } }
}
