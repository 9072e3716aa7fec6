// The cares that the books keep: one more is folded in as if all had been put in order again.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { addCare, KEPT, keepCares } from '../../src/domain/evolve/kept.ts'
import type { CareRecord } from '../../src/domain/state.ts'

const record: fc.Arbitrary<Omit<CareRecord, 'seq'>> = fc.record({
  at: fc.constant('2026-11-24T07:02:11.482-05:00'),
  by: fc.constant('M-104'),
  care: fc.constantFrom('drying' as const, 'advanced-cleaning' as const, 'repair' as const),
  on: fc.constantFrom('2026-11-20', '2026-11-21', '2026-11-22', '2026-01-01'),
  result: fc.constantFrom('serviceable' as const, 'unserviceable' as const),
})

test('in whatever order they are entered, and however many', () => {
  fc.assert(
    fc.property(fc.array(record, { maxLength: 60 }), fc.boolean(), (records, isTurned) => {
      const seqs = records.map((_, at) => (isTurned ? records.length - at : at + 1))
      const kept: CareRecord[] = []
      records.forEach((each, at) => {
        const care = { ...each, seq: seqs[at]! }
        const whole = keepCares([...kept, care])
        addCare(kept, care)
        expect(kept).toEqual(whole)
      })
      for (const care of ['drying', 'repair']) {
        expect(kept.filter((each) => each.care === care).length).toBeLessThanOrEqual(KEPT)
      }
    }),
    { numRuns: 200 },
  )
})
