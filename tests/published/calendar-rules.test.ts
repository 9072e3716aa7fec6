// The last good day of each rule that counts days, worked out by Temporal, a calendar written by others, on thousands of cases.
import { assert, integer, property } from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import { cared, gear, ruleOf, tested, verdictOf, wearer } from '../domain/rules/judging.ts'
import { dates, PATIENCE_MS, two } from './calendar-dates.ts'

describe('the last good day of a rule', () => {
  const limitOf = (rule: string) => Temporal.Duration.from(String(ruleOf(rule).limit))
  const stateOn = (rule: string, element: ReturnType<typeof gear>, today: Temporal.PlainDate) =>
    verdictOf(rule, element, { today: today.toString() })!.state
  /** The day before the warning, its first day, the last good day, and the day after. */
  const around = (rule: string, last: Temporal.PlainDate, falls: Temporal.PlainDate) => {
    const first = falls.subtract(Temporal.Duration.from(ruleOf(rule).warn!))
    return [first.subtract({ days: 1 }), first, last, last.add({ days: 1 })]
  }

  it(
    'of a service life is the day before ten years from the first of the label month',
    () => {
      assert(
        property(integer({ min: 1990, max: 2100 }), integer({ min: 1, max: 12 }), (year, month) => {
          const falls = Temporal.PlainDate.from({ year, month, day: 1 }).add(
            limitOf('structural-service-life'),
          )
          const days = around('structural-service-life', falls.subtract({ days: 1 }), falls)
          const element = gear('helmet', { made: `${year}-${two(month)}` })
          const states = days.map((day) => stateOn('structural-service-life', element, day))
          expect(states).toEqual(['ready', 'due', 'due', 'expired'])
        }),
        { numRuns: 1000 },
      )
    },
    PATIENCE_MS,
  )

  it.each([
    ['advanced-inspection-interval', 'hood', 'advanced-inspection'],
    ['advanced-cleaning-interval', 'gloves', 'advanced-cleaning'],
    ['flow-test-interval', 'air-pack', 'flow-test'],
    ['complete-liner-inspection-interval', 'coat-liner', 'complete-liner-inspection'],
  ] as const)(
    'of %s is the day its interval falls, clipped to the month',
    (rule, kind, care) => {
      assert(
        property(dates, (on) => {
          const falls = Temporal.PlainDate.from(on).add(limitOf(rule))
          const element = gear(kind, { cares: [cared(care, on)], issuedOn: '1940-01-01' })
          const states = around(rule, falls, falls).map((day) => stateOn(rule, element, day))
          expect(states).toEqual(['ready', 'due', 'due', 'expired'])
        }),
        { numRuns: 1500 },
      )
    },
    PATIENCE_MS,
  )

  it(
    'of the monthly inspection of breathing apparatus is the same day of the next month, or its last',
    () => {
      const rule = 'breathing-apparatus-monthly-inspection'
      assert(
        property(dates, (on) => {
          const falls = Temporal.PlainDate.from(on).add({ months: 1 }, { overflow: 'constrain' })
          const pack = gear('air-pack', { cares: [cared('routine-inspection', on)] })
          expect([falls, falls.add({ days: 1 })].map((day) => stateOn(rule, pack, day))).toEqual([
            'ready',
            'due',
          ])
        }),
        { numRuns: 1500 },
      )
    },
    PATIENCE_MS,
  )

  it(
    'of a fit test is its anniversary, and of one on 29 February the 28th',
    () => {
      const mask = gear('facepiece', { model: 'Clear Two', size: 'M' })
      assert(
        property(dates, (on) => {
          const worn = wearer([], { fitTests: [tested(on)] })
          const falls = Temporal.PlainDate.from(on).add({ years: 1 }, { overflow: 'constrain' })
          const states = [falls, falls.add({ days: 1 })].map(
            (day) => verdictOf('fit-test', mask, { today: day.toString() }, worn)!.state,
          )
          expect(states).toEqual(['due', 'expired'])
        }),
        { numRuns: 1500 },
      )
    },
    PATIENCE_MS,
  )
})
