// Makes a journal for the exports' tests from real commands through the real decide and evolve; it must never write an event by hand.
import { createHash } from 'node:crypto'
import { parseCommand } from '../../src/domain/commands.ts'
import { decide, type Decision } from '../../src/domain/decide.ts'
import type { Draft, Event } from '../../src/domain/events.ts'
import { evolve, replay } from '../../src/domain/evolve.ts'
import { emptyState, type State } from '../../src/domain/state.ts'
import type { LoggedEvent } from '../../src/exports/follow-tour.ts'
import { proofOf } from '../../src/session/pin.ts'

export interface Recorder {
  readonly state: State
  readonly events: LoggedEvent[]
  readonly head: string
  /** `when` is `24 07:02`: the day and time in November 2026. */
  record(when: string, by: string, command: Record<string, unknown>): LoggedEvent
}

export const instant = (when: string): string => `2026-11-${when.replace(' ', 'T')}:00.000-06:00`

/** Stands for the hash of a line: the exports only carry it. */
export const hashOf = (event: Event): string =>
  createHash('sha256').update(JSON.stringify(event)).digest('hex')

export function station({ invented = true, name = 'Larch Hill Station' } = {}): Recorder {
  const made: Event = {
    seq: 1,
    at: instant('01 08:00'),
    by: 'setup',
    type: 'station-made',
    data: {
      format: 1,
      name,
      timeZone: 'America/Chicago',
      rotation: '24/48',
      starts: '07:00',
      policy: 'nfpa-1851-2020',
      ...(invented && { invented }),
    },
  }
  let state = replay(emptyState(), [made])
  const events: LoggedEvent[] = [{ ...made, hash: hashOf(made) }]
  return {
    get state() {
      return state
    },
    get head() {
      return events.at(-1)!.hash!
    },
    events,
    record(when, by, command) {
      const at = instant(when)
      const parsed = parseCommand({ by, at, ...command })
      if ('refused' in parsed) throw new Error(parsed.refused)
      const proof = proofOf(parsed.command, state, at, { n: 16, r: 1, p: 1 })
      const { draft, ...refusal } = decide({ ...parsed.command, at, proof }, state) as Decision & {
        draft: Draft
      }
      if (!draft) throw new Error(JSON.stringify(refusal))
      const event = { seq: state.seq + 1, at, by, ...draft } as Event
      state = evolve(state, event)
      const logged: LoggedEvent = { ...event, hash: hashOf(event) }
      events.push(logged)
      return logged
    },
  }
}
