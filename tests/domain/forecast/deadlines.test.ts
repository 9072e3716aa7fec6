// What comes due and when: each date is its rule's own, on both sides of the day it falls.
import { describe, expect, test } from 'vitest'
import { forecast, type Forecast } from '../../../src/domain/forecast/deadlines.ts'
import { layOver, policyOf } from '../../../src/domain/policy/in-force.ts'
import { BASES } from '../../../src/domain/policy/bases.ts'
import type { Overlay } from '../../../src/domain/policy/shape.ts'
import { addDays } from '../../../src/domain/time.ts'
import { usual } from '../../demo-station.ts'
import { cared, coat, held, house, issue, members, retired, sentAway } from '../alder-hollow.ts'
import { NOW, stateOf, TODAY, type Steps } from '../given.ts'

const on = (date: string): string => `${date}T12:00:00.000-05:00`
const seen = (days: number, ...steps: Steps): Forecast => {
  const state = stateOf(...steps)
  return forecast(state, policyOf(state), NOW, days)
}
const of = (list: readonly { element: string | null; rule: string; on?: string }[], element: string) =>
  list.filter((each) => each.element === element).map(({ rule, on }) => [rule, on])

describe('a coat shell labelled 2019-03, in service and never cleaned', () => {
  test('ends its life on the first day of March ten years on', () => {
    const { ahead } = seen(3_000, house)
    const life = ahead.find((each) => each.element === 'C-1041' && each.need === 'replacement')
    expect(life).toMatchObject({
      rule: 'structural-service-life',
      on: '2029-03-01',
      lastGood: '2029-02-28',
      holder: 'M-104',
      holderName: 'A. Varga',
      where: 'issued',
      matter: 'compliance',
    })
  })

  test('is past its first cleaning, which fell six months after its issue', () => {
    expect(of(seen(0, house).past, 'C-1041')).toContainEqual(['advanced-cleaning-interval', '2020-12-01'])
  })

  test('is cleaned: the interval runs from that day', () => {
    const { past, ahead } = seen(365, house, cared('2026-11-20'))
    expect(of(past, 'C-1041').map(([rule]) => rule)).not.toContain('advanced-cleaning-interval')
    expect(of(ahead, 'C-1041')).toContainEqual(['advanced-cleaning-interval', '2027-05-20'])
  })
})

test.each([
  ['a day less far than the limit', 176, 0],
  ['as far as the limit', 177, 1],
])('looking %s, which falls in 177 days: %i days', (_, days, count) => {
  const { ahead, beyond } = seen(days, house, cared('2026-11-20'))
  expect(of(ahead, 'C-1041').filter(([rule]) => rule === 'advanced-cleaning-interval')).toHaveLength(count)
  expect(beyond).toBeGreaterThan(0)
})

test('what was never issued has no interval running, and its life runs all the same', () => {
  const { past, ahead, undated } = seen(3_000, house)
  expect([...of(past, 'C-1900'), ...of(ahead, 'C-1900'), ...of(undated, 'C-1900')]).toEqual([
    ['structural-service-life', '2029-03-01'],
  ])
})

test('no month of manufacture: no day is given, and it is said', () => {
  const { past, ahead, undated } = seen(9_999, members, coat('C-7', { made: undefined }))
  expect(of([...past, ...ahead], 'C-7')).toEqual([])
  expect(undated).toMatchObject([
    {
      element: 'C-7',
      need: 'replacement',
      says: 'it has no date of manufacture',
      holder: null,
      where: 'rack',
    },
  ])
})

test.each([
  ['retired', retired('C-1041'), 0],
  ['held as evidence', held('C-1041'), 0],
  ['away to be cleaned', sentAway('C-1041'), 1],
])('what is %s', (_, step, count) => {
  const { past, ahead } = seen(9_999, house, step)
  expect(
    new Set([...past, ...ahead].flatMap((each) => (each.element === 'C-1041' ? each.element : []))),
  ).toHaveProperty('size', count)
})

test("a fit test is its member's, on duty or off, and of the facepiece they have", () => {
  const mask = { model: 'Clear Two', size: 'M' }
  const given = [
    house,
    { do: 'add-element', element: { id: 'F-1', kind: 'facepiece', ...mask } },
    { do: 'add-element', element: { id: 'F-2', kind: 'facepiece', ...mask } },
    issue('F-1', 'M-207'),
    issue('F-2', 'M-207'),
    { do: 'record-fit-test', member: 'M-207', facepiece: mask, on: '2026-02-01', result: 'pass' },
  ] as const satisfies Steps
  const tests = seen(365, ...given).ahead.filter((each) => each.need === 'fit-test')
  expect(tests).toMatchObject([{ element: 'F-1', holder: 'M-207', on: '2027-02-01', lastGood: '2027-02-01' }])
})

describe('the fit test of a member without a facepiece', () => {
  const mask = (size: string) => ({ model: 'Clear Two', size })
  const tested = (size: string, on: string, result: 'pass' | 'fail' = 'pass') =>
    ({ do: 'record-fit-test', member: 'M-207', facepiece: mask(size), on, result }) as const
  const fitTests = (...steps: Steps) => {
    const all = seen(365, members, ...steps)
    return [...all.past, ...all.ahead, ...all.undated].filter((each) => each.need === 'fit-test')
  }
  const given = tested('M', '2026-02-01')

  test('runs out all the same, and is its member’s', () => {
    expect(fitTests(given)).toMatchObject([
      { element: null, where: null, holder: 'M-207', on: '2027-02-01', lastGood: '2027-02-01' },
    ])
  })

  test('is the newest of several, so that each member has one', () => {
    expect(fitTests(tested('L', '2025-06-01'), given)).toMatchObject([{ on: '2027-02-01' }])
    expect(fitTests(given, tested('M', '2026-03-01', 'fail'))).toMatchObject([
      { says: expect.stringContaining('failed the fit test') },
    ])
  })

  test('is that of the facepiece from the moment they have one', () => {
    const facepiece = { id: 'F-1', kind: 'facepiece', ...mask('M') } as const
    const got: Steps = [{ do: 'add-element', element: facepiece }, issue('F-1', 'M-207')]
    expect(fitTests(given, ...got)).toMatchObject([{ element: 'F-1', on: '2027-02-01' }])
  })

  test('of a member who was never tested is none that comes due', () => {
    expect(fitTests()).toEqual([])
  })
})

test('a rule the department switched off gives no day, and a looser one says so', () => {
  const state = stateOf(house, cared('2026-11-20'))
  const overlay: Overlay = {
    name: 'Larch Hill',
    changes: [
      { id: 'structural-service-life', off: true, reason: 'under review' },
      { id: 'advanced-cleaning-interval', limit: 'P8M', reason: 'one washer for two stations' },
    ],
    add: [],
  }
  const { past, ahead } = forecast(state, layOver(BASES.get('nfpa-1851-2020')!, overlay), NOW, 9_999)
  const all = [...past, ...ahead]
  expect(all.filter((each) => each.rule === 'structural-service-life')).toEqual([])
  expect(all.find((each) => each.element === 'C-1041' && each.need === 'advanced-cleaning')).toMatchObject({
    on: '2027-07-20',
    looser: true,
  })
})

test('lists the oldest and the nearest first', () => {
  const { past, ahead } = seen(9_999, house, cared('2026-11-20'))
  for (const list of [past, ahead]) {
    expect(list.length).toBeGreaterThan(1)
    expect(list.map((each) => each.on)).toEqual(list.map((each) => each.on).toSorted())
  }
  expect(ahead.every((each) => each.lastGood >= TODAY)).toBe(true)
})

test('every deadline of a whole station is ahead through its last good day, and past the day after', () => {
  const { state, at } = usual()
  const policy = policyOf(state)
  const { ahead } = forecast(state, policy, at, 400)
  expect(ahead.length).toBeGreaterThan(500)
  // Every seventh of the days: each is looked at on both of its sides.
  const days = [...new Set(ahead.map((each) => each.lastGood))].filter((_, index) => index % 7 === 0)
  const key = ({ element, rule, holder }: (typeof ahead)[0]): string => `${element} ${rule} ${holder}`
  for (const day of days) {
    const due = ahead.filter((each) => each.lastGood === day).map(key)
    const still = new Set(forecast(state, policy, on(day), 1).ahead.map(key))
    const gone = new Set(forecast(state, policy, on(addDays(day, 1)), 0).past.map(key))
    expect(due.filter((each) => !still.has(each))).toEqual([])
    expect(due.filter((each) => !gone.has(each))).toEqual([])
  }
})
