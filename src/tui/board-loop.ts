// The board's loop: tokens in, what the glass shows out, and what an effect asks of the session and the desk. It must never decide anything.
import type { Sealed, Session } from '../session.ts'
import type { Follow } from './actions/action.ts'
import type { Desk } from './desk.ts'
import type { Glass } from './screens.ts'
import type { Token } from './input/keys.ts'
import { logEntries } from './log-entries.ts'
import type { Size } from './panels/frame.ts'
import { keepPlan } from './planning.ts'
import { sayLog, saySealed, type Exported } from './said-after.ts'
import { settle, showCard, showLog, startUi, type Effect, type Submit, type Ui } from './ui-state.ts'
import { update } from './update.ts'
import { offer } from './update/offer.ts'
import { startSheet } from './update/sheet.ts'
import { judgeAfresh, viewOf, type View } from './view.ts'

interface Around {
  session: Session
  desk: Desk
  unicode: boolean
  size: () => Size
  leave: () => void
}

interface BoardLoop {
  glass: Glass
  take(token: Token): void
  /** What an earlier run judged is good for a first frame, and for nothing that is done. */
  judge(): void
  /** Looks for what other programs recorded, and at the clock. */
  look(): void
  /** Resolves once nothing is being recorded, exported or planned any more. */
  settled(): Promise<void>
}

const LOG_LENGTH = 500
/** A care of a whole crew's gear is the longest. */
const MOST_OF_AN_ACT = 200
/** Only where it takes long enough that somebody wonders. */
const UNTIL_WONDERING_MS = 1_500
const WRITING = 'It is being written.'
const WAITING = 'This is being recorded. Keys pressed now are kept until it is done.'

export function startLoop({ session, desk, unicode, size, leave }: Around): BoardLoop {
  let ui: Ui = startUi
  let shown = make()
  /** Under way: the glass stays as it was, so that nothing half done is seen, and tokens wait in order. */
  let recording: Promise<void> | undefined
  /** A file on its way to disk; keys go on meanwhile, since it changes nothing on the board. */
  let exporting: Promise<void> | undefined
  let wondering: NodeJS.Timeout | undefined
  let isLeft = false
  const waiting: Token[] = []
  const watchers = new Set<() => void>()

  function viewAt(of: Ui): View {
    const { state, stopped } = session
    return viewOf({ state, at: session.now(), stopped, unicode, size: size() }, of)
  }
  function make(): { view: View; ui: Ui } {
    return { view: viewAt(ui), ui }
  }
  const draw = (next: typeof shown): void => {
    shown = next
    watchers.forEach((changed) => changed())
  }
  function show(next: Ui = ui): void {
    ui = next
    draw(make())
    // Whoever has left does not wait for a plan.
    if (!isLeft) planning.keep()
  }
  const planning = keepPlan({ begin: () => desk.plan(), state: () => session.state, ui: () => ui, show })

  function judge(): void {
    if (judgeAfresh() && !isLeft) show()
  }

  /** What ends while something is being recorded is shown after it. */
  const recorded = async (): Promise<void> => recording && recording.then(recorded)

  function quit(): void {
    isLeft = true
    planning.giveUp()
    waiting.length = 0
    leave()
  }

  function take(token: Token): void {
    if (isLeft) return
    if (recording) {
      if ('key' in token && token.key === 'ctrl-c') quit()
      else waiting.push(token)
      return
    }
    judge()
    const { ui: next, effect } = update(ui, token, make().view)
    if (effect && 'submit' in effect) {
      ui = next
      wondering = setTimeout(sayWaiting, UNTIL_WONDERING_MS)
      recording = record(effect).catch(sayMistake).then(goOn)
      return
    }
    if (next !== ui) show(next)
    try {
      if (effect) perform(effect)
    } catch (error) {
      sayMistake(error)
    }
  }

  function perform(effect: Exclude<Effect, Submit>): void {
    if ('quit' in effect) return quit()
    if ('log' in effect) return show(withLog(ui))
    if ('undo' in effect) return startUndo()
    if ('card' in effect) return show(showCard(ui, effect.card, desk.card(effect.card)))
    exportThen(effect.export, sayExported)
  }

  /** One that is still on its way is waited for too. */
  function exportThen(format: string, say: (made: Exported) => void, sayFailed = sayMistake): void {
    const slow = setTimeout(sayWriting, UNTIL_WONDERING_MS)
    const written = desk.exportLog(format).finally(() => clearTimeout(slow))
    const made = written.finally(recorded).then(say, sayFailed).catch(sayMistake)
    exporting = Promise.all([exporting, made]).then(() => undefined)
  }

  /** What stands there, as after a hand-over, says so already. */
  const sayWriting = (): void => show({ ...ui, message: ui.message ?? { text: WRITING, tone: 'warn' } })

  function sayExported(made: Exported): void {
    const text = 'path' in made ? `Exported to ${made.path}` : made.refused
    show({ ...ui, message: { text, tone: 'path' in made ? 'good' : 'bad' } })
  }

  /** The newest act on the books, whoever did it: what others recorded meanwhile is taken in first. */
  function startUndo(): void {
    session.look()
    const read = { ...ui, acts: desk.newest(MOST_OF_AN_ACT) }
    show(startSheet(read, viewAt(read), 'undo').ui)
  }

  async function record(effect: Submit): Promise<void> {
    let refused: string | undefined
    let seal: Sealed | undefined
    for (const [done, command] of effect.submit.entries()) {
      const answer = await session.submit(command)
      if ('accepted' in answer) seal = answer.seal
      const why = 'refused' in answer ? answer.refused : 'failed' in answer ? answer.failed : undefined
      if (why === undefined) continue
      refused = done === 0 ? why : `${done} of ${effect.submit.length} were recorded, then not: ${why}`
      break
    }
    // They were pressed for what did not come about, and might now do something else.
    if (refused !== undefined) waiting.length = 0
    const settled = saySealed(settle(ui, effect, refused), seal)
    show(settled.screen === 'log' ? withLog(settled) : settled)
    const next = refused === undefined ? effect.follow : effect.again
    if (next) follow(next)
  }

  /** What comes of itself once an act is recorded. That it fails takes nothing back. */
  function follow(next: Follow): void {
    if ('action' in next) {
      // Keys pressed ahead were meant for the screen as it was: they are not answers to an offer.
      if (!waiting.length) show(offer(ui, next, make().view))
      return
    }
    const said = ui.message!
    // It takes a moment: where the log will be is still to come, so that nobody leaves before it is said.
    show({ ...ui, message: { ...said, text: `${said.text} Its log is being written.` } })
    const say = (made?: Exported): void => show(sayLog(ui, said, made))
    exportThen(next.export, say, () => say())
  }

  function sayWaiting(): void {
    draw({ view: shown.view, ui: { ...shown.ui, message: { text: WAITING, tone: 'warn' } } })
  }
  function goOn(): void {
    clearTimeout(wondering)
    recording = undefined
    while (waiting.length && !recording) take(waiting.shift()!)
  }

  const withLog = (next: Ui): Ui =>
    showLog(next, logEntries(desk.newest(LOG_LENGTH, next.filter), session.state))

  /** A mistake of the program's own, or a file that cannot be read, must not take the board down. */
  function sayMistake(error: unknown): void {
    const what = error instanceof Error ? error.message : String(error)
    const text = `That could not be done (${what}). What was accepted is safe.`
    waiting.length = 0
    show({ ...ui, message: { text, tone: 'bad' } })
  }

  session.watch(() => {
    if (!recording) show()
  })
  return {
    glass: {
      read: () => shown,
      watch(changed) {
        watchers.add(changed)
        return () => watchers.delete(changed)
      },
    },
    take,
    judge,
    look() {
      if (recording) return
      session.look()
      if (session.now().slice(0, 16) !== shown.view.at.slice(0, 16)) show()
    },
    async settled() {
      await recording
      await exporting
      await planning.settled()
    },
  }
}
