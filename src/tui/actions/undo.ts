// Undoing the last act: it shows the act, what will be recorded against it, and what that does; it must never record by itself.
import { aboutOf } from '../../domain/about.ts'
import type { Command } from '../../domain/commands.ts'
import type { Event } from '../../domain/events.ts'
import { sayMember } from '../../domain/decide/decision.ts'
import { tell } from '../../domain/tell.ts'
import { undoOf } from '../../domain/undo.ts'
import { lastAct } from '../../domain/undo/last-act.ts'
import type { View } from '../view.ts'
import { confirm, foretell, type Action, type LookLine, type Step } from './action.ts'

/** More than an assembly has layers is not told one by one: every piece is named, and one record stands for all. */
const MOST_TOLD = 3

/** `#41, 07:33, Priya Halvering (M-909): Tagged hood K-1 ...` */
function saidOf({ state, acts }: View): LookLine[] {
  const act = lastAct(acts)
  const [newest, oldest] = [act[0], act.at(-1)]
  const who = ({ at, by }: Event): string => `${at.slice(11, 16)}, ${sayMember(state, by)}`
  if (act.length <= MOST_TOLD || !newest || !oldest)
    return act.map((event) => ({
      text: `#${event.seq}, ${who(event)}: ${tell(event, state)}`,
      isItem: true,
    }))
  const on = act.toReversed().flatMap((event) => aboutOf(event).filter((id) => state.elements.has(id)))
  return [
    { text: `#${oldest.seq} to #${newest.seq}, ${who(oldest)}: ${act.length} records as one act.` },
    { text: `On ${[...new Set(on)].join(', ')}.` },
    { text: `The first: ${tell(oldest, state)}` },
  ]
}

/** What will be recorded, of one act of many as a number and the first of them. */
function toBeRecorded(view: View, commands: readonly Command[]): LookLine[] {
  const told = foretell(view, commands)
  if (told.length <= MOST_TOLD) {
    const each = told.map((text): LookLine => ({ text: `+ ${text}`, isItem: true }))
    return [{ text: 'This will be recorded:' }, ...each]
  }
  const words = `${told.length} records, one against each of them, as`
  return [{ text: `This will be recorded: ${words}` }, { text: `+ ${told.at(-1)}` }]
}

export const undo: Action = {
  id: 'undo',
  isOfStation: true,
  key: '-',
  label: 'undo',
  help: 'Undo the last act, by its opposite or as a correction; both stay in the log.',
  next(view): Step {
    const said = saidOf(view)
    const undoing = undoOf(lastAct(view.acts), view.state, view.at)
    if ('instead' in undoing) {
      const lines: LookLine[] = [...said, { text: undoing.instead, tone: 'warn' }]
      return {
        ask: 'confirm',
        title: 'The last act is not undone by a key.',
        lines,
        deed: { commands: [], done: '' },
      }
    }
    const commands = undoing.commands.map((each) => ({ ...each, by: view.speaker! }) as Command)
    const notes: LookLine[] = [...said, ...toBeRecorded(view, commands)]
    return confirm(view, 'Undo the last act?', commands, 'Undone; both stay in the log.', notes)
  },
}
