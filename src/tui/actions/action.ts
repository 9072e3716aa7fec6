// What an action of the officer is: a key, a reason why it cannot be done now, and the questions it asks before it records.
import { arrange, type Board, type Row } from '../../domain/board.ts'
import { assessNow } from '../../domain/assess.ts'
import { SETUP, type Command, type Dated, type Unsigned } from '../../domain/commands.ts'
import { decide } from '../../domain/decide.ts'
import { imagine } from '../../domain/imagine.ts'
import type { LogFilter } from '../../domain/log-filter.ts'
import type { Tone } from '../../domain/signs.ts'
import { tell } from '../../domain/tell.ts'
import { sayNames } from '../say.ts'
import type { View } from '../view.ts'

export interface Option {
  value: string
  label: string
  note?: string
  /** What of the note typed letters may mean; all of it where nothing is said. */
  sought?: string
  tone?: Tone | undefined
  /** Why it cannot be chosen. */
  blocked?: string | undefined
}

/**
 * What comes of itself once an act is recorded: a file that is written, or another action that is offered with what is
 * known already. Nothing of the offer is in hand, so that a held Enter takes nothing.
 */
export type Follow =
  | { export: string }
  | {
      action: string
      answers?: Readonly<Record<string, string>>
      /** What is said instead while the roll is called: it is called to its end before anything is settled. */
      later?: string
    }

/** What to do when the last question is answered; all but `commands` leave the journal as it is. */
export type Deed =
  | {
      commands: Command[]
      done: string
      follow?: Follow | undefined
      /** What is asked again where it is refused. */
      again?: Follow | undefined
    }
  | { export: string }
  | { card: string }
  | { log: LogFilter }

/** One line of the last look; of many items only as many are shown as there is room for. */
export interface LookLine {
  text: string
  tone?: Tone | undefined
  isItem?: true
}

export type Step =
  | {
      ask: 'choose'
      name: string
      title: string
      /** What has to be read before one is chosen. */
      lines?: readonly LookLine[]
      options: Option[]
      start?: number
      /** Nine at the most: a digit puts one in hand, Enter takes it. */
      isNumbered?: true
    }
  | {
      ask: 'write'
      name: string
      title: string
      hint?: string
      initial?: string
      /** A scan is put on the line; only a key takes it. */
      isScanned?: true
      /** It is never shown, and a scan is not even repeated. */
      isSecret?: true
      fault?: (text: string) => string | undefined
    }
  /** Nothing to confirm, since nothing is recorded. */
  | { ask: 'done'; deed: Deed }
  | { ask: 'confirm'; title: string; lines: LookLine[]; deed: Deed }

export type Answers = Readonly<Record<string, string>>

export interface Action {
  id: string
  /** The character that starts it on the board. */
  key: string
  /** On the key line: one or two words. */
  label: string
  /** On the help screen and in the README. */
  help: string
  /** It asks itself who gives it. */
  asksWho?: true
  /** It is not about the riding position in hand. */
  isOfStation?: true
  /** It leaves the journal as it is, so it does not matter who is at the board. */
  recordsNothing?: true
  /** Why it cannot be done now, in the words of the refusal; the key stays visible and says so. */
  blocked?: (view: View) => string | undefined
  /** The next question, from the answers so far. */
  next: (view: View, answers: Answers) => Step
}

/** The refusal a command would meet now, if any. */
export function refusalOf(view: View, command: Unsigned): string | undefined {
  // Who gives it may not be known yet; whoever it is meets the same refusal.
  const by = view.speaker ?? view.state.members.keys().next().value ?? SETUP
  const decision = decide({ ...command, by, at: view.at } as Dated, view.state)
  return 'refused' in decision ? decision.refused : undefined
}

/** What the log would say of commands, were they given now; nothing where they would be refused. */
export function foretell(view: View, commands: readonly Command[]): string[] {
  const imagined = imagine(view.state, commands, view.at)
  return 'refused' in imagined ? [] : imagined.steps.map(({ event, state }) => tell(event, state))
}

const rowsOf = (board: Board): Row[] => board.rigs.flatMap((rig) => rig.rows)

/** What it does to the riding position in hand, with the reason. */
function tellOfRow({ row: before }: View, after: Board): LookLine[] {
  const row = rowsOf(after).find((each) => each.seat === before?.seat)
  if (!row || !before) return []
  if (row.member === null)
    return before.member === null
      ? []
      : [{ text: `Then nobody rides at ${row.seat} as ${row.position}: it is unfilled.`, tone: 'warn' }]
  if (row.state === before.state && row.sentence === before.sentence) return []
  const now = row.state === 'due' ? 'may ride, but due' : row.fit ? 'may ride' : 'may not ride'
  const text = `${row.name} ${now}${row.sentence ? `: ${row.sentence}` : '.'}`
  return [{ text, tone: row.fit ? undefined : 'bad' }]
}

/** Everybody whose fitness changes, by name; whoever is newly seated and unfit counts too. */
function tellOfEverybody({ board, row }: View, after: Board): LookLine[] {
  const before = new Map(rowsOf(board).map((each) => [each.member, each.fit]))
  const seated = rowsOf(after).filter((each) => each.member !== null)
  const lost = seated.filter((each) => !each.fit && before.get(each.member) !== false)
  const won = seated.filter((each) => each.fit && before.get(each.member) === false)
  const changed = [...lost, ...won]
  // The one in hand is told of with the reason already.
  if (!changed.some((each) => each.seat !== row?.seat)) return []
  const names = (rows: Row[]): string => sayNames(rows.map((each) => each.name))
  return [
    ...(lost.length ? [{ text: `May not ride after this: ${names(lost)}.`, tone: 'bad' as const }] : []),
    ...(won.length ? [{ text: `May ride again: ${names(won)}.` }] : []),
  ]
}

const tellOfRigs = ({ board }: View, after: Board): LookLine[] =>
  after.rigs
    .filter((rig) => board.rigs.find((each) => each.id === rig.id)?.words !== rig.words)
    .map((rig) => ({ text: `${rig.name} ${rig.words}.`, tone: rig.tone }))

/** A last look before recording: what happens, and what it does to everybody and to each rig. */
export function confirm(
  view: View,
  title: string,
  commands: Command[],
  done: string,
  notes: readonly (string | LookLine)[] = [],
  follow?: Follow,
): Step {
  const said = notes.map((each): LookLine => (typeof each === 'string' ? { text: each } : each))
  const imagined = imagine(view.state, commands, view.at)
  if ('refused' in imagined) {
    const lines: LookLine[] = [{ text: imagined.refused, tone: 'bad' }]
    return { ask: 'confirm', title, lines, deed: { commands: [], done: '' } }
  }
  const after = imagined.state
  const board = arrange(assessNow(after, view.at), after)
  const lines = [
    ...said,
    ...tellOfRow(view, board),
    ...tellOfEverybody(view, board),
    ...tellOfRigs(view, board),
  ]
  if (!lines.length) lines.push({ text: 'Who may ride, and which rig can, stays as it is.' })
  return { ask: 'confirm', title, lines, deed: { commands, done, follow } }
}
