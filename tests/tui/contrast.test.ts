// The colours of the glass can be read and told apart by everybody. Contrast: WCAG 2.x, relative luminance and contrast ratio, from memory.
import { describe, expect, test } from 'vitest'
import { COLOURS } from '../../src/tui/theme.ts'

type Rgb = [number, number, number]
const rgb = (hex: string): Rgb =>
  [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255) as Rgb
const linear = (part: number): number => (part <= 0.040_45 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)
const luminance = (colour: Rgb): number => {
  const [red, green, blue] = colour.map(linear) as Rgb
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}
function contrast(one: string, other: string): number {
  const [dark, light] = [luminance(rgb(one)), luminance(rgb(other))].toSorted((a, b) => a - b)
  return (light! + 0.05) / (dark! + 0.05)
}

/** Machado, Oliveira and Fernandes 2009, severity 1.0, on linear RGB; the matrices are from memory. */
const SIGHT: Readonly<Record<string, [Rgb, Rgb, Rgb]>> = {
  'full colour vision': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
}

/** CIE 1976 L*a*b* of linear RGB seen through a matrix; white D65. */
function lab(hex: string, sight: [Rgb, Rgb, Rgb]): Rgb {
  const colour = rgb(hex).map(linear)
  const [r, g, b] = sight.map((row) =>
    Math.max(
      0,
      Math.min(
        1,
        row.reduce((sum, weight, at) => sum + weight * colour[at]!, 0),
      ),
    ),
  ) as Rgb
  const x = (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505
  const y = 0.2126 * r + 0.7152 * g + 0.0722 * b
  const z = (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089
  const [fx, fy, fz] = [x, y, z].map((part) =>
    part > 0.008_856 ? Math.cbrt(part) : 7.787 * part + 16 / 116,
  ) as Rgb
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)]
}
const apart = (one: string, other: string, sight: [Rgb, Rgb, Rgb]): number =>
  Math.hypot(...lab(one, sight).map((part, at) => part - lab(other, sight)[at]!))

/** A difference of 2.3 is just noticeable side by side; this is twenty of them, for single words far apart. */
const FAR = 46

describe.each(Object.entries(COLOURS).filter(([, colour]) => colour !== undefined))('%s', (_, colour) => {
  test.each(['#000000', '#ffffff'])('reads at 4.5 to 1 or better on %s', (ground) => {
    expect(contrast(colour!, ground)).toBeGreaterThanOrEqual(4.5)
  })
})

test('the measure is right where the answer is known: black on white is 21 to 1, and a colour on itself 1 to 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5)
  expect(contrast('#777777', '#777777')).toBe(1)
  expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5)
})

test.each(Object.entries(SIGHT))('what is wrong and what is due stay apart with %s', (_, sight) => {
  expect(apart(COLOURS.bad!, COLOURS.warn!, sight)).toBeGreaterThan(FAR)
})

test('white stays white in every kind of sight, so the matrices are whole', () => {
  for (const sight of Object.values(SIGHT)) {
    const [light, a, b] = lab('#ffffff', sight)
    expect(light).toBeCloseTo(100, 1)
    expect(Math.hypot(a, b)).toBeLessThan(1)
  }
})

test('red and green of one brightness would not stay apart: the check can fail', () => {
  const [red, green] = ['#c85a00', '#7d8200']
  expect(apart(red!, green!, SIGHT['full colour vision']!)).toBeGreaterThan(FAR)
  expect(apart(red!, green!, SIGHT['deuteranopia']!)).toBeLessThan(FAR)
  expect(apart(red!, green!, SIGHT['protanopia']!)).toBeLessThan(FAR)
})
