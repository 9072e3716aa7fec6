// Everything a screen is drawn from and an action is decided on, made from one state and one instant. Pure.
import { assessNow, type Assessment } from '../domain/assess.ts'
import { assessKept, type FoundVerdicts } from '../domain/assess/kept.ts'
import { arrange, type Board, type RigLine, type Row } from '../domain/board.ts'
import type { Event } from '../domain/events.ts'
import type { Id } from '../domain/gear.ts'
import type { Plan } from '../domain/plan/plan.ts'
import type { State } from '../domain/state.ts'
import type { Instant } from '../domain/time.ts'
import type { Size } from './panels/frame.ts'

export interface View {
  state: State
  at: Instant
  board: Board
  rows: Row[]
  /** The riding position in hand, and its rig. */
  row: Row | undefined
  rig: RigLine | undefined
  /** Who gives commands: the officer of the tour; without a tour every action asks. */
  speaker: Id | undefined
  /** The newest events as they were read when they were asked for, the newest first. */
  acts: readonly Event[]
  /** The best use of the rack, where it is worked out. */
  plan: Plan | null
  /** The standing line: why nothing can be recorded. */
  stopped: string | undefined
  unicode: boolean
  /** Of the glass, so that reading stops where the text does. */
  size: Size
}

const boards = new WeakMap<State, { at: Instant; board: Board }>()

/** What was judged last: of the next state only what has changed since is judged again. */
let last: Assessment | undefined

/** The board for a state, kept while neither the state nor the minute changes. */
export function boardOf(state: State, at: Instant): Board {
  const minute = at.slice(0, 16)
  const kept = boards.get(state)
  if (kept && kept.at === minute) return kept.board
  last = assessNow(state, at, last)
  const board = arrange(last, state)
  boards.set(state, { at: minute, board })
  return board
}

/** The state whose board shows what an earlier run judged. */
let believed: State | undefined

/** Takes for this minute's board what was judged when the books were kept, as far as nothing has touched it since. */
export function believe(found: FoundVerdicts, state: State, at: Instant): void {
  const kept = assessKept(found, state, at)
  if (!kept) return
  last = kept
  believed = state
  boards.set(state, { at: at.slice(0, 16), board: arrange(kept, state) })
}

/** From here on nothing is shown that was not judged in this run; whether anything was. */
export function judgeAfresh(): boolean {
  const isBelieved = believed !== undefined && boards.delete(believed)
  believed = undefined
  return isBelieved
}

export function viewOf(
  facts: Pick<View, 'state' | 'at' | 'stopped' | 'unicode' | 'size'>,
  ui: { seat: Id | null; acts?: readonly Event[]; plan?: { made: Plan | null } | null },
): View {
  const board = boardOf(facts.state, facts.at)
  const rows = board.rigs.flatMap((rig) => rig.rows)
  const row = rows.find((each) => each.seat === ui.seat) ?? rows[0]
  const rig = board.rigs.find((each) => row !== undefined && each.rows.includes(row))
  const speaker = facts.state.tour?.officer
  return { ...facts, board, rows, row, rig, speaker, acts: ui.acts ?? [], plan: ui.plan?.made ?? null }
}
