// What the one loop offers to whoever shows a station or records in it; it must never show how that is done.
import type { Command } from '../domain/commands.ts'
import type { FoundVerdicts } from '../domain/assess/kept.ts'
import type { State } from '../domain/state.ts'
import type { Instant } from '../domain/time.ts'
import type { Sealed } from './keeper.ts'

/** Accepted and on disk; refused in the user's words; or not recorded because the station cannot be written. */
export type Answer = { accepted: number[]; seal?: Sealed } | { refused: string } | { failed: string }

/** Milliseconds since 1970. A replayed history has its own time for each command; everybody else's clock ignores it. */
export type Clock = (command?: Command) => number

export interface Session {
  readonly state: State
  /** What was judged of the books that it started from when these were kept, by the very same rules. */
  readonly found: FoundVerdicts | undefined
  readonly head: { seq: number; hash: string }
  /** The standing line: why nothing can be recorded, if so. */
  readonly stopped: string | undefined
  /** How many bytes of an unfinished line stand after the newest event, if any do. */
  readonly torn: number | undefined
  submit(command: Command): Promise<Answer>
  /** Makes a key for the seals, in place of the one there is. */
  makeKey(by: string, why: string): Promise<Answer>
  /** Takes a turn with nothing to record, so that what a crash left unfinished is set aside and said at once. */
  begin(): Promise<void>
  /** Calls back after every change of `state` or `stopped`; returns how to stop that. */
  watch(changed: () => void): () => void
  /** Takes in what other programs appended. */
  look(): void
  now(): Instant
  close(): Promise<void>
}
