// The quick measuring of plain text agrees with the slow one, which knows every character.
import * as fc from 'fast-check'
import stringWidth from 'string-width'
import { expect, test } from 'vitest'
import { isNarrow, widthOf } from '../../src/exports/wrap.ts'
import { cutTo } from '../../src/tui/cells.ts'
import { SIGNS } from '../../src/domain/signs.ts'

const everyCharacter = Array.from({ length: 0x10000 }, (_, code) => String.fromCharCode(code))

test('a character is only called narrow where it takes one cell', () => {
  const narrow = everyCharacter.filter(isNarrow)
  expect(narrow.length).toBeGreaterThan(600)
  expect(narrow.filter((each) => stringWidth(each) !== 1)).toEqual([])
})

test('every sign of the board is narrow', () => {
  for (const { symbol, ascii } of Object.values(SIGNS))
    expect([isNarrow(symbol), isNarrow(ascii)]).toEqual([true, true])
})

test('any mixture of narrow and wide text is as wide as the slow measuring says', () => {
  const text = fc
    .array(fc.constantFrom('a', 'é', '■', '中', 'e\u0301', '👩‍🚒', '…', ' ', '한'))
    .map((all) => all.join(''))
  fc.assert(
    fc.property(text, (whole) => {
      expect(widthOf(whole)).toBe(stringWidth(whole))
    }),
  )
})

test('lines that find no room are cut with a mark, and what fits is left as it is', () => {
  expect(cutTo(['one', 'two'], 2, 10)).toEqual(['one', 'two'])
  expect(cutTo(['one', 'two', 'three'], 2, 10)).toEqual(['one', 'two three…'])
  expect(cutTo(['one', 'two', 'three'], 2, 10, false).at(-1)).toBe('two thre..')
})
