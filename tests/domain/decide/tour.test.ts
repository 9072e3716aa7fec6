// Rules for opening a tour, its open items and handing it over.
import { describe, expect, test } from 'vitest'
import { Table } from '../../../src/domain/table.ts'
import { openItems } from '../../../src/domain/items.ts'
import { crew, held, house, retired, seated, sentAway, swap, tagged, tourOpen } from '../alder-hollow.ts'
import { given, memberIn, NOW, type Told } from '../given.ts'

const handOver: Told = { do: 'hand-over', to: 'M-207' }

const open = (more: object) => ({ ...tourOpen, ...more })

describe('open-tour', () => {
  const opened = { tour: '2026-11-24-B', platoon: 'B', officer: 'M-104', on: '2026-11-24' }

  test('a tour opens with nobody answered and nothing acknowledged', () => {
    const state = given(house)
      .when(tourOpen)
      .records('tour-opened', { ...opened, relieved: [] })
    expect(state.tour).toEqual({
      id: '2026-11-24-B',
      platoon: 'B',
      officer: 'M-104',
      on: '2026-11-24',
      opened: { seq: state.seq, at: NOW, by: 'M-104' },
      answers: new Table(),
      acknowledged: new Map(),
    })
    expect([...state.tours]).toEqual([['2026-11-24-B', { platoon: 'B', on: '2026-11-24', openedAt: NOW }]])
  })

  test('opening relieves whoever is of another platoon, and nobody of this one', () => {
    const state = given(house, seated('M-207', 'E6-1'), seated('M-105', 'E6-2'))
      .when(tourOpen)
      .records('tour-opened', { ...opened, relieved: [{ seat: 'E6-1', member: 'M-207' }] })
    expect(state.seats.get('E6-1')?.member).toBeNull()
    expect(memberIn(state, 'M-207').seat).toBeNull()
    expect(state.seats.get('E6-2')?.member).toBe('M-105')
  })

  test('a tour may be opened for tomorrow, not for the day after', () => {
    given(house)
      .when(open({ on: '2026-11-25' }))
      .records('tour-opened', { ...opened, on: '2026-11-25', relieved: [] })
    given(house)
      .when(open({ on: '2026-11-26' }))
      .refuses('26 Nov 2026 is more than a day ahead.')
      .changesNothing()
  })

  test.each([
    [[tourOpen], open({ tour: 'next' }), 'Tour 2026-11-24-B is still open. Hand it over first.'],
    [[tourOpen, handOver], tourOpen, 'There was already a tour 2026-11-24-B. Give this one another id.'],
    [[], open({ officer: 'M-9' }), 'There is no member M-9 in this station.'],
    [[], open({ platoon: 'D' }), 'No member is of platoon D. The platoons are: B, C.'],
  ])('opening is refused: %#', (more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })

  test('a tour begins with the hand-over of the last one or later, never before it', () => {
    const next = (at: string) => open({ tour: 'next', at })
    given(crew, handOver)
      .when(next(NOW))
      .records('tour-opened', { ...opened, tour: 'next', relieved: [] })
    given(crew, handOver)
      .when(next('2026-11-24T07:01:59.000-05:00'))
      .refuses('The last tour was handed over on 24 Nov 2026 at 07:02: another cannot begin before that.')
      .changesNothing()
  })

  test('where no member has a platoon, the refusal says so', () => {
    given({ do: 'add-member', member: { id: 'M-1', name: 'F. Iyer' } })
      .when({ ...tourOpen, by: 'M-1', officer: 'M-1' })
      .refuses('No member is of platoon B. The platoons are: none yet.')
      .changesNothing()
  })
})

const acknowledge = (item: string): Told => ({ do: 'acknowledge', item })

describe('acknowledge', () => {
  test('an open item is acknowledged in its own words', () => {
    const state = given(crew, tagged('C-1041'))
      .when(acknowledge('tag-C-1041'))
      .records('item-acknowledged', {
        item: 'tag-C-1041',
        about: ['C-1041'],
        words: 'Coat shell C-1041 is out of service: torn seam.',
        tour: '2026-11-24-B',
      })
    expect(state.tour?.acknowledged.get('tag-C-1041')).toEqual({ seq: state.seq, at: NOW, by: 'M-104' })
  })

  test('what is away, held or standing in is an open item; what is retired is none', () => {
    const { state } = given(
      crew,
      tagged('C-1041'),
      swap('E6-1', 'C-1900', 'C-1041'),
      swap('E6-1', 'Y-32', 'Y-31'),
      sentAway('H-6'),
      held('Y-31'),
      tagged('C-1901'),
      retired('C-1901'),
    )
    expect(openItems(state).map(({ id, words }) => [id, words])).toEqual([
      ['tag-C-1041', 'Coat shell C-1041 is out of service: torn seam.'],
      ['away-H-6', 'Hood H-6 is away at North Wash for advanced cleaning.'],
      ['held-Y-31', 'Cylinder Y-31 is held as evidence: injury on 22 Nov.'],
      ['stand-in-C-1900', 'Coat shell C-1900 stands in for C-1041 at E6-1, with A. Varga (M-104).'],
      ['stand-in-Y-32', 'Cylinder Y-32 stands in for Y-31 at E6-1, with the riding position itself.'],
    ])
  })

  test.each([
    [house, [tagged('C-1041')], 'tag-C-1041', 'No tour is open. Open the tour first.'],
    [crew, [], 'tag-C-1041', 'There is no open item tag-C-1041.'],
    [crew, [], 'tag\u001b[2J-\u202eC', 'There is no open item tag-C.'],
    [
      crew,
      [tagged('C-1041'), acknowledge('tag-C-1041')],
      'tag-C-1041',
      'Tag-C-1041 was already acknowledged by A. Varga (M-104).',
    ],
  ])('acknowledging is refused: %#', (start, more, item, words) => {
    given(start, more).when(acknowledge(item)).refuses(words).changesNothing()
  })
})

describe('hand-over', () => {
  test('the tour ends; who rides stays seated until the next tour relieves them', () => {
    const state = given(crew)
      .when(handOver)
      .records('tour-handed-over', { tour: '2026-11-24-B', from: 'M-104', to: 'M-207' })
    expect(state.tour).toBeNull()
    expect(state.seats.get('E6-1')?.member).toBe('M-104')
    expect([...state.tours]).toEqual([
      ['2026-11-24-B', { platoon: 'B', on: '2026-11-24', openedAt: NOW, to: 'M-207', endedAt: NOW }],
    ])
  })

  test('that it was read back is kept with it', () => {
    given(crew)
      .when({ ...handOver, readBack: true })
      .records('tour-handed-over', { tour: '2026-11-24-B', from: 'M-104', to: 'M-207', readBack: true })
  })

  test.each([
    [house, handOver, 'No tour is open, so there is none to hand over.'],
    [crew, { do: 'hand-over', to: 'M-9' }, 'There is no member M-9 in this station.'],
  ])('handing over is refused: %#', (start, command, words) => {
    given(start).when(command).refuses(words).changesNothing()
  })
})
