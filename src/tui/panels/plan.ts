// The plan on the glass: each rig before and after, then for each unfit position what goes in and why, or what is short.
import type { Plan, PlannedSeat, PlannedSwap } from '../../domain/plan/plan.ts'
import { sayMove, sayRigChange } from '../../domain/plan/words.ts'
import { wrap } from '../../exports/wrap.ts'
import { windowStart } from '../cells.ts'
import { plainLine, type Line } from '../theme.ts'
import type { Ui } from '../ui-state.ts'
import type { View } from '../view.ts'
import { bodyHeight, foot, head, rule, screen, type Size } from './frame.ts'

/** What can be in hand: a swap, a position that stays unfit, or how the whole was judged. */
interface PlanItem {
  seat: PlannedSeat | null
  swap: PlannedSwap | null
  /** The second proposal. */
  isMoves?: true
}

export function itemsOf(plan: Plan): PlanItem[] {
  const seats = plan.seats.flatMap((seat): PlanItem[] =>
    seat.swaps.length ? seat.swaps.map((swap) => ({ seat, swap })) : [{ seat, swap: null }],
  )
  const moves: PlanItem[] = plan.moves ? [{ seat: null, swap: null, isMoves: true }] : []
  // Where nothing goes in there is nothing but noughts to judge.
  const isJudged = plan.seats.some((each) => each.becomesFit)
  return [...seats, ...moves, ...(isJudged ? [{ seat: null, swap: null }] : [])]
}

const KEYS = 'a takes all   s takes this swap   up, down move   Esc goes back'
const NO_SWAP_KEYS = 'up, down move   Esc goes back'
const MOVES_KEYS = 'm changes the seats   up, down move   Esc goes back'

export function planScreen(view: View, ui: Ui, size: Size): Line[] {
  const { unicode } = view
  const { columns } = size
  const made = ui.plan?.made
  const title = plainLine(rule('The best use of the rack', columns, unicode))
  if (!made) {
    const { fault } = ui.plan ?? { fault: null }
    const said = fault
      ? `No plan could be made (${fault}). Nothing was recorded; s on the board swaps by hand.`
      : 'Working out the best use of the rack. Esc gives it up; nothing is recorded.'
    const lines = wrap(said, columns - 2).map((text) => plainLine(` ${text}`, fault ? 'bad' : undefined))
    return screen(head(view, size), [title, [], ...lines], foot(ui, size, 'Esc goes back', unicode), size)
  }
  const rigs = made.rigs
    .filter(({ before, after }) => before.words !== after.words || !after.canRide)
    .map((rig) => plainLine(` ${sayRigChange(rig)}`, rig.after.canRide ? undefined : 'bad'))
  const top = [
    title,
    ...wrap(made.words, columns - 2).map((text): Line => [{ text: ` ${text}`, bold: true }]),
    ...rigs.flatMap(([span]) => wrapped(span!.text, columns).map((text) => plainLine(text, span!.tone))),
    [],
  ]
  const room = bodyHeight(view, size) - top.length
  const { lines, inHand } = listed(made, ui.planned, columns)
  const start = windowStart(inHand, lines.length, room)
  const shown = lines.slice(start, start + room)
  const left = lines.length - start - shown.length
  if (left > 0) shown[shown.length - 1] = plainLine(`   and ${left + 1} more lines below`)
  const keys = made.seats.some((each) => each.swaps.length) ? KEYS : made.moves ? MOVES_KEYS : NO_SWAP_KEYS
  return screen(head(view, size), [...top, ...shown], foot(ui, size, keys, unicode), size)
}

const INDENT = 5
const wrapped = (text: string, columns: number, indent = 1): string[] => {
  const [first = '', ...rest] = wrap(text.trimStart(), columns - indent - 2)
  return [first, ...rest.map((each) => `  ${each}`)].map((each) => ' '.repeat(indent) + each)
}

/** All lines of the list, and the first line of what is in hand. */
function listed(plan: Plan, planned: number, columns: number): { lines: Line[]; inHand: number } {
  const items = itemsOf(plan)
  const at = Math.min(planned, items.length - 1)
  const lines: Line[] = []
  let inHand = 0
  items.forEach(({ seat, swap }, index) => {
    if (seat && items[index - 1]?.seat !== seat) {
      const now = seat.becomesFit ? 'becomes fit' : 'stays unfit'
      const text = ` ${seat.seat} ${seat.position}${seat.critical ? '*' : ''}  ${seat.name}  ${now}`
      lines.push([{ text, bold: true, tone: seat.becomesFit ? undefined : 'bad' }])
    }
    if (!seat) lines.push([])
    if (index === at) inHand = lines.length
    const mark = index === at ? ' > ' : '   '
    saidOf(plan, items[index]!).forEach((text, line) => {
      const parts = wrapped(text, columns, INDENT).map((each) => each.slice(3))
      parts.forEach((part, nth) =>
        lines.push([
          { text: line === 0 && nth === 0 ? mark : '   ', bold: true },
          { text: part, bold: index === at && line === 0, tone: seat && !swap ? 'bad' : undefined },
        ]),
      )
    })
  })
  return { lines, inHand }
}

export function saidOf(plan: Plan, { seat, swap, isMoves }: PlanItem): string[] {
  if (isMoves) return [`Apart from that: ${plan.moves!.words}`, ...plan.moves!.moves.map(sayMove)]
  if (swap) {
    const out = swap.out.length ? `; ${swap.out.join(', ')} out` : ''
    return [`${swap.what} in${out}`, `why: ${swap.why.join('; ')}`]
  }
  if (seat) return seat.shortages
  const goals = plan.goals.map(
    ({ words, isProven }, index) => `${index + 1}. ${words}${isProven ? '' : ' (!)'}`,
  )
  return [`How it was judged, in this order${plan.isProven ? ', each proven best' : ''}:`, ...goals]
}
