// What the books would hold after commands that nobody has given yet; it must never record.
import type { Command, Dated } from './commands.ts'
import { decide } from './decide.ts'
import type { Event } from './events.ts'
import { evolve } from './evolve.ts'
import type { State } from './state.ts'
import type { Instant } from './time.ts'

interface Imagined {
  state: State
  /** Each event and the state right after it. */
  steps: { event: Event; state: State }[]
}

/** What would come of commands, were they given now; the first refusal instead when there is one. */
export function imagine(
  before: State,
  commands: readonly Command[],
  at: Instant,
): Imagined | { refused: string } {
  let state = before
  const steps: Imagined['steps'] = []
  for (const command of commands) {
    const decision = decide({ ...command, at } as Dated, state)
    if ('refused' in decision) return decision
    const event = { ...decision.draft, seq: state.seq + 1, at, by: command.by } as Event
    state = evolve(state, event)
    steps.push({ event, state })
  }
  return { state, steps }
}
