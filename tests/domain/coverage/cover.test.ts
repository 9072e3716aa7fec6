// The fewest sets that hold everything: against every selection there is, and where the first guess is wrong.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { smallestCover } from '../../../src/domain/coverage/cover.ts'

const wantedBy = (sets: readonly ReadonlySet<number>[]): number[] => [
  ...new Set(sets.flatMap((set) => [...set])),
]

/** By looking at every selection. */
function fewest(wanted: readonly number[], sets: readonly ReadonlySet<number>[]): number {
  const counts = Array.from({ length: 2 ** sets.length }, (_, bits) => {
    const taken = sets.filter((_set, at) => bits & (1 << at))
    return wanted.every((each) => taken.some((set) => set.has(each))) ? taken.length : Infinity
  })
  return Math.min(...counts)
}

test('it is as small as the smallest of all selections, and holds everything', () => {
  const anySet = fc.uniqueArray(fc.nat(7), { minLength: 1, maxLength: 4 }).map((each) => new Set(each))
  fc.assert(
    fc.property(fc.array(anySet, { minLength: 1, maxLength: 8 }), (sets) => {
      const wanted = wantedBy(sets)
      const { taken, isProven } = smallestCover(wanted, sets)
      expect(wanted.every((each) => taken.some((at) => sets[at]!.has(each)))).toBe(true)
      expect([taken.length, isProven]).toEqual([fewest(wanted, sets), true])
    }),
    { numRuns: 1000, seed: 3 },
  )
})

// Source: the standard example on which taking the largest set first is wrong (Chvatal 1979 and textbooks after it), from memory.
test('two rows beat the three sets that taking the largest first would give', () => {
  const sets = [
    [0, 1, 2, 3, 7, 8, 9, 10],
    [4, 5, 11, 12],
    [6, 13],
    [0, 1, 2, 3, 4, 5, 6],
    [7, 8, 9, 10, 11, 12, 13],
  ]
  const given = sets.map((each) => new Set(each))
  expect(smallestCover(wantedBy(given), given)).toEqual({ taken: [3, 4], isProven: true })
})

test('with nothing wanted nothing is taken', () => {
  expect(smallestCover([], [new Set([1])])).toEqual({ taken: [], isProven: true })
})
