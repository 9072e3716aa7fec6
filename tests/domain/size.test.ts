// How sizes on labels compare: what is read, what may be larger, and that what cannot be read never fits.
import { assert, constantFrom, integer, property, string } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareSize, sayFit, type Fit } from '../../src/domain/size.ts'

describe('a size against the size wanted', () => {
  it.each<[have: string, want: string, over: number[], fit: Fit]>([
    ['44x32', '44x32', [2, 2], 'exact'],
    ['44 X 32', '44x32', [0, 0], 'exact'],
    ['44*32', '44×32', [], 'exact'],
    ['44/32', '44x32', [], 'exact'],
    ['11.0D', '11D', [], 'exact'],
    ['46x32', '44x32', [2, 2], 'larger'],
    ['46x34', '44x32', [2, 2], 'larger'],
    ['46.5x32', '44x32', [2, 2], 'wrong'],
    ['46x35', '44x32', [2, 2], 'wrong'],
    ['43x32', '44x32', [2, 2], 'wrong'],
    ['46x31', '44x32', [2, 2], 'wrong'],
    ['46x32', '44x32', [], 'wrong'],
    ['44x32x36', '44x32x34', [2, 2], 'wrong'],
    ['44x32x36', '44x32x34', [2, 2, 2], 'larger'],
    ['44', '44x32', [2, 2], 'wrong'],
    ['11.5D', '11D', [0.5], 'larger'],
    ['11.5E', '11D', [0.5], 'wrong'],
    ['12D', '11D', [0.5], 'wrong'],
    ['76W', '76w', [0], 'exact'],
    ['76N', '76W', [0], 'wrong'],
    ['XL', 'L', [2], 'wrong'],
    ['xl', 'XL', [], 'exact'],
    ['XXL', 'XL', [2], 'wrong'],
    ['large', 'LARGE', [], 'exact'],
    ['?', '44x32', [2, 2], 'wrong'],
  ])('%s for %s with %j to spare is %s', (have, want, over, fit) => {
    expect(compareSize(have, want, over)).toBe(fit)
  })

  it('is said in words', () => {
    expect(['exact', 'larger', 'wrong'].map((fit) => sayFit(fit as Fit))).toEqual([
      'fits',
      'is larger but allowed for',
      'does not fit',
    ])
  })
})

describe('a size written with parts of inches, or with more than a size', () => {
  it.each<[string, string, number[], Fit]>([
    ['11.25D', '11D', [0.5], 'larger'],
    ['44x32.25', '44x32', [2, 0.25], 'larger'],
    ['44x32x34.75', '44x32x34.5', [0, 0, 0.25], 'larger'],
    ['44x32.5', '44x32.25', [0, 0.25], 'larger'],
    ['44x32.25x34', '44x32x34', [0, 0.25, 0], 'larger'],
    ['tall 46x32', 'tall 44x32', [2, 2], 'wrong'],
    ['46x32 (short)', '44x32 (short)', [2, 2], 'wrong'],
    ['  4 4 x 32', '44x32', [], 'exact'],
  ])('%s for %s within %j is %s', (have, want, over, fit) => {
    expect(compareSize(have, want, over)).toBe(fit)
  })
})

describe('any size', () => {
  it('that is smaller in any number is wrong, however much may be larger', () => {
    const inches = integer({ min: 28, max: 60 })
    const less = constantFrom([2, 0], [0, 1], [3, 3])
    assert(
      property(inches, inches, less, (chest, length, [a, b]) => {
        expect(compareSize(`${chest - a!}x${length - b!}`, `${chest}x${length}`, [99, 99])).toBe('wrong')
      }),
    )
  })

  it('is exact for itself, and never larger when nothing may be', () => {
    assert(
      property(string(), string(), (have, want) => {
        expect(compareSize(have, have, [])).toBe('exact')
        expect(compareSize(have, want, [])).not.toBe('larger')
      }),
    )
  })
})
