// Rules for text that is kept and shown: one line, nothing that drives a terminal, no letter lost.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { cleanText } from '../../src/domain/clean.ts'

test.each([
  ['plain words stay', 'torn seam', 'torn seam'],
  ['other alphabets stay', 'Ñandú Öst 山本 Ιωάννης', 'Ñandú Öst 山本 Ιωάννης'],
  ['a joiner inside a word or a sign stays', 'می\u200cخواهم 👩\u200d🚒', 'می\u200cخواهم 👩\u200d🚒'],
  ['accents in two parts stay', 'e\u0301', 'e\u0301'],
  ['tabs and line ends are spaces', 'a\tb\r\nc\nd\re', 'a b c d e'],
  ['so are the rarer line ends', 'a\u000bb\u000cc\u0085d\u2028e\u2029f', 'a b c d e f'],
  ['many spaces are one, at the ends none', '  a   b  ', 'a b'],
  ['a colour sequence goes whole', 'a\u001b[1;31mb\u001b[0m', 'ab'],
  ['a clear-screen sequence goes whole', 'a\tb\u001b[2Jc', 'a bc'],
  ['the same begun with its one-byte form', 'a\u009b2Jb', 'ab'],
  ['a window title goes whole', 'a\u001b]0;owned\u0007b', 'ab'],
  ['a link goes, its words stay', '\u001b]8;;http://x\u001b\\words\u001b]8;;\u001b\\', 'words'],
  ['a lone escape goes', 'a\u001b b', 'a b'],
  ['nulls, bells, backspaces and DEL go', 'a\u0000\u0007\u0008\u007fb', 'ab'],
  ['the second row of controls goes', 'a\u0080\u0090\u009fb', 'ab'],
  ['marks that turn text around go', 'a\u202eb\u2066c\u2069\u200e\u200f\u061cd', 'abcd'],
  ['marks nobody can see go', 'a\u200bb\u00adc\ufeffd\u2060e', 'abcde'],
  ['half a character goes', 'a\ud83db\udc68c', 'abc'],
  ['only rubbish is nothing', '\u001b[2J\u0007\u202e \n', ''],
])('%s', (_title, text, clean) => {
  expect(cleanText(text)).toBe(clean)
})

const anyText = fc.string({
  unit: fc.oneof(
    fc.constantFrom(
      '\u001b',
      '[',
      ']',
      '\u009b',
      '2',
      'J',
      'm',
      '\u0007',
      '\n',
      ' ',
      '\u202e',
      '\u200b',
      '\ud83d',
      'a',
    ),
    fc.string({ unit: 'binary', minLength: 1, maxLength: 1 }),
  ),
  maxLength: 40,
})

test('whatever comes, what is left is one line of well-formed text without controls', () => {
  fc.assert(
    fc.property(anyText, (text) => {
      const clean = cleanText(text)
      expect(clean).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069]/)
      expect(clean).not.toMatch(/\p{Surrogate}/u)
      expect(clean).toBe(clean.trim())
    }),
    { seed: 20261124, numRuns: 2000 },
  )
})

test('cleaning twice is cleaning once', () => {
  fc.assert(
    fc.property(anyText, (text) => {
      expect(cleanText(cleanText(text))).toBe(cleanText(text))
    }),
    { seed: 20261124, numRuns: 2000 },
  )
})
