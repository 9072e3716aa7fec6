// Runs the board: keys in, screens out, and what an effect asks of the session and the disk. It must never decide anything.
import type { Event } from '../domain/events.ts'
import type { Id } from '../domain/gear.ts'
import type { State } from '../domain/state.ts'
import { tell } from '../domain/tell.ts'
import type { Session } from '../session.ts'
import { App, type Glass } from './app.tsx'
import type { Token } from './input/keys.ts'
import type { Abilities } from './terminal/abilities.ts'
import { mountBoard } from './terminal/mount-board.ts'
import { settle, showCard, startUi, type Effect, type LogEntry, type Submit, type Ui } from './ui-state.ts'
import { update } from './update.ts'
import { viewOf, type View } from './view.ts'

/** What the board needs from beyond the session: files are read and written by whoever runs it. */
export interface Desk {
  /** The newest events, newest first. */
  newest(count: number): Event[]
  /** All that is known of one id, as lines. */
  card(id: Id): string[]
  exportLog(format: string): { path: string } | { refused: string }
}

interface Running {
  session: Session
  desk: Desk
  stdin: NodeJS.ReadStream
  stdout: NodeJS.WriteStream & { fd: number }
  abilities: Abilities
}

const LOG_LENGTH = 500
/** Two terminals see each other's work within a second. */
const LOOK_EVERY_MS = 1_000

export async function runBoard({ session, desk, stdin, stdout, abilities }: Running): Promise<void> {
  let ui: Ui = startUi
  let shown = make()
  const watchers = new Set<() => void>()

  function make(): { view: View; ui: Ui } {
    const { state, stopped } = session
    const size = { columns: stdout.columns || 80, rows: stdout.rows || 24 }
    return { view: viewOf({ state, at: session.now(), stopped, unicode: abilities.unicode, size }, ui), ui }
  }
  function show(next: Ui = ui): void {
    ui = next
    shown = make()
    watchers.forEach((changed) => changed())
  }

  function take(token: Token): void {
    const { ui: next, effect } = update(ui, token, make().view)
    if (next !== ui) show(next)
    if (effect) void perform(effect)
  }

  async function perform(effect: Effect): Promise<void> {
    if ('quit' in effect) return board.unmount()
    if ('log' in effect) return show({ ...ui, log: logOf(session, desk) })
    if ('card' in effect) return show(showCard(ui, effect.card, desk.card(effect.card)))
    if ('export' in effect) {
      const made = desk.exportLog(effect.export)
      const message = 'path' in made ? `Exported to ${made.path}` : made.refused
      return show({ ...ui, message: { text: message, tone: 'path' in made ? 'good' : 'bad' } })
    }
    show({ ...ui, busy: true })
    const refused = await submitAll(effect.submit)
    const settled = settle(ui, effect, refused)
    show(settled.screen === 'log' ? { ...settled, log: logOf(session, desk) } : settled)
  }

  async function submitAll(commands: Submit['submit']): Promise<string | undefined> {
    for (const command of commands) {
      const answer = await session.submit(command)
      if ('refused' in answer) return answer.refused
      if ('failed' in answer) return answer.failed
    }
    return undefined
  }

  const glass: Glass = {
    read: () => shown,
    watch(changed) {
      watchers.add(changed)
      return () => watchers.delete(changed)
    },
  }
  const stopWatching = session.watch(() => show())
  void session.begin()
  const looking = setInterval(() => {
    session.look()
    if (session.now().slice(0, 16) !== shown.view.at.slice(0, 16)) show()
  }, LOOK_EVERY_MS)
  const board = mountBoard({
    stdin,
    stdout,
    colour: abilities.colour,
    node: (size) => <App glass={glass} size={size} />,
    onToken: take,
  })
  try {
    await board.finished
  } finally {
    clearInterval(looking)
    stopWatching()
    await session.close()
  }
}

const logOf = (session: Session, desk: Desk): LogEntry[] =>
  desk.newest(LOG_LENGTH).map((event) => logEntry(event, session.state))

const LABELS: readonly Event['type'][] = ['member-added', 'element-added', 'gear-imported']

export const logEntry = (event: Event, state: State): LogEntry => ({
  seq: event.seq,
  text: `#${event.seq} ${event.at.slice(0, 10)} ${event.at.slice(11, 16)} ${event.by}: ${tell(event, state)}`,
  isCorrection: event.type === 'event-amended',
  isLabel: LABELS.includes(event.type),
})
