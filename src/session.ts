// The one loop: alone, catch up, decide, append, evolve, tell the watchers. It must never show what is not on disk.
import { SETUP, type Command } from './domain/commands.ts'
import { decide, type Decision } from './domain/decide.ts'
import type { Draft } from './domain/events.ts'
import { apply, evolve, fork } from './domain/evolve.ts'
import { emptyState, type State } from './domain/state.ts'
import { instantIn, instantToMs, type Instant } from './domain/time.ts'
import type { AppendRight, Keeper, Sealing } from './session/keeper.ts'
import type { Answer, Clock, Session } from './session/offers.ts'
import { proofOf, withoutPin } from './session/pin.ts'

export type { AppendRight, Keeper, Sealed, Sealing } from './session/keeper.ts'
export type { Answer, Clock, Session } from './session/offers.ts'

type Refusal = Extract<Decision, { refused: string }>
type HandOver = Extract<Draft, { type: 'tour-handed-over' }> & { at: Instant; by: string }

/** Clocks of two machines differ a little; more than this ahead is a mistake. */
const AHEAD_MS = 2 * 60_000
/** A command that names an instant further back than this was recorded late, and says so. */
const LATE_MS = 60_000
/** How many waiting commands are taken at once before another program gets its turn. */
const AT_ONCE = 64
const KEEP_EVERY = 1_000
/** So few events are read again at the next start sooner than the state is kept now. */
const FEW = 100

export function openSession(keeper: Keeper, clock: Clock): Session {
  const watchers = new Set<() => void>()
  const waiting: { work: (right: AppendRight) => Answer; answer: (answer: Answer) => void }[] = []
  let state = keeper.kept ?? emptyState()
  const wasKept = keeper.kept !== undefined
  const found = keeper.kept && keeper.verdicts && { books: state, verdicts: keeper.verdicts }
  let keptAt = state.seq
  let keptTour = state.tour?.id
  let trouble: string | undefined
  let turn: Promise<void> | undefined
  /** A mistake of the program's own; after it nothing is recorded until it is started again. */
  let fault: string | undefined

  const stoppedBy = (): string | undefined => fault ?? keeper.stopped ?? trouble
  const zone = (): string => state.station?.timeZone ?? 'UTC'
  const now = (): Instant => instantIn(clock(), zone())
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
    const now = instantIn(nowMs, zone())
    const at = givenMs === nowMs ? now : instantIn(givenMs, zone())
    const isLate = nowMs - givenMs > LATE_MS
    const decision = decide(
      { ...withoutPin(command), at, isLate, proof: proofOf(command, state, now) },
      state,
    )
    if ('refused' in decision) return refuse(decision, right, { at: now, by: command.by })
    const late = isLate ? { recordedAt: now } : {}
    const draft = { ...decision.draft, data: { ...decision.draft.data, ...late } } as Draft
    const dated = { ...draft, at, by: command.by }
    return dated.type === 'tour-handed-over' && right.sealing
      ? recordAndSeal(right, right.sealing, dated)
      : record(right, dated)
  }

  /** A refusal changes nothing, but for one that has to be known later: a wrong PIN. */
  function refuse(decision: Refusal, right: AppendRight, said: { at: Instant; by: string }): Answer {
    const noted = decision.draft && record(right, { ...decision.draft, ...said })
    return noted && 'failed' in noted ? noted : { refused: decision.refused }
  }

  /** The hand-over is on disk before it is sealed, and stands when it cannot be. The first one brings the key along. */
  function recordAndSeal(right: AppendRight, sealing: Sealing, draft: HandOver): Answer {
    const made = state.sealKey === null ? sealing.makeKey(null) : { key: state.sealKey }
    const isNew = state.sealKey === null && 'key' in made
    const answer = record(right, isNew ? { ...draft, data: { ...draft.data, sealKey: made.key } } : draft)
    if (!('accepted' in answer)) return answer
    const seal = 'failed' in made ? made : sealing.seal(made.key, draft.data.tour, now())
    return { ...answer, seal }
  }

  function makeKey(by: string, why: string, right: AppendRight): Answer {
    if (!right.sealing) return { refused: 'Nothing is sealed here.' }
    if (!state.members.has(by) && !(by === SETUP && state.members.size === 0)) {
      return { refused: `There is no member ${by} in this station. No key was made.` }
    }
    const replaces = state.sealKey
    const made = right.sealing.makeKey(replaces)
    if ('failed' in made) return made
    const data = { ...made, replaces, why }
    return record(right, { type: 'key-made', data, at: now(), by })
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
    const recovery = right.recover(now)
    if (recovery && 'draft' in recovery) record(right, { ...recovery.draft, at: now(), by: SETUP })
    for (let count = 0; count < AT_ONCE && waiting.length > 0; count++) {
      const { work, answer } = waiting[0]!
      const stopped = recovery && 'failed' in recovery ? recovery.failed : stoppedBy()
      const given = stopped === undefined ? work(right) : { failed: stopped }
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

  const enqueue = (work: (right: AppendRight) => Answer): Promise<Answer> =>
    new Promise((answer) => {
      waiting.push({ work, answer })
      turn ??= pump()
    })

  async function keep(): Promise<void> {
    // What cannot be recorded in is left as it was found, down to its snapshot.
    if (state.seq === keptAt || stoppedBy() !== undefined) return
    keptAt = state.seq
    keptTour = state.tour?.id
    await keeper.keep(state, now())
  }

  catchUp()
  return {
    get state() {
      return state
    },
    found,
    get head() {
      return keeper.head
    },
    get stopped() {
      return stoppedBy()
    },
    get torn() {
      return keeper.torn
    },
    submit: (command) => enqueue((right) => handle(command, right)),
    makeKey: (by, why) => enqueue((right) => makeKey(by, why, right)),
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
    now,
    async close() {
      await turn
      try {
        // What was found spoilt is kept anew in any case; and of another crew neither the gear nor the verdicts were kept.
        if (wasKept && !keeper.kept) keptAt = -1
        const isOtherTour = state.tour?.id !== keptTour
        if (!keeper.kept || isOtherTour || state.seq - keptAt > FEW) await keep()
      } finally {
        keeper.close()
      }
    },
  }
}
