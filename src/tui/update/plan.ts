// What a key does on the plan: it moves, takes all of it or one swap to a last look, or goes back. It never records.
import { takeMoves, takePlan, takeSwap } from '../actions/plan.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import type { Token } from '../input/keys.ts'
import { itemsOf } from '../panels/plan.ts'
import { say, type Ui, type Updated } from '../ui-state.ts'
import type { View } from '../view.ts'
import { scrolled } from './scroll.ts'
import { startSheet } from './sheet.ts'

export function updatePlan(ui: Ui, token: Token, view: View): Updated {
  if ('key' in token && token.key === 'escape') return { ui: { ...ui, screen: 'board', plan: null } }
  const plan = ui.plan?.made
  if (!plan) return { ui }
  const items = itemsOf(plan)
  const at = Math.min(ui.planned, items.length - 1)
  const item = items[at]
  if ('char' in token) {
    // Not Enter: that confirms, and a held Enter must not take swaps.
    if (token.char === takePlan.key)
      return items.some((each) => each.swap) ? startSheet(ui, view, takePlan.id) : say(ui, plan.words)
    if (token.char === takeMoves.key) return changeSeats(ui, view, plan)
    if (token.char !== takeSwap.key)
      return say(ui, `"${token.char}" is not a key of the plan. Esc goes back.`)
    if (!item?.swap) return say(ui, 'No swap is in hand. Move to one, or a takes them all.')
    const value = `${item.seat!.seat} ${item.swap.in[0]}`
    const inHand = { ...ui, seat: item.seat!.seat }
    return startSheet(inHand, view, takeSwap.id, [{ name: 'swap', value, isGiven: true }])
  }
  if (!('key' in token)) return { ui }
  if (token.key === 'enter')
    return say(ui, items.some((each) => each.swap) ? 'a takes all, s takes the swap in hand.' : plan.words)
  return { ui: { ...ui, planned: scrolled(at, token, Math.max(0, items.length - 1)) } }
}

/** The second proposal stands on the first: it is taken alone, once no swap is left to take. */
function changeSeats(ui: Ui, view: View, plan: Plan): Updated {
  if (!plan.moves) return say(ui, 'No change of seats lets more rigs ride.')
  if (plan.seats.some((each) => each.swaps.length))
    return say(ui, 'The changes of seat stand on the swaps: take these first.')
  return startSheet(ui, view, takeMoves.id)
}
