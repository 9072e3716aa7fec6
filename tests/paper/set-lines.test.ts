// Whatever a name or a note holds, it is set inside its column, nothing of it is dropped, and what cannot be printed shows.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { openPress, REPLACEMENT } from '../../src/paper/press.ts'
import { setLines } from '../../src/paper/set-lines.ts'
import { SIGNS } from '../../src/domain/signs.ts'
import { FONTS } from './printed.ts'

const press = openPress({ fonts: FONTS, paper: 'a4', title: 'Lines', at: '2026-11-24T07:00:00.000-06:00' })
const anyText = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 120 }),
  fc.string({
    unit: fc.constantFrom('W', 'i', ' ', '-', 'é', 'ש', '火', '🚒', 'e\u0301', 'ﬁ'),
    maxLength: 200,
  }),
)

test('no line is wider than its column, and the lines together are the text', () => {
  fc.assert(
    fc.property(anyText, fc.integer({ min: 12, max: 300 }), fc.boolean(), (text, width, bold) => {
      const face = { size: 7.5, bold }
      const lines = setLines(press, { text, ...face }, width)
      const letters = new Intl.Segmenter('en', { granularity: 'grapheme' })
      for (const line of lines) {
        // One letter alone may be wider than the narrowest of columns; it is printed all the same.
        const isOne = Array.from(letters.segment(line.text)).length <= 1
        if (!isOne) expect(press.widthOf(line.text, face)).toBeLessThanOrEqual(width)
      }
      const together = lines
        .map((each) => each.text)
        .join('')
        .replaceAll(' ', '')
      expect(together).toBe(press.printable(text).replaceAll(' ', ''))
      expect(lines.map((each) => each.ends)).toEqual(lines.map((_, at) => at === lines.length - 1))
    }),
    { seed: 20261124, numRuns: 300 },
  )
})

test('every sign of a state, and the letters of Latin, Greek and Cyrillic names, are printed as they are', () => {
  const letters = `${Object.values(SIGNS)
    .map((each) => each.symbol)
    .join('')}–…✓ŁódźÆrøçğİÞßΩЖй`
  expect(press.printable(letters)).toBe(letters)
})

test.each([
  ['a name written from right to left', 'שלום', 4],
  ['one in Arabic letters', 'سلام', 4],
  ['one in Han', '火', 1],
  ['a picture of several parts', '👩‍🚒', 1],
])('%s is replaced letter by letter', (_, text, count) => {
  expect(press.printable(text)).toBe(REPLACEMENT.repeat(count))
})
