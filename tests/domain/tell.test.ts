// Every event as the sentence that the log, the history and the paper show, and the ids in whose history it stands.
import { describe, expect, test } from 'vitest'
import type { Event, EventData, EventType } from '../../src/domain/events.ts'
import { aboutOf } from '../../src/domain/about.ts'
import { tell } from '../../src/domain/tell.ts'
import { crew } from './alder-hollow.ts'
import { NOW, stateOf } from './given.ts'
import { ROWS, tour, type Row } from './told-events.ts'

const state = stateOf(crew)
const event = <T extends EventType>(type: T, data: EventData[T]): Event =>
  ({ seq: 99, at: NOW, by: 'M-104', type, data }) as Event

const rows = Object.entries(ROWS) as [EventType, Row<EventType>][]

test.each(rows)(
  '%s is one sentence and stands in the history of all it is about',
  (type, [data, sentence, about]) => {
    expect(tell(event(type, data), state)).toBe(sentence)
    expect(aboutOf(event(type, data))).toEqual(about)
  },
)

const received = (elements: string[]) => event('elements-received-back', { elements })

describe('what is told', () => {
  const noted = event('note-made', { text: 'hydrant 12 frozen.' })

  test('what was recorded late says when', () => {
    const late = {
      ...noted,
      data: { ...noted.data, recordedAt: '2026-11-25T09:05:00.000-05:00' },
    } as Event
    expect(tell(late, state)).toBe('Note: hydrant 12 frozen. (recorded late, on 25 Nov 2026 at 09:05)')
  })

  test('a hand-over says who signed off for an officer who could not, and that the read-back was proved', () => {
    const data = {
      tour,
      from: 'M-104',
      to: 'M-207',
      readBack: true,
      byPin: true,
      readBackByPin: true,
    } as const
    const signed = { ...event('tour-handed-over', data), by: 'M-105' } as Event
    expect(tell(signed, state)).toBe(
      'Handed over tour 2026-11-24-B from A. Varga (M-104) to C. Lindqvist (M-207), who read back what is open and gave their PIN. Signed off by B. Okoro (M-105). Confirmed by PIN.',
    )
    expect(aboutOf(signed)).toEqual([tour, 'M-104', 'M-207', 'M-105'])
  })

  test('a first PIN says which officer gave theirs for it', () => {
    const pin = { scheme: 'scrypt', n: 16, r: 8, p: 1, salt: '', hash: '' } as const
    const first = event('pin-set', { member: 'M-105', pin, witness: 'M-104' })
    expect(tell(first, state)).toBe('B. Okoro (M-105) set a PIN, and A. Varga (M-104) gave theirs for it.')
    expect(aboutOf(first)).toEqual(['M-105', 'M-104'])
  })

  test('a reading says the temperature it was read at, where there is one', () => {
    const cold = event('pressure-read', { element: 'Y-31', psi: 4100, celsius: -5 })
    expect(tell(cold, state)).toBe('Read 4100 psi on cylinder Y-31 at -5 C.')
  })

  test('an answer without findings says that all is serviceable', () => {
    const answered = event('seat-answered', { seat: 'E6-1', member: 'M-104', tour, findings: [] })
    expect(tell(answered, state)).toBe('E6-1 answered by A. Varga (M-104): no findings.')
  })

  test('what the books do not know goes by its id', () => {
    expect(tell(event('element-returned', { element: 'C-7' }), state)).toBe('Returned C-7 to the rack.')
    expect(tell(event('seat-cleared', { seat: 'E6-1', member: 'M-9' }), state)).toBe(
      'Cleared E6-1: M-9 left it.',
    )
  })

  test('six are named; of seven, five are named and two counted, and all seven find it in their history', () => {
    const ids = ['A', 'B', 'C', 'D', 'E', 'F', 'G']
    expect(tell(received(ids.slice(1)), state)).toBe('Received back: B, C, D, E, F, G.')
    expect(tell(received(ids), state)).toBe('Received back: A, B, C, D, E and 2 more.')
    expect(aboutOf(received(ids))).toEqual(ids)
  })

  const amendedExposure = (was: object, changes: object) =>
    event('event-amended', {
      seq: 7,
      type: 'exposure-recorded',
      subject: '',
      why: 'misread',
      was: was as Record<string, unknown>,
      with: changes as Record<string, unknown>,
    })

  test('who was taken off an exposure finds that in their history, and so does who was added', () => {
    const amended = amendedExposure({ elements: ['C-1041', 'H-5'] }, { elements: ['H-5', 'C-1900'] })
    expect(new Set(aboutOf(amended))).toEqual(new Set(['C-1041', 'H-5', 'C-1900']))
    expect(tell(amended, state)).toBe('Amended event 7: elements H-5, C-1900, was C-1041, H-5. misread.')
  })

  test('a withdrawal says so, and stands in the history of all that it clears', () => {
    const withdrawn = amendedExposure({ elements: ['C-1041', 'H-5'] }, { withdrawn: true })
    expect(tell(withdrawn, state)).toBe('Withdrew event 7: misread.')
    expect(aboutOf(withdrawn)).toEqual(['C-1041', 'H-5'])
  })
})
