// The colours that the glass really emits can be read and told apart by everybody. Contrast: WCAG 2.x, relative luminance and contrast ratio, from memory.
import { describe, expect, test } from 'vitest'
import { composeLine } from '../../src/tui/compose.ts'
import { linesFor } from '../../src/tui/screens.ts'
import { COLOURS } from '../../src/tui/theme.ts'
import { bench, type Bench } from './bench.ts'
import { answers } from '../domain/fit-crew.ts'
import { demonstration, fitEngine } from './stations.ts'

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

/** Machado, Oliveira and Fernandes 2009 (doi 10.1109/TVCG.2009.113), severity 1.0, on linear RGB; as public code reproduces the table. */
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

test.each(Object.entries(SIGHT))(
  'neither is taken for plain text, light on dark or dark on light, with %s',
  (_, sight) => {
    for (const text of ['#ffffff', '#000000']) {
      expect(apart(COLOURS.bad!, text, sight)).toBeGreaterThan(FAR)
      expect(apart(COLOURS.warn!, text, sight)).toBeGreaterThan(FAR)
    }
  },
)

/** Boards on which every tone and weight comes up. */
const BOARDS: readonly (readonly [name: string, board: () => Bench])[] = [
  ['the first screen', () => bench(demonstration())],
  ['the roll call', () => bench(demonstration()).press('end', { type: 'r' })],
  ['the spares', () => bench(demonstration()).press('tab', 'down', 'down', { type: 's' }, 'enter')],
  ['a last look', () => bench(demonstration()).press({ type: 't' }, 'enter', 'enter', 'enter')],
  ['a list with what cannot be taken', () => bench(demonstration()).type('e')],
  [
    'a correction in the log',
    () =>
      bench(demonstration()).press(
        { type: 'n' },
        { type: 'Q' },
        'enter',
        'enter',
        { type: 'l-' },
        { type: 'w' },
        'enter',
        'enter',
      ),
  ],
  ['a refusal', () => bench(demonstration()).type('b')],
  ['the deadlines', () => bench(demonstration()).type('.')],
  ['the help', () => bench(demonstration()).type('?')],
  ['a journal that cannot be written', () => bench(demonstration(), { stopped: 'The disk is full.' })],
]
const emitted = (board: Bench): string =>
  [80, 120]
    .flatMap((columns) => linesFor(board.view, board.ui, { columns, rows: columns / 3 }))
    .map(composeLine)
    .join('\n')

/** Select Graphic Rendition, ECMA-48: 1 bold, 7 inverse, 22 and 27 their ends, 39 the terminal's own colour, 38;2 a colour of ours. */
const PLAIN_CODES = ['1', '22', '7', '27', '39']
const codesIn = (text: string): string[] => [...text.matchAll(/\x1b\[([\d;:]*)m/g)].map((each) => each[1]!)
const hexOf = (code: string): string =>
  `#${code
    .split(';')
    .slice(2)
    .map((part) => Number(part).toString(16).padStart(2, '0'))
    .join('')}`
const coloursIn = (text: string): string[] => [
  ...new Set(
    codesIn(text)
      .filter((code) => code.startsWith('38;2;'))
      .map(hexOf),
  ),
]

test.each(BOARDS)(
  '%s emits bold, inverse and colours that were measured; nothing faint, blinking, or on a ground of its own',
  (_, board) => {
    const text = emitted(board())
    expect(codesIn(text).filter((code) => !code.startsWith('38;2;') && !PLAIN_CODES.includes(code))).toEqual(
      [],
    )
    for (const colour of coloursIn(text)) {
      expect(contrast(colour, '#000000')).toBeGreaterThanOrEqual(4.5)
      expect(contrast(colour, '#ffffff')).toBeGreaterThanOrEqual(4.5)
    }
  },
)

test('the boards above emit every colour there is', () => {
  const all = BOARDS.flatMap(([, board]) => coloursIn(emitted(board())))
  expect(new Set(all)).toEqual(new Set(Object.values(COLOURS).filter((each) => each !== undefined)))
})

test('a crew that may ride and has answered is shown without any colour: it is quiet when all is well', () => {
  const board = bench(fitEngine(answers('E6-1'), answers('E6-2')))
  expect(board.text()).toContain('Everybody seated may ride and every rig can.')
  expect(coloursIn(emitted(board))).toEqual([])
})
