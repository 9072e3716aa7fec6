// Compares sizes as labels write them; a size it cannot read never fits unless it is written the same.

import { factsOf, type Kind } from './kinds.ts'

/** Exact; larger within what the policy allows; or wrong. Smaller than measured is always wrong. */
export type Fit = 'exact' | 'larger' | 'wrong'

const normal = (size: string): string => size.toUpperCase().replace(/\s+/g, '').replaceAll(/[*×/]/g, 'X')

/** `44x32` is 44 and 32; `11.5D` is 11.5 with width D; `L` is only itself. */
function partsOf(size: string): { numbers: number[]; letters: string } | undefined {
  const text = normal(size)
  const parts = /^(\d+(?:\.\d+)?)(?:X(\d+(?:\.\d+)?))?(?:X(\d+(?:\.\d+)?))?([A-WYZ]{0,4})$/.exec(text)
  if (!parts) return undefined
  return {
    numbers: parts.slice(1, 4).flatMap((part) => (part ? [Number(part)] : [])),
    letters: parts[4] ?? '',
  }
}

/**
 * @param over how far each number may exceed the wearer's: `[2, 2]` for chest and length in inches
 * @example compareSize('46x32', '44x32', [2, 2]) // 'larger'
 */
export function compareSize(size: string, wanted: string, over: readonly number[]): Fit {
  if (size === wanted || normal(size) === normal(wanted)) return 'exact'
  const [have, want] = [partsOf(size), partsOf(wanted)]
  if (!have || !want || have.letters !== want.letters || have.numbers.length !== want.numbers.length)
    return 'wrong'
  const more = have.numbers.map((number, index) => number - want.numbers[index]!)
  if (more.every((each) => each === 0)) return 'exact'
  return more.every((each, index) => each >= 0 && each <= (over[index] ?? 0)) ? 'larger' : 'wrong'
}

export const sayFit = (fit: Fit): string =>
  fit === 'exact' ? 'fits' : fit === 'larger' ? 'is larger but allowed for' : 'does not fit'

/** Is a size written as sizes of this kind are? True where the kind has no sizes to be read. */
export const isSizeOf = (kind: Kind, size: string): boolean => {
  const { sizes } = factsOf(kind)
  return !sizes || new RegExp(sizes.pattern).test(normal(size))
}
