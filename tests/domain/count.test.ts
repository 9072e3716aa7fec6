// Words agree with the number before them, wherever something is counted or listed.
import { describe, expect, test } from 'vitest'
import { count, listed, toMend } from '../../src/domain/count.ts'
import { tell } from '../../src/domain/tell.ts'
import { spareFault } from '../../src/domain/decide/crew.ts'
import { budgetOf } from '../../src/domain/forecast/budget.ts'
import type { Event } from '../../src/domain/events.ts'
import { fitCrew, sendsAway } from './fit-crew.ts'

test.each([
  [0, '0 swaps'],
  [1, '1 swap'],
  [2, '2 swaps'],
])('%i is %s', (number, words) => expect(count(number, 'swap')).toBe(words))

test('a noun with another plural names it, and a verb goes with it', () => {
  expect([count(1, 'row is', 'rows are'), count(2, 'row is', 'rows are')]).toEqual(['1 row is', '2 rows are'])
})

test('a list has one "and", before its last name', () => {
  expect([listed([]), listed(['A']), listed(['A', 'B']), listed(['A', 'B', 'C'])]).toEqual([
    '',
    'A',
    'A and B',
    'A, B and C',
  ])
})

test('one fault is put right as it, several as them', () => {
  expect(toMend(1, 'import')).toBe('Put it right and import it again.')
  expect(toMend(2, 'import')).toBe('Put them right and import it again.')
})

describe('what is told of a correction', () => {
  const amended = (was: object, now: object, why = 'misread.'): string =>
    tell(
      {
        seq: 9,
        at: '2026-11-24T07:00:00.000-05:00',
        by: 'M-104',
        type: 'event-amended',
        data: { seq: 7, type: 'note-made', subject: '', why, was, with: now },
      } as unknown as Event,
      fitCrew(),
    )
  test('has one full stop where the words have their own', () => {
    expect(amended({ text: 'Hose bed checked.' }, { text: 'Hose bed loaded.' })).toBe(
      'Amended event 7: text Hose bed loaded, was Hose bed checked. misread.',
    )
  })
  test('names a field in words, and measures without braces', () => {
    expect(amended({ inService: null }, { inService: '2026-01-01' })).toContain(
      'in service 2026-01-01, was nothing',
    )
    expect(amended({ sizes: { coat: '44x32' } }, { sizes: { coat: '46x32' } })).toContain(
      'size of coat 46x32, was 44x32',
    )
    const [model, size] = ['Model-1', 'M']
    expect(amended({ facepiece: { model, size } }, { facepiece: { model, size: 'L' } })).toContain(
      'Amended event 7: size of the facepiece L, was M. misread.',
    )
  })
})

test('of what is away nobody is told that it is in its place', () => {
  const state = fitCrew(sendsAway('BO-1'))
  expect(spareFault(state, state.elements.get('BO-1')!, 'M-104')).toMatch(/^Boots BO-1 is away at /)
})

describe('a budget', () => {
  const end = (element: string, kind: 'hood' | 'helmet') => ({
    element,
    kind,
    on: '2027-03-01',
    need: 'replacement',
  })
  const forecast = (...ahead: object[]) =>
    ({ past: [], ahead, undated: [], from: '2026-11-24', until: '2028-11-24' }) as unknown as Parameters<
      typeof budgetOf
    >[0]
  const prices = { currency: 'USD', prices: { helmet: 350 } }

  test('names no sum where nothing that ends has a price', () => {
    const { years, cost, unpriced } = budgetOf(forecast(end('K-1', 'hood')), prices)
    expect(years.find((each) => each.year === '2027')).not.toHaveProperty('cost')
    expect([cost, unpriced]).toEqual([undefined, ['hood']])
  })
  test('sums what has a price beside what has none, and has nothing to pay where nothing ends', () => {
    const { years, cost } = budgetOf(forecast(end('K-1', 'hood'), end('H-1', 'helmet')), prices)
    expect(years.find((each) => each.year === '2027')!.cost).toBe(350)
    expect(years.find((each) => each.year === '2028')!.cost).toBe(0)
    expect(cost).toBe(350)
  })
})
