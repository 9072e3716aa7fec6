// The exposures that the books keep: the newest of each sort, folded in one by one as if all were looked at again.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { addExposure, KEPT } from '../../src/domain/evolve/kept.ts'
import { isNewer, type ExposureRecord } from '../../src/domain/state.ts'
import { isLater } from '../../src/domain/time.ts'

const at = fc.constantFrom(
  '2026-11-20T07:02:11.482-05:00',
  '2026-11-20T07:02:11.483-05:00',
  '2026-11-20T12:02:11.482+00:00',
  '2026-11-20T12:02:11.482Z',
  '2026-11-20T06:30:00.000-05:00',
  '2026-11-20T11:29:59.999+00:00',
  '2026-11-20T07:02:11-05:00',
)
const record: fc.Arbitrary<ExposureRecord> = fc.record({
  at,
  by: fc.constant('M-104'),
  seq: fc.integer({ min: 1, max: 40 }),
  exposure: fc.constantFrom('products-of-combustion' as const, 'body-fluids' as const),
})

/** Each of them stays that has fewer than so many newer ones of its sort. */
const keptOf = (records: ExposureRecord[]): ExposureRecord[] =>
  records.filter((each) => {
    const newer = records.filter((other) => other.exposure === each.exposure && isNewer(other, each))
    return newer.length < KEPT
  })

test('in whatever order they are entered, and also where one event names an element twice', () => {
  fc.assert(
    fc.property(fc.array(record, { maxLength: 60 }), (records) => {
      const kept: ExposureRecord[] = []
      for (const each of records) {
        const whole = keptOf([...kept, each])
        addExposure(kept, each)
        expect(kept).toEqual(whole)
      }
    }),
    { numRuns: 300 },
  )
})

test('an instant is later than another by the clock and not by its letters', () => {
  fc.assert(
    fc.property(at, at, (one, other) => {
      expect(isLater(one, other)).toBe(Date.parse(one) > Date.parse(other))
    }),
  )
})
