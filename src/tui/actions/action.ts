// What an action of the officer is: a key, a reason why it cannot be done now, and the questions it asks before it records.
import { arrange } from '../../domain/board.ts'
import { assessNow } from '../../domain/assess.ts'
import { SETUP, type Command, type Dated } from '../../domain/commands.ts'
import { decide } from '../../domain/decide.ts'
import { evolve } from '../../domain/evolve.ts'
import type { Event } from '../../domain/events.ts'
import type { Tone } from '../../domain/signs.ts'
import type { View } from '../view.ts'

export interface Option {
  value: string
  label: string
  note?: string
  tone?: Tone | undefined
  /** Why it cannot be chosen. */
  blocked?: string | undefined
}

/** What to do when the last question is answered; `export` and `card` reach beyond the journal. */
export type Deed = { commands: Command[]; done: string } | { export: string } | { card: string }

export type Step =
  | { ask: 'choose'; name: string; title: string; options: Option[]; start?: number }
  | {
      ask: 'write'
      name: string
      title: string
      hint?: string
      initial?: string
      fault?: (text: string) => string | undefined
    }
  /** Nothing to confirm, since nothing is recorded. */
  | { ask: 'done'; deed: Deed }
  | { ask: 'confirm'; title: string; lines: { text: string; tone?: Tone | undefined }[]; deed: Deed }

export type Answers = Readonly<Record<string, string>>

export interface Action {
  id: string
  /** The character that starts it on the board. */
  key: string
  /** On the key line: one or two words. */
  label: string
  /** On the help screen and in the README. */
  help: string
  /** It is not about the riding position in hand. */
  isOfStation?: true
  /** Why it cannot be done now, in the words of the refusal; the key stays visible and says so. */
  blocked?: (view: View) => string | undefined
  /** The next question, from the answers so far. */
  next: (view: View, answers: Answers) => Step
}

/** A command before it is known who gives it. */
type Unsigned = Command extends infer C ? (C extends Command ? Omit<C, 'by'> : never) : never

/** The refusal a command would meet now, if any. */
export function refusalOf(view: View, command: Unsigned): string | undefined {
  // Who gives it may not be known yet; whoever it is meets the same refusal.
  const by = view.speaker ?? view.state.members.keys().next().value ?? SETUP
  const decision = decide({ ...command, by, at: view.at } as Dated, view.state)
  return 'refused' in decision ? decision.refused : undefined
}

/** The state after commands, were they given now; the first refusal instead when there is one. */
function imagine(view: View, commands: readonly Command[]): View['state'] | { refused: string } {
  let { state } = view
  for (const command of commands) {
    const decision = decide({ ...command, at: view.at } as Dated, state)
    if ('refused' in decision) return decision
    const { draft } = decision
    state = evolve(state, { ...draft, seq: state.seq + 1, at: view.at, by: command.by } as Event)
  }
  return state
}

/** A last look before recording: what happens, and what it does to each rig and to the seat in hand. */
export function confirm(
  view: View,
  title: string,
  commands: Command[],
  done: string,
  notes: readonly string[] = [],
): Step {
  const after = imagine(view, commands)
  if ('refused' in after)
    return {
      ask: 'confirm',
      title,
      lines: [{ text: after.refused, tone: 'bad' }],
      deed: { commands: [], done: '' },
    }
  const board = arrange(assessNow(after, view.at), after)
  const lines: { text: string; tone?: Tone | undefined }[] = notes.map((text) => ({ text }))
  const row = board.rigs.flatMap((rig) => rig.rows).find((each) => each.seat === view.row?.seat)
  if (
    row &&
    view.row &&
    row.member !== null &&
    (row.state !== view.row.state || row.sentence !== view.row.sentence)
  ) {
    const now = row.fit ? 'may ride' : 'may not ride'
    lines.push({
      text: `${row.name} ${now}${row.sentence ? `: ${row.sentence}` : '.'}`,
      tone: row.fit ? undefined : 'bad',
    })
  }
  for (const rig of board.rigs) {
    const before = view.board.rigs.find((each) => each.id === rig.id)
    if (before?.words !== rig.words) lines.push({ text: `${rig.name} ${rig.words}.`, tone: rig.tone })
  }
  if (!lines.length) lines.push({ text: 'No rig and no riding position changes its state.' })
  return { ask: 'confirm', title, lines, deed: { commands, done } }
}
