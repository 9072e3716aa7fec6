// A board without a terminal: keys go through the real update, commands through the real decide and evolve; it must never fake a part.
import { parseCommand, type Command, type Dated } from '../../src/domain/commands.ts'
import { decide } from '../../src/domain/decide.ts'
import type { Event, EventType } from '../../src/domain/events.ts'
import { evolve } from '../../src/domain/evolve.ts'
import { passing } from '../../src/domain/log-filter.ts'
import { planNow } from './plan-now.ts'
import type { State } from '../../src/domain/state.ts'
import { aboutOf } from '../../src/domain/about.ts'
import { cardText } from '../../src/exports/history.ts'
import { linesFor } from '../../src/tui/screens.ts'
import type { Key, Token } from '../../src/tui/input/keys.ts'
import type { Size } from '../../src/tui/panels/frame.ts'
import { logEntries } from '../../src/tui/log-entries.ts'
import { settle, showCard, showLog, startUi, type Effect, type Ui } from '../../src/tui/ui-state.ts'
import { update } from '../../src/tui/update.ts'
import { offer } from '../../src/tui/update/offer.ts'
import { startSheet } from '../../src/tui/update/sheet.ts'
import { viewOf, type View } from '../../src/tui/view.ts'

export const SMALL: Size = { columns: 80, rows: 24 }

/** What a test presses: a named key, typed letters, or any token. */
export type Press = Token | Key | { type: string }

export interface Bench {
  readonly ui: Ui
  readonly view: View
  readonly state: State
  /** What was recorded by keys, oldest first. */
  readonly events: Event[]
  readonly commands: Command[]
  /** What left the screen for the disk or the door: exports and quits. */
  readonly left: Effect[]
  /** How many tokens were taken. */
  readonly pressed: number
  press(...keys: Press[]): Bench
  /** Letters narrow the list, Enter takes the first that is left. */
  pick(...words: string[]): Bench
  /** Waits for the plan, as the board's loop does. */
  planned(): Promise<Bench>
  /** Empties the line, types words and takes them. */
  write(words: string): Bench
  type(words: string): Bench
  screen(size?: Size): string[]
  text(size?: Size): string
  last(): EventType | undefined
}

export interface Standing {
  state: State
  at: string
}

export function bench(
  { state: first, at }: Standing,
  facts: { unicode?: boolean; stopped?: string; ui?: Partial<Ui>; size?: Size } = {},
): Bench {
  const { unicode = true, stopped, size = SMALL } = facts
  let state = first
  let ui: Ui = { ...startUi, ...facts.ui }
  const events: Event[] = []
  const commands: Command[] = []
  const left: Effect[] = []
  let pressed = 0
  const look = (): View => viewOf({ state, at, stopped, unicode, size }, ui)

  /** As the session does it; a command that is not well formed is a fault of the board. */
  function submit(command: Command): string | undefined {
    const parsed = parseCommand(command)
    if ('refused' in parsed) throw new Error(`${JSON.stringify(command)}: ${parsed.refused}`)
    const decision = decide({ ...command, at } as Dated, state)
    if ('refused' in decision) return decision.refused
    const event = { ...decision.draft, seq: state.seq + 1, at, by: command.by } as Event
    state = evolve(state, event)
    events.push(event)
    commands.push(command)
    return undefined
  }
  function perform(effect: Effect): void {
    if ('submit' in effect) {
      let refused: string | undefined
      for (const command of effect.submit) refused ??= submit(command)
      ui = settle(ui, effect, refused)
      const follow = refused === undefined ? effect.follow : effect.again
      if (follow && 'action' in follow) ui = offer(ui, follow, look())
      else if (follow) left.push(follow)
      if (ui.screen === 'log') readLog()
      return
    }
    if ('log' in effect) {
      readLog()
      return
    }
    if ('undo' in effect) {
      const read = { ...ui, acts: events.toReversed() }
      ui = startSheet(read, viewOf({ state, at, stopped, unicode, size }, read), 'undo').ui
      return
    }
    if ('card' in effect) {
      const about = events.filter((each) => aboutOf(each).includes(effect.card))
      ui = showCard(ui, effect.card, cardText(about, state, effect.card, at).trimEnd().split('\n'))
      return
    }
    left.push(effect)
  }
  function readLog(): void {
    const shown = ui.filter ? events.filter(passing(ui.filter)) : events
    ui = showLog(ui, logEntries(shown.toReversed(), state))
  }
  function take(token: Token): void {
    pressed += 1
    const { ui: next, effect } = update(ui, token, look())
    ui = next
    if (effect) perform(effect)
  }
  const self: Bench = {
    get ui() {
      return ui
    },
    get view() {
      return look()
    },
    get state() {
      return state
    },
    get pressed() {
      return pressed
    },
    events,
    commands,
    left,
    press(...keys) {
      for (const key of keys) {
        if (typeof key === 'string') take({ key })
        else if ('type' in key) for (const char of key.type) take({ char })
        else take(key)
      }
      return self
    },
    type: (words) => self.press({ type: words }),
    pick(...words) {
      for (const each of words) self.press({ type: each }, 'enter')
      return self
    },
    async planned() {
      ui = { ...ui, plan: { made: await planNow(state, at), fault: null } }
      return self
    },
    write: (words) => self.press('ctrl-u', { type: words }, 'enter'),
    screen: (at = size) =>
      linesFor(look(), ui, at).map((line) =>
        line
          .map((span) => span.text)
          .join('')
          .trimEnd(),
      ),
    text: (at) => self.screen(at).join('\n'),
    last: () => events.at(-1)?.type,
  }
  return self
}
