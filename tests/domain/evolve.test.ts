// Rules for folding events: it never throws, never changes what it was given, and the same events give the same state.
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decide } from '../../src/domain/decide.ts'
import type { Event } from '../../src/domain/events.ts'
import { apply, evolve, fork, replay } from '../../src/domain/evolve.ts'
import { emptyState, type State } from '../../src/domain/state.ts'
import { crew, house } from './alder-hollow.ts'
import { anyActs, anyTour, journalAfter, RUNS } from './any-commands.ts'
import { NOW, STATION, stateOf } from './given.ts'
import { written } from './written.ts'

/** Stands where a command was refused, so that every round goes the same way. */
const NOTED = { type: 'note-made', data: { text: 'refused' } } as const

describe('one command', () => {
  test('gives one event that a journal can hold, or a sentence; never both, never neither', () => {
    fc.assert(
      fc.property(anyTour, (commands) => {
        let state = stateOf(crew)
        for (const command of commands) {
          const decision = decide({ by: 'M-104', at: NOW, ...command } as Parameters<typeof decide>[0], state)
          const isRefused = 'refused' in decision
          const draft = isRefused ? NOTED : decision.draft
          const sentence = isRefused ? decision.refused : 'Not refused.'
          expect(Object.keys(decision)).toEqual([isRefused ? 'refused' : 'draft'])
          expect(sentence).toMatch(/^(amend: with: )?["A-Za-z0-9].*[.]$/)
          expect(sentence).not.toMatch(/undefined|null|NaN|\[object/)
          expect(Object.keys(draft)).toEqual(['type', 'data'])
          expect(JSON.parse(JSON.stringify(draft))).toEqual(draft)
          state = evolve(state, { seq: state.seq + 1, at: NOW, by: 'M-104', ...draft } as Event)
        }
      }),
      RUNS,
    )
  })
})

describe('evolve', () => {
  test('never changes the state it was given, whatever the event', () => {
    fc.assert(
      fc.property(anyTour, (commands) => {
        let state = replay(emptyState(), [])
        for (const event of journalAfter(commands)) {
          const before = written(state)
          const after = evolve(state, event)
          expect(written(state)).toBe(before)
          expect(after).not.toBe(state)
          state = after
        }
      }),
      { ...RUNS, numRuns: 40 },
    )
  })

  test('never throws, in a state that knows nothing of what the event names', () => {
    const strangers: State[] = [emptyState(), replay(emptyState(), [STATION]), stateOf(house), stateOf(crew)]
    fc.assert(
      fc.property(anyTour, (commands) => {
        for (const event of journalAfter(commands)) {
          for (const state of strangers) expect(evolve(state, event).seq).toBe(event.seq)
        }
      }),
      { ...RUNS, numRuns: 60 },
    )
  })

  test('the random tours reach every event that a command makes', () => {
    const types = new Set<string>()
    fc.assert(
      fc.property(anyTour, anyActs, (commands, acts) => {
        for (const event of [...journalAfter(commands), ...journalAfter(acts)]) types.add(event.type)
      }),
      { ...RUNS, numRuns: 600 },
    )
    expect([...types].toSorted()).toEqual(
      [
        'station-made',
        'rig-added',
        'member-added',
        'element-added',
        'gear-imported',
        'records-imported',
        'element-issued',
        'element-returned',
        'tour-opened',
        'member-seated',
        'seat-cleared',
        'seat-answered',
        'pressure-read',
        'element-tagged',
        'tag-lifted',
        'element-swapped',
        'swap-reversed',
        'exposure-recorded',
        'care-recorded',
        'fit-test-recorded',
        'elements-sent-away',
        'elements-received-back',
        'batch-received',
        'pin-set',
        'element-held',
        'element-retired',
        'note-made',
        'event-amended',
        'item-acknowledged',
        'tour-handed-over',
        'policy-adopted',
      ].toSorted(),
    )
  })

  test('a recovered journal is an event like any other and changes nothing else', () => {
    const state = stateOf(crew)
    const event = {
      seq: state.seq + 1,
      at: NOW,
      by: 'setup',
      type: 'journal-recovered',
      data: { file: 'journal.torn-1', bytes: 12 },
    } as const
    expect(evolve(state, event)).toEqual({ ...state, seq: state.seq + 1 })
  })
})

describe('replay', () => {
  test('all at once, one by one, in two parts at any point, or into a draft: the same state', () => {
    fc.assert(
      fc.property(anyTour, fc.nat(), (commands, cut) => {
        const events = journalAfter(commands)
        const whole = replay(emptyState(), events)
        expect(events.reduce(evolve, emptyState())).toEqual(whole)
        const at = cut % (events.length + 1)
        const part = replay(emptyState(), events.slice(0, at))
        expect(part.seq).toBe(at)
        expect(replay(part, events.slice(at))).toEqual(whole)
        const draft = fork(part)
        for (const event of events.slice(at)) apply(draft, event)
        expect(draft).toEqual(whole)
      }),
      { ...RUNS, numRuns: 60 },
    )
  })

  test('events that went to disk and back give the same state', () => {
    fc.assert(
      fc.property(anyTour, (commands) => {
        const events = journalAfter(commands)
        const read = JSON.parse(JSON.stringify(events)) as Event[]
        expect(replay(emptyState(), read)).toEqual(replay(emptyState(), events))
      }),
      { ...RUNS, numRuns: 40 },
    )
  })
})
