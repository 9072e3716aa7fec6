// Deadlines in groups: every one is in exactly one group, whatever they are grouped by.
import { describe, expect, test } from 'vitest'
import { forecast } from '../../../src/domain/forecast/deadlines.ts'
import { groupsOf, GROUPINGS, monthsBetween } from '../../../src/domain/forecast/groups.ts'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { usual } from '../../demo-station.ts'

const { state, at } = usual()
const seen = forecast(state, policyOf(state), at, 365)

describe.each(GROUPINGS)('by %s', (by) => {
  const groups = groupsOf(seen, by)

  test('none is lost and none is there twice', () => {
    expect(new Set(groups.map((each) => each.key)).size).toBe(groups.length)
    const all = groups.flatMap((each) => each.ahead)
    expect(all).toHaveLength(seen.ahead.length)
    expect(new Set(all).size).toBe(seen.ahead.length)
  })

  test('counts the ends of life in each', () => {
    const ends = groups.map((each) => each.ahead.filter(({ need }) => need === 'replacement').length)
    expect(groups.map((each) => each.replacements)).toEqual(ends)
  })
})

test.each(['kind', 'member'] as const)('by %s, what is past is counted beside what comes', (by) => {
  const past = groupsOf(seen, by).reduce((sum, each) => sum + each.past, 0)
  expect(past).toBe(seen.past.length)
})

test.each(['day', 'month'] as const)('by %s, what is past is no day ahead', (by) => {
  expect(groupsOf(seen, by).every((each) => each.past === 0 && each.key >= at.slice(0, 7))).toBe(true)
})

test('a month without a deadline is shown, so that the plot has no gap', () => {
  const months = groupsOf(seen, 'month').map((each) => each.key)
  expect(months).toEqual(monthsBetween('2026-11-25', '2027-11-25'))
  expect(months).toHaveLength(13)
})

test.each([
  ['2026-11-25', '2026-11-25', ['2026-11']],
  ['2026-12-31', '2027-01-01', ['2026-12', '2027-01']],
  ['2026-11-30', '2026-11-29', ['2026-11']],
])('the months from %s to %s', (from, until, months) => {
  expect(monthsBetween(from, until)).toEqual(months)
})

test('the rack comes last of all holders', () => {
  expect(groupsOf(seen, 'member').at(-1)).toMatchObject({ key: 'rack', label: 'On the rack' })
})
