// The log of one tour, riding position, element or member: nothing of it is left out, and no correction of it either.
import { describe, expect, test } from 'vitest'
import type { Event } from '../../src/domain/events.ts'
import { aboutOf } from '../../src/domain/about.ts'
import { passing, type LogFilter } from '../../src/domain/log-filter.ts'
import { followTour } from '../../src/exports/follow-tour.ts'
import { fullTour } from '../exports/tours.ts'

const { events } = fullTour()
const shown = (filter: LogFilter): number[] => events.filter(passing(filter)).map((each) => each.seq)

describe('the log', () => {
  test('of a tour holds what its readiness log follows, from the opening to the hand-over', () => {
    const follower = followTour('2026-11-24-B')
    for (const event of events) follower.see(event)
    const { course } = follower.end()
    const seqs = [...course!.events, course!.opened, course!.closed!].map((each) => each.seq)
    expect(shown({ by: 'tour', id: '2026-11-24-B' })).toEqual([...new Set(seqs)].toSorted((a, b) => a - b))
  })

  test.each([
    ['element', 'B-1'],
    ['element', 'L-1'],
    ['seat', 'E6-2'],
  ] as const)('of the %s %s holds every event that is about it', (by, id) => {
    const about = events.filter((each) => aboutOf(each).includes(id)).map((each) => each.seq)
    expect(about.length).toBeGreaterThan(3)
    expect(shown({ by, id })).toEqual(about)
  })

  test('of a member holds what they recorded as well as what is about them', () => {
    const own = events.filter((each) => each.by === 'M-104').map((each) => each.seq)
    const seqs = shown({ by: 'member', id: 'M-104' })
    expect(own.filter((seq) => !seqs.includes(seq))).toEqual([])
    expect(seqs.length).toBeGreaterThan(own.length)
  })

  test('shows a correction beside what it corrects, whoever made it and whatever it names', () => {
    const note = events.find((each) => each.type === 'note-made')!
    const amendment = { ...events.find((each) => each.type === 'event-amended')!, by: 'M-207', seq: 999 }
    const late = { ...amendment, data: { ...amendment.data, seq: note.seq, subject: '' } }
    const kept = [...events, late as Event].filter(passing({ by: 'member', id: note.by }))
    expect(kept.at(-1)!.seq).toBe(999)
  })

  test('of what nobody knows is empty', () => {
    expect(shown({ by: 'element', id: 'ZZ-1' })).toEqual([])
    expect(shown({ by: 'tour', id: 'ZZ-1' })).toEqual([])
  })
})
