// What may stand in a line on the terminal, and how wide it may be.
import * as fc from 'fast-check'
import stringWidth from 'string-width'
import { describe, expect, it } from 'vitest'
import { safeLine } from '../../../src/tui/terminal/frame.ts'
import { line } from './random-line.ts'

describe('a line on the glass', () => {
  it.each([
    ['a wide character that would stand half outside', 'ab漢', 3, 'ab'],
    ['a wide character that fits', 'ab漢', 4, 'ab漢'],
    ['an emoji of several code points', 'a👩‍🚒b', 2, 'a'],
    ['marks that take no room', 'e\u0301e\u0301e\u0301', 2, 'e\u0301e\u0301'],
    ['colours, which take no room', '\x1b[31mabc\x1b[39md', 3, '\x1b[31mabc\x1b[39m'],
    ['a clear-screen', 'a\x1b[2Jb', 9, 'ab'],
    ['a window title', 'a\x1b]0;title\x07b', 9, 'ab'],
    ['a link, keeping its words', 'a\x1b]8;;http://a.invalid\x1b\\b\x1b]8;;\x1b\\c', 9, 'abc'],
    ['a title that never ends, keeping the rest', 'a\x1b]0;b', 9, 'a0;b'],
    ['8-bit sequences', 'a\x9b2Jb\x9d0;t\x9cc', 9, 'abc'],
    ['one sequence hidden in another', 'a\x1b\x1b[2J[2Jb', 9, 'a[2Jb'],
    ['characters that turn text around', 'a\u202eb\u2066c', 9, 'abc'],
    ['tabs, bells and backspaces', 'a\tb\x07c\bd', 9, 'abcd'],
    ['half a surrogate pair', 'a\ud83db', 9, 'a\ufffdb'],
    ['a look-alike of SGR', 'a\x1b[>4mb\x1b[?1mc', 9, 'abc'],
  ])('is made safe: %s', (_, given, columns, safe) => {
    expect(safeLine(given, columns, 'ansi')).toBe(safe)
  })

  it('is never wider than the terminal, and keeps nothing but text and SGR', () => {
    fc.assert(
      fc.property(line, fc.integer({ min: 1, max: 30 }), (given, columns) => {
        const parts = safeLine(given, columns, 'ansi').split(/\x1b\[[\d;:]*m/)
        for (const text of [parts.join(''), safeLine(given, columns, 'none')]) {
          expect(text).not.toMatch(/[\0-\x1f\x7f-\x9f]/)
        }
        expect(parts.reduce((sum, part) => sum + stringWidth(part), 0)).toBeLessThanOrEqual(columns)
        expect(stringWidth(safeLine(given, columns, 'none'))).toBeLessThanOrEqual(columns)
      }),
      { numRuns: 2000 },
    )
  })
})
