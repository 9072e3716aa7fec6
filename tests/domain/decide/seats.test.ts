// Rules for who rides where, and for roll call.
import { describe, expect, test } from 'vitest'
import { crew, house, seated, sentAway, swap, tourOpen } from '../alder-hollow.ts'
import { elementIn, given, memberIn, NOW, type Told } from '../given.ts'

const OTHER: Told = { do: 'add-member', member: { id: 'M-300', name: 'C. Lark', platoon: 'C' } }
const clear = (seat: string): Told => ({ do: 'clear-seat', seat })

describe('seat-member', () => {
  test('a member takes a riding position, and the riding list of the platoon remembers it', () => {
    const state = given(house, tourOpen)
      .when(seated())
      .records('member-seated', { seat: 'E6-1', member: 'M-104' })
    expect(state.seats.get('E6-1')?.member).toBe('M-104')
    expect(memberIn(state, 'M-104').seat).toBe('E6-1')
    expect(state.ridingLists.get('B')).toEqual(new Map([['E6-1', 'M-104']]))
  })

  test('who sat there is relieved, and the riding position has to answer again', () => {
    const state = given(crew, { do: 'answer', seat: 'E6-1' })
      .when(seated('M-105', 'E6-1'))
      .records('member-seated', { seat: 'E6-1', member: 'M-105', relieves: 'M-104' })
    expect(memberIn(state, 'M-104').seat).toBeNull()
    expect(state.tour?.answers.size).toBe(0)
    expect(state.ridingLists.get('B')).toEqual(new Map([['E6-1', 'M-105']]))
  })

  test('a member who moves stands on the riding list once', () => {
    const state = given(crew, clear('E6-1'))
      .when(seated('M-104', 'E6-3'))
      .records('member-seated', { seat: 'E6-3', member: 'M-104' })
    expect(state.ridingLists.get('B')).toEqual(new Map([['E6-3', 'M-104']]))
  })

  test('a trade is said as such, and the riding list keeps whose place it is', () => {
    const state = given(crew)
      .when({ ...seated('M-105', 'E6-1'), as: 'trade' })
      .records('member-seated', { seat: 'E6-1', member: 'M-105', relieves: 'M-104', as: 'trade' })
    expect(state.seats.get('E6-1')).toMatchObject({ member: 'M-105', as: 'trade' })
    expect(state.ridingLists.get('B')).toEqual(new Map([['E6-1', 'M-104']]))
  })

  test('whoever comes next is not on a trade', () => {
    const state = given(crew, { do: 'seat-member', seat: 'E6-1', member: 'M-105', as: 'overtime' })
      .when(seated('M-104', 'E6-1'))
      .records('member-seated', { seat: 'E6-1', member: 'M-104', relieves: 'M-105' })
    expect(state.seats.get('E6-1')).not.toHaveProperty('as')
  })

  test('early relief by another platoon is no part of the list of the platoon on duty', () => {
    const state = given(crew, OTHER)
      .when(seated('M-300', 'E6-1'))
      .records('member-seated', { seat: 'E6-1', member: 'M-300', relieves: 'M-104' })
    expect(state.ridingLists.get('B')).toEqual(new Map([['E6-1', 'M-104']]))
  })

  test('who relieved early is on the list of their own platoon once its tour opens', () => {
    const state = given(crew, OTHER, seated('M-300', 'E6-1'), { do: 'hand-over', to: 'M-300' })
      .when({ do: 'open-tour', tour: 'T-C', platoon: 'C', officer: 'M-300', on: '2026-11-25' })
      .records('tour-opened', {
        tour: 'T-C',
        platoon: 'C',
        officer: 'M-300',
        on: '2026-11-25',
        relieved: [],
      })
    expect(state.ridingLists.get('C')).toEqual(new Map([['E6-1', 'M-300']]))
    expect(state.ridingLists.get('B')).toEqual(new Map([['E6-1', 'M-104']]))
  })

  test.each([
    [seated('M-104', 'E6-9'), 'There is no riding position E6-9 in this station.'],
    [seated('M-9', 'E6-2'), 'There is no member M-9 in this station.'],
    [seated(), 'A. Varga already rides at E6-1.'],
    [seated('M-104', 'E6-2'), 'A. Varga already rides at E6-1: nobody rides twice. Clear E6-1 first.'],
  ])('seating is refused: %#', (command, words) => {
    given(crew).when(command).refuses(words).changesNothing()
  })
})

describe('clear-seat', () => {
  test('the member leaves, and the answer leaves with them', () => {
    const state = given(crew, { do: 'answer', seat: 'E6-1' })
      .when(clear('E6-1'))
      .records('seat-cleared', { seat: 'E6-1', member: 'M-104' })
    expect(state.seats.get('E6-1')?.member).toBeNull()
    expect(memberIn(state, 'M-104').seat).toBeNull()
    expect(state.tour?.answers.has('E6-1')).toBe(false)
  })

  test.each([
    ['E6-9', 'There is no riding position E6-9 in this station.'],
    ['E6-2', 'Nobody rides at E6-2.'],
  ])('clearing %s is refused', (seat, words) => {
    given(crew).when(clear(seat)).refuses(words).changesNothing()
  })
})

const finding = (element: string) => ({ element, point: 'sole separation', matter: 'safety' as const })

const answer = (seat: string, ...findings: object[]) => ({ do: 'answer', seat, findings })

describe('answer', () => {
  test('no findings: all serviceable', () => {
    const state = given(crew).when({ do: 'answer', seat: 'E6-1' }).records('seat-answered', {
      seat: 'E6-1',
      member: 'M-104',
      tour: '2026-11-24-B',
      findings: [],
    })
    expect(state.tour?.answers.get('E6-1')).toEqual({
      seq: state.seq,
      at: NOW,
      by: 'M-104',
      member: 'M-104',
      findings: [],
    })
  })

  test('a finding tags its element, of the member or of the riding position', () => {
    const findings = [finding('C-1041'), finding('Y-31')]
    const state = given(crew)
      .when(answer('E6-1', ...findings))
      .records('seat-answered', { seat: 'E6-1', member: 'M-104', tour: '2026-11-24-B', findings })
    for (const id of ['C-1041', 'Y-31']) {
      expect(elementIn(state, id).tags).toEqual([
        { seq: state.seq, at: NOW, by: 'M-104', reason: 'sole separation', matter: 'safety' },
      ])
    }
  })

  test('a spare that stands in answers; the element it relieved does not', () => {
    given(crew, swap('E6-1', 'C-1900', 'C-1041'))
      .when(answer('E6-1', finding('C-1041')))
      .refuses('Coat shell C-1041 is not at E6-1. Nothing was recorded.')
    given(crew, swap('E6-1', 'C-1900', 'C-1041'))
      .when(answer('E6-1', finding('C-1900')))
      .records('seat-answered', {
        seat: 'E6-1',
        member: 'M-104',
        tour: '2026-11-24-B',
        findings: [finding('C-1900')],
      })
  })

  test.each([
    [crew, [], answer('E6-9'), 'There is no riding position E6-9 in this station.'],
    [house, [], answer('E6-1'), 'No tour is open. Open the tour first.'],
    [crew, [], answer('E6-2'), 'Nobody rides at E6-2: there is nobody to answer.'],
    [
      crew,
      [],
      answer('E6-1', finding('C-7')),
      'There is no element C-7 in this station. Nothing was recorded.',
    ],
    [
      crew,
      [],
      answer('E6-1', finding('H-5'), finding('C-1900')),
      'Coat shell C-1900 is not at E6-1. Nothing was recorded.',
    ],
    [
      crew,
      [sentAway('C-1041')],
      answer('E6-1', finding('C-1041')),
      'Coat shell C-1041 is not at E6-1. Nothing was recorded.',
    ],
  ])('answering is refused: %#', (start, more, command, words) => {
    given(start, more).when(command).refuses(words).changesNothing()
  })
})
