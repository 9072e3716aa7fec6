// The published rotations: their patterns and offsets, and the arithmetic that every day is covered exactly once.
import { describe, expect, it } from 'vitest'
import { ROTATIONS } from '../../src/domain/rotation.ts'

// Published rotation patterns, X on and O off (10/14: D ten-hour days, N fourteen-hour nights).
const PUBLISHED: Record<string, { days: number; pattern: string; offsets: number[] }> = {
  '24/48': { days: 3, pattern: 'X O O', offsets: [0, 1, 2] },
  '48/96': { days: 6, pattern: 'X X O O O O', offsets: [0, 2, 4] },
  'nine-day': { days: 9, pattern: 'X O X O X O O O O', offsets: [0, 3, 6] },
  '24/72': { days: 4, pattern: 'X O O O', offsets: [0, 1, 2, 3] },
  '1-1-1-5': { days: 8, pattern: 'X O X O O O O O', offsets: [0, 1, 4, 5] },
  '48/144': { days: 8, pattern: 'X X O O O O O O', offsets: [0, 2, 4, 6] },
  '10/14': { days: 8, pattern: 'D D N N O O O O', offsets: [0, 2, 4, 6] },
}

describe('the rotations', () => {
  it('are the published ones and no others', () => {
    const shipped = Object.entries(ROTATIONS).map(([name, { pattern, offsets }]) => [
      name,
      { days: pattern.length, pattern: [...pattern].join(' '), offsets },
    ])
    expect(Object.fromEntries(shipped)).toEqual(PUBLISHED)
  })

  it.each(Object.entries(PUBLISHED))(
    '%s covers each day of its round once',
    (_name, { days, pattern, offsets }) => {
      const letters = pattern.split(' ')
      for (const letter of new Set(letters.filter((each) => each !== 'O'))) {
        // Counted here without the program: on which days of the round each platoon works this letter.
        const worked = offsets.flatMap((offset) =>
          letters.flatMap((each, day) => (each === letter ? [(day + offset) % days] : [])),
        )
        expect(worked.toSorted((a, b) => a - b)).toEqual(letters.map((_, day) => day))
      }
    },
  )
})
