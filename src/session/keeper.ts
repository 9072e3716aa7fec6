// What the one loop asks of the place where a station is kept; it must never know that there are files.
import type { Draft, Event } from '../domain/events.ts'
import type { KeptVerdicts } from '../domain/assess/kept.ts'
import type { State } from '../domain/state.ts'
import type { Instant } from '../domain/time.ts'

/** What a session asks of the place where a station is kept. */
export interface Keeper {
  /** The newest event it has delivered or appended. */
  readonly head: { seq: number; hash: string }
  /** Why nothing can be recorded, if so; a standing line for the user. */
  readonly stopped: string | undefined
  /** How many bytes of an unfinished line stand after the newest event, if any do. */
  readonly torn?: number | undefined
  /** The state it kept earlier, unless that turned out to be spoilt; what came after is delivered by `catchUp`. */
  readonly kept: State | undefined
  /** What was judged of it then, by the very rules of this program. */
  readonly verdicts?: KeptVerdicts | undefined
  /** Runs work while no other program can append; the sentence when it cannot. */
  alone<T>(work: (right: AppendRight) => T): Promise<{ value: T } | { failed: string }>
  /** Delivers what was appended since the head; the sentence when it cannot all be read. */
  catchUp(deliver: (event: Event) => void): string | undefined
  /** Keeps the state for a faster start, and what is judged of it then; losing it loses nothing. */
  keep(state: State, at: Instant): Promise<void>
  close(): void
}

/** Only to be had inside `alone`. */
export interface AppendRight {
  /** Returns when the event is on disk, or with the sentence that says why it is not. */
  append(event: Draft & { at: Instant; by: string }): { event: Event } | { failed: string }
  /** Sets an unfinished last line aside; what is to be recorded of it, if there was one. */
  recover(now: () => Instant): { draft: Draft } | { failed: string } | undefined
  /** Keys and seals, where the place has any. */
  readonly sealing?: Sealing
}

export interface Sealing {
  /** Makes a key and keeps its private half; the public half is to be recorded, with the old key's word for it. */
  makeKey(replaces: string | null): { key: string; vouched: string | null } | { failed: string }
  /** Signs what the journal holds up to its newest event. */
  seal(key: string, tour: string, at: Instant): Sealed
}
/** Where the seal is, or why there is none: what was recorded stands either way. */
export type Sealed = { path: string } | { failed: string }
