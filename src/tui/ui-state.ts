// The screen's own state: one flat value that keys change and the journal never sees.
import type { Command } from '../domain/commands.ts'
import type { Event } from '../domain/events.ts'
import type { Id } from '../domain/gear.ts'
import type { Kind } from '../domain/kinds.ts'
import type { LogFilter } from '../domain/log-filter.ts'
import type { Tone } from '../domain/signs.ts'
import type { Follow } from './actions/action.ts'
import type { PlanShown } from './planning.ts'

export type Screen =
  'board' | 'roll-call' | 'sheet' | 'log' | 'card' | 'deadlines' | 'plan' | 'coverage' | 'help'

export interface LogEntry {
  seq: number
  text: string
  /** `withdrawn by #41`: what became of it. */
  became?: string | undefined
  /** All that it is about, where its sentence names only the first few. */
  about: readonly Id[]
  /** As first recorded and as amended, in order; none where it stands as it was recorded. */
  versions: readonly string[]
  /** It amends or withdraws another. */
  isCorrection: boolean
  /** It says who or what there is: that is corrected, never withdrawn. */
  isLabel: boolean
}

export interface Ui {
  screen: Screen
  /** Where Esc leads from a sheet or a card. */
  from: Exclude<Screen, 'sheet' | 'card'>
  /** The riding position in hand. */
  seat: Id | null
  /** The column in hand, told in words; none until it is asked for. */
  kind: Kind | null
  /** Who last said so at this terminal while no tour was open: proposed again, never taken for granted. */
  speaker: Id | null
  message: { text: string; tone: Tone } | null
  /** The action under way, its answers so far in order, and the one being given. */
  action: string | null
  answers: readonly { name: string; value: string; isGiven?: true }[]
  cursor: number
  text: string
  /** What stood on the line unasked: what the action proposes, or what was taken there before Esc came back to it. */
  proposed: string
  /** The pressure typed at roll call for the riding position in hand: it stays until it is recorded or taken away in so many words. */
  gauge: string
  log: readonly LogEntry[]
  /** Which records of the log are shown; all of them when there is none. */
  filter: LogFilter | null
  /** The newest events, read when the last act is to be undone. */
  acts: readonly Event[]
  card: { id: Id; lines: readonly string[] } | null
  /** First line shown of a card or the help. */
  top: number
  /** The event in hand in the log; the newest when there is none. */
  entry: number | null
  /** The place of the one in hand among the deadlines ahead. */
  deadline: number
  /** The best use of the rack, as far as it is known; the place of what is in hand on it. */
  plan: PlanShown | null
  planned: number
  /** The question that led to the card, as it was left: Esc goes back to it. */
  under: Pick<Ui, 'action' | 'answers' | 'text' | 'cursor'> | null
  /** Riding positions called again, until each has an answer newer than this event. */
  again: { since: number; seats: readonly Id[] } | null
  /** The reading that a second Enter records although it is doubtful. */
  doubted: string | null
}

export const startUi: Ui = {
  screen: 'board',
  from: 'board',
  seat: null,
  kind: null,
  speaker: null,
  message: null,
  action: null,
  answers: [],
  cursor: 0,
  text: '',
  proposed: '',
  gauge: '',
  log: [],
  filter: null,
  acts: [],
  card: null,
  top: 0,
  entry: null,
  deadline: 0,
  plan: null,
  planned: 0,
  under: null,
  again: null,
  doubted: null,
}

/** Commands to record; what the screen shows only when all of them were accepted. */
export interface Submit {
  submit: readonly Command[]
  done: string
  nextSeat?: Id | undefined
  leavesRollCall?: boolean
  /** The action that is offered next. */
  follow?: Follow | undefined
  /** What is asked again where it is refused. */
  again?: Follow | undefined
}

/** What the rim does for the screen: record, read or write files, leave. */
export type Effect =
  Submit | { export: string } | { card: Id } | { log: true } | { undo: true } | { quit: true }

export interface Updated {
  ui: Ui
  effect?: Effect
}

export const say = (ui: Ui, text: string, tone: Tone = 'warn'): Updated => ({
  ui: { ...ui, message: { text, tone } },
})

/** The screen once commands were recorded; after a refusal it stays where it is and says why. */
export function settle(before: Ui, effect: Submit, refused: string | undefined): Ui {
  if (refused !== undefined) return { ...before, message: { text: refused, tone: 'bad' } }
  const { submit, done, nextSeat, leavesRollCall } = effect
  const isRead = submit.some((each) => each.do === 'read-pressure')
  const ui = isRead ? { ...before, gauge: '', doubted: null } : before
  const screen = leavesRollCall && ui.screen === 'roll-call' ? 'board' : ui.screen
  return { ...ui, screen, seat: nextSeat ?? ui.seat, message: { text: done, tone: 'good' } }
}

/** Out of the questions, to where they were asked. */
export const leave = (ui: Ui): Ui => ({
  ...ui,
  screen: ui.from,
  action: null,
  answers: [],
  text: '',
  cursor: 0,
})

/** Is what stands on the line still what was proposed? */
export const isProposed = ({ text, proposed }: Ui): boolean => Boolean(text) && text === proposed

/** The place in the log of the event in hand. */
export const logIndex = ({ log, entry }: Ui): number =>
  Math.max(
    0,
    log.findIndex((each) => each.seq === entry),
  )

/** The log read anew; the event in hand stays in hand. */
export const showLog = (ui: Ui, log: readonly LogEntry[]): Ui => ({
  ...ui,
  log,
  entry: ui.entry ?? log[0]?.seq ?? null,
})

export function showCard(ui: Ui, id: Id, lines: readonly string[]): Ui {
  const from = ui.screen === 'card' || ui.screen === 'sheet' ? ui.from : ui.screen
  return { ...ui, screen: 'card', from, card: { id, lines }, top: 0 }
}
