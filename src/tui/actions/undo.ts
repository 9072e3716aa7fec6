// Undoing the last act: it shows the act, what will be recorded against it, and what that does; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { sayMember } from '../../domain/decide/decision.ts'
import { tell } from '../../domain/tell.ts'
import { undoOf } from '../../domain/undo.ts'
import { lastAct } from '../../domain/undo/last-act.ts'
import type { View } from '../view.ts'
import { confirm, foretell, type Action, type LookLine, type Step } from './action.ts'

/** `#41, 07:33, Priya Halvering (M-909): Tagged hood K-1 ...` */
const saidOf = (view: View): LookLine[] =>
  lastAct(view.acts).map((event) => ({
    text: `#${event.seq}, ${event.at.slice(11, 16)}, ${sayMember(view.state, event.by)}: ${tell(event, view.state)}`,
    isItem: true,
  }))

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
    const notes: LookLine[] = [
      ...said,
      { text: 'This will be recorded:' },
      ...foretell(view, commands).map((text): LookLine => ({ text: `+ ${text}`, isItem: true })),
    ]
    return confirm(view, 'Undo the last act?', commands, 'Undone; both stay in the log.', notes)
  },
}
