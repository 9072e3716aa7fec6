// The language of the domain's tests: given what was recorded, when a command comes, what is recorded; it must never fake a part.
import { expect } from 'vitest'
import { parseCommand, type CommandName, type CommandOf } from '../../src/domain/commands.ts'
import { decide } from '../../src/domain/decide.ts'
import type { Draft, Event, EventData, EventType } from '../../src/domain/events.ts'
import { evolve, replay } from '../../src/domain/evolve.ts'
import { emptyState, type Element, type Member, type State } from '../../src/domain/state.ts'
import { isLater, type Instant } from '../../src/domain/time.ts'
import { proofOf } from '../../src/session/pin.ts'
import { written } from './written.ts'

export const NOW: Instant = '2026-11-24T07:02:11.482-05:00'
export const TODAY = '2026-11-24'
export const TOMORROW = '2026-11-25'

/** A command as a test writes it: fixed clock, and the officer gives it unless it says otherwise. */
export type Told = {
  [Name in CommandName]: Omit<CommandOf<Name>, 'by' | 'at'> & { by?: string; at?: Instant }
}[CommandName]
export type Step = Told | Event
export type Steps = readonly (Step | readonly Step[])[]

export const STATION: Event = {
  seq: 1,
  at: '2026-01-01T08:00:00.000-05:00',
  by: 'setup',
  type: 'station-made',
  data: {
    format: 1,
    name: 'Alder Hollow',
    timeZone: 'America/New_York',
    rotation: '24/48',
    starts: '07:00',
    policy: 'nfpa-1851-2020',
    invented: true,
  },
}

/** The cost of a PIN in tests: what it costs is not what they ask. */
const CHEAP = { n: 16, r: 1, p: 1 }

type Outcome = { draft: Draft; event: Event } | { refused: string; noted?: Draft }

/** Reads, decides and dates one command the way the session does; `input` need not be well formed. */
export function submit(state: State, input: object): Outcome {
  const { at = NOW, ...rest } = input as { at?: Instant }
  const by = state.members.has('M-104') ? 'M-104' : 'setup'
  const parsed = parseCommand({ by, at, ...rest })
  if ('refused' in parsed) return parsed
  const proof = proofOf(parsed.command, state, at, CHEAP)
  const isLate = isLater(NOW, at)
  const decision = decide({ ...parsed.command, at, isLate, proof }, state)
  if ('refused' in decision)
    return { refused: decision.refused, ...(decision.draft && { noted: decision.draft }) }
  const event = { seq: state.seq + 1, at, by: parsed.command.by, ...decision.draft } as Event
  return { draft: decision.draft, event }
}

const isEvent = (step: Step): step is Event => 'type' in step

/** Runs the steps through the real `decide` and `evolve`, on an Alder Hollow that was just made. */
export function journalOf(...steps: Steps): Event[] {
  const events: Event[] = [STATION]
  let state = replay(emptyState(), events)
  for (const step of steps.flat()) {
    const outcome = isEvent(step) ? { event: { ...step, seq: state.seq + 1 } as Event } : submit(state, step)
    if ('refused' in outcome) throw new Error(`given ${JSON.stringify(step)}: ${outcome.refused}`)
    events.push(outcome.event)
    state = evolve(state, outcome.event)
  }
  return events
}

export const stateOf = (...steps: Steps): State => replay(emptyState(), journalOf(...steps))

export function given(...steps: Steps) {
  return whenIn(stateOf(...steps))
}

/** The same for a state of one's own making. */
export function whenIn(state: State) {
  return {
    state,
    when(command: Told | Record<string, unknown>) {
      const before = written(state)
      const outcome = submit(state, command)
      const kept = {
        refuses(words: string) {
          expect(outcome).toEqual({ refused: words })
          return kept
        },
        changesNothing() {
          expect(outcome).toEqual({ refused: expect.any(String) })
          expect(written(state)).toBe(before)
          return kept
        },
        records<T extends EventType>(type: T, data: EventData[T]) {
          expect('refused' in outcome ? outcome.refused : outcome.draft).toEqual({ type, data })
          const after = evolve(state, (outcome as { event: Event }).event)
          expect(written(state)).toBe(before)
          expect(after.seq).toBe(state.seq + 1)
          return after
        },
      }
      return kept
    },
  }
}

export function elementIn(state: State, id: string): Element {
  const element = state.elements.get(id)
  if (!element) throw new Error(`The state has no element ${id}.`)
  return element
}
export function memberIn(state: State, id: string): Member {
  const member = state.members.get(id)
  if (!member) throw new Error(`The state has no member ${id}.`)
  return member
}
