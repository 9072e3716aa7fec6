// Taking the plan, whole or swap by swap: each step is an ordinary swap, decided again as it is given. It records nothing itself.
import type { Command } from '../../domain/commands.ts'
import type { PlannedSeat, PlannedSwap } from '../../domain/plan/plan.ts'
import { sayMove, saySwaps } from '../../domain/plan/words.ts'
import type { View } from '../view.ts'
import { confirm, type Action, type LookLine, type Step } from './action.ts'

const GONE: Step = {
  ask: 'confirm',
  title: 'The plan is old.',
  lines: [{ text: 'The journal has moved: it is worked out again. Esc goes back to it.', tone: 'bad' }],
  deed: { commands: [], done: '' },
}

/** The swaps of the plan in hand; none where the books have moved since. */
function swapsIn({ plan, state }: View): { seat: PlannedSeat; swap: PlannedSwap }[] {
  if (!plan || plan.seq !== state.seq) return []
  return plan.seats.flatMap((seat) => seat.swaps.map((swap) => ({ seat, swap })))
}

const signed = ({ speaker }: View, { commands }: PlannedSwap): Command[] =>
  commands.map((command) => ({ ...command, by: speaker! }))

const sayOut = ({ out }: PlannedSwap): string => (out.length ? `, ${out.join(', ')} out` : '')

export const takePlan: Action = {
  id: 'take-plan',
  key: 'a',
  label: 'take the plan',
  help: 'Take the whole plan, after a last look.',
  isOfStation: true,
  next(view) {
    const swaps = swapsIn(view)
    if (!swaps.length) return GONE
    const commands = swaps.flatMap(({ swap }) => signed(view, swap))
    const lines = swaps.map(({ seat, swap }): LookLine => ({
      text: `${seat.seat} ${seat.name}: ${swap.what} in${sayOut(swap)}.`,
      isItem: true,
    }))
    const words = saySwaps(swaps.map((each) => each.swap))
    const done = `${words} recorded. b swaps one back.`
    return confirm(view, `Take the whole plan, ${words}?`, commands, done, lines)
  },
}

export const takeSwap: Action = {
  id: 'take-swap',
  key: 's',
  label: 'take this swap',
  help: 'Take only the swap in hand, after a last look.',
  next(view, answers) {
    const chosen = swapsIn(view).find(({ seat, swap }) => `${seat.seat} ${swap.in[0]}` === answers['swap'])
    if (!chosen) return GONE
    const { seat, swap } = chosen
    const title = `Put ${swap.what} in for ${seat.name}?`
    const out = swap.out.length ? [`Comes out: ${swap.out.join(', ')}. b swaps back later.`] : []
    return confirm(view, title, signed(view, swap), `${swap.in.join(', ')} swapped in.`, out)
  },
}

export const takeMoves: Action = {
  id: 'take-moves',
  key: 'm',
  label: 'change the seats',
  help: 'Once no swap is left: let members change seats so that more rigs ride, after a last look.',
  isOfStation: true,
  next(view) {
    const { plan, state, speaker } = view
    if (!plan?.moves || plan.seq !== state.seq) return GONE
    const commands = plan.moves.commands.map((each): Command => ({ ...each, by: speaker! }))
    const lines = plan.moves.moves.map((each): LookLine => ({ text: `${sayMove(each)}.`, isItem: true }))
    const done = `${plan.moves.moves.length} changed seats. They answer the roll call anew.`
    return confirm(view, plan.moves.words, commands, done, lines)
  },
}
