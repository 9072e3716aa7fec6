// The one loop: alone, catch up, decide, append, evolve, tell the watchers. It must never show what is not on disk.
import { SETUP, type Command } from './domain/commands.ts'
import { decide } from './domain/decide.ts'
import type { Draft, Event } from './domain/events.ts'
import { apply, evolve, fork } from './domain/evolve.ts'
import { emptyState, type State } from './domain/state.ts'
import { instantIn, instantToMs, type Instant } from './domain/time.ts'

/** What a session asks of the place where a station is kept. */
export interface Keeper {
  /** The newest event it has delivered or appended. */
  readonly head: { seq: number; hash: string }
  /** Why nothing can be recorded, if so; a standing line for the user. */
  readonly stopped: string | undefined
  /** The state it kept earlier; what came after is delivered by `catchUp`. */
  readonly kept: State | undefined
  /** Runs work while no other program can append; the sentence when it cannot. */
  alone<T>(work: (right: AppendRight) => T): Promise<{ value: T } | { failed: string }>
  /** Delivers what was appended since the head; the sentence when it cannot all be read. */
  catchUp(deliver: (event: Event) => void): string | undefined
  /** Keeps the state for a faster start; losing it loses nothing. */
  keep(state: State): Promise<void>
  close(): void
}

/** Only to be had inside `alone`. */
export interface AppendRight {
  /** Returns when the event is on disk, or with the sentence that says why it is not. */
  append(event: Draft & { at: Instant; by: string }): { event: Event } | { failed: string }
  /** Sets an unfinished last line aside; what is to be recorded of it, if there was one. */
  recover(at: Instant): { draft: Draft } | { failed: string } | undefined
}

/** Accepted and on disk; refused in the user's words; or not recorded because the station cannot be written. */
export type Answer = { accepted: number[] } | { refused: string } | { failed: string }

/** Milliseconds since 1970. A replayed history has its own time for each command; everybody else's clock ignores it. */
export type Clock = (command?: Command) => number

export interface Session {
  readonly state: State
  readonly head: { seq: number; hash: string }
  /** The standing line: why nothing can be recorded, if so. */
  readonly stopped: string | undefined
  submit(command: Command): Promise<Answer>
  /** Takes a turn with nothing to record, so that what a crash left unfinished is set aside and said at once. */
  begin(): Promise<void>
  /** Calls back after every change of `state` or `stopped`; returns how to stop that. */
  watch(changed: () => void): () => void
  /** Takes in what other programs appended. */
  look(): void
  now(): Instant
  close(): Promise<void>
}

/** Clocks of two machines differ a little; more than this ahead is a mistake. */
const AHEAD_MS = 2 * 60_000
/** A command that names an instant further back than this was recorded late, and says so. */
const LATE_MS = 60_000
/** How many waiting commands are taken at once before another program gets its turn. */
const AT_ONCE = 64
const KEEP_EVERY = 1_000

export function openSession(keeper: Keeper, clock: Clock): Session {
  const watchers = new Set<() => void>()
  const waiting: { command: Command; answer: (answer: Answer) => void }[] = []
  let state = keeper.kept ?? emptyState()
  let keptAt = state.seq
  let trouble: string | undefined
  let turn: Promise<void> | undefined
  /** A mistake of the program's own; after it nothing is recorded until it is started again. */
  let fault: string | undefined

  const stoppedBy = (): string | undefined => fault ?? keeper.stopped ?? trouble
  const zone = (): string => state.station?.timeZone ?? 'UTC'
  const tell = (): void => watchers.forEach((changed) => changed())

  /** Takes in everything appended by others, copying the state once. */
  function catchUp(): void {
    let draft: State | undefined
    trouble = keeper.catchUp((event) => apply((draft ??= fork(state)), event))
    if (draft) state = draft
  }

  function handle(command: Command, right: AppendRight): Answer {
    const nowMs = clock(command)
    const givenMs = command.at === undefined ? nowMs : instantToMs(command.at)!
    if (givenMs - nowMs > AHEAD_MS) {
      return {
        refused: `${command.at} is still to come: "at" may name the past, not the future. Nothing was recorded.`,
      }
    }
    const at = instantIn(givenMs, zone())
    const decision = decide({ ...command, at }, state)
    if ('refused' in decision) return decision
    const late = nowMs - givenMs > LATE_MS ? { recordedAt: instantIn(nowMs, zone()) } : {}
    const draft = { ...decision.draft, data: { ...decision.draft.data, ...late } } as Draft
    return record(right, { ...draft, at, by: command.by })
  }

  function record(right: AppendRight, draft: Draft & { at: Instant; by: string }): Answer {
    const appended = right.append(draft)
    if ('failed' in appended) return appended
    state = evolve(state, appended.event)
    return { accepted: [appended.event.seq] }
  }

  /** One turn alone with the journal: an unfinished line is set aside, then the waiting commands are handled in order. */
  function takeTurn(right: AppendRight): void {
    catchUp()
    const at = instantIn(clock(), zone())
    const recovery = right.recover(at)
    if (recovery && 'draft' in recovery) record(right, { ...recovery.draft, at, by: SETUP })
    for (let count = 0; count < AT_ONCE && waiting.length > 0; count++) {
      const { command, answer } = waiting[0]!
      const stopped = recovery && 'failed' in recovery ? recovery.failed : stoppedBy()
      const given = stopped === undefined ? handle(command, right) : { failed: stopped }
      waiting.shift()
      answer(given)
    }
  }

  /** Whoever waits is answered, whatever happens: nobody is left to think that something was recorded. */
  function refuseAll(failed: string): void {
    for (const { answer } of waiting.splice(0)) answer({ failed })
  }

  async function pump(): Promise<void> {
    try {
      do {
        const turned = await keeper.alone(takeTurn)
        if ('failed' in turned) refuseAll(turned.failed)
        tell()
        if (state.seq - keptAt >= KEEP_EVERY) await keep()
      } while (waiting.length)
    } catch (error) {
      const what = error instanceof Error ? error.message : String(error)
      fault = `This program made a mistake (${what}). What was accepted before is safe; nothing more is recorded. Start again.`
      refuseAll(fault)
      tell()
    } finally {
      turn = undefined
    }
  }

  async function keep(): Promise<void> {
    // What cannot be recorded in is left as it was found, down to its snapshot.
    if (state.seq === keptAt || stoppedBy() !== undefined) return
    keptAt = state.seq
    await keeper.keep(state)
  }

  catchUp()
  return {
    get state() {
      return state
    },
    get head() {
      return keeper.head
    },
    get stopped() {
      return stoppedBy()
    },
    submit: (command) =>
      new Promise((answer) => {
        waiting.push({ command, answer })
        turn ??= pump()
      }),
    async begin() {
      await (turn ??= pump())
    },
    watch(changed) {
      watchers.add(changed)
      return () => watchers.delete(changed)
    },
    look() {
      if (turn) return
      const [seq, before] = [state.seq, trouble]
      catchUp()
      if (state.seq !== seq || trouble !== before) tell()
    },
    now: () => instantIn(clock(), zone()),
    async close() {
      await turn
      try {
        await keep()
      } finally {
        keeper.close()
      }
    },
  }
}
