// The budget: what ends its life in each year is replaced once, and money stands only where a price does.
import { describe, expect, test } from 'vitest'
import { budgetOf, pricesShape } from '../../../src/domain/forecast/budget.ts'
import { forecast } from '../../../src/domain/forecast/deadlines.ts'
import { layOver, policyOf } from '../../../src/domain/policy/in-force.ts'
import { BASES } from '../../../src/domain/policy/bases.ts'
import type { Rule } from '../../../src/domain/policy/shape.ts'
import { coat, hood } from '../alder-hollow.ts'
import { NOW, stateOf, type Steps } from '../given.ts'

const TEN_YEARS = 3_653
/** Ends of life on 1 January 2027, 1 December 2027, 1 March 2029 twice, 1 January 2026, and one nobody knows. */
const RACK = [
  coat('C-1', { made: '2017-01' }),
  coat('C-2', { made: '2017-12' }),
  coat('C-3'),
  hood('H-1'),
  coat('C-4', { made: '2016-01' }),
  coat('C-5', { made: undefined }),
] as const satisfies Steps
const budget = (prices?: object) => {
  const state = stateOf(RACK)
  return budgetOf(forecast(state, policyOf(state), NOW, TEN_YEARS), prices && pricesShape.parse(prices))
}

test('each element is in the year in which its life ends, what is past apart', () => {
  const { years, count, undated } = budget()
  expect(years.flatMap((each) => (each.count ? [[each.year, each.lines]] : []))).toEqual([
    ['past', [{ kind: 'coat-shell', count: 1 }]],
    ['2027', [{ kind: 'coat-shell', count: 2 }]],
    [
      '2029',
      [
        { kind: 'coat-shell', count: 1 },
        { kind: 'hood', count: 1 },
      ],
    ],
  ])
  expect([count, undated]).toEqual([5, 1])
})

test('every year is there, so that a year without a cost is seen', () => {
  const years = budget().years.map((each) => each.year)
  expect(years).toEqual(['past', ...Array.from({ length: 11 }, (_, index) => String(2026 + index))])
})

describe('with a price list', () => {
  test('prices add up to the cent, and a kind without a price is named', () => {
    const { years, cost, unpriced } = budget({ currency: 'USD', prices: { 'coat-shell': 0.1 } })
    expect(years.find((each) => each.year === '2027')).toMatchObject({ cost: 0.2 })
    expect([cost, unpriced]).toEqual([0.4, ['hood']])
  })

  test('without one there is no money at all', () => {
    expect(JSON.stringify(budget())).not.toMatch(/cost|currency/)
  })

  test.each([
    ['a price below nothing', { currency: 'USD', prices: { hood: -1 } }],
    ['a kind that is none', { currency: 'USD', prices: { cape: 1 } }],
    ['no currency', { prices: { hood: 1 } }],
  ])('%s is refused', (_, list) => {
    expect(pricesShape.safeParse(list).success).toBe(false)
  })
})

test('an element that two rules end is replaced once, at the sooner', () => {
  const base = BASES.get('nfpa-1851-2020')!
  const life = base.rules.find((rule) => rule.id === 'structural-service-life') as Rule
  const shorter = { ...life, id: 'our-own-life', limit: 'P9Y', reason: 'our own' }
  const policy = layOver(base, { name: 'Larch Hill', changes: [], add: [shorter] })
  const { years } = budgetOf(forecast(stateOf(coat('C-3')), policy, NOW, TEN_YEARS))
  expect(years.flatMap((each) => (each.count ? [[each.year, each.count]] : []))).toEqual([['2028', 1]])
})
