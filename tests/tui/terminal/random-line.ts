// Random lines for the tests of the glass: wide and joined characters, marks, colours, and sequences that must not survive.
import * as fc from 'fast-check'

const piece = fc.oneof(
  { weight: 6, arbitrary: fc.string({ maxLength: 12 }) },
  {
    weight: 3,
    arbitrary: fc.constantFrom('漢字', '消防', '한글', 'é', 'e\u0301', 'a\u0308\u0323', '─│┌', '●✓'),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom('🚒', '👩‍🚒', '🇨🇭', '❤️', '1️⃣', '\u200d', '\ufe0f', '\u0301', '\ud83d'),
  },
  {
    weight: 3,
    arbitrary: fc.constantFrom('\x1b[31m', '\x1b[1;44m', '\x1b[38;5;208m', '\x1b[7m', '\x1b[39m', '\x1b[0m'),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      '\x1b[2J',
      '\x1b[5;5H',
      '\x1b[?7h',
      '\x1b]0;title\x07',
      '\x1b]8;;http://a.invalid\x1b\\',
      '\x1bc',
      '\x1b7',
      '\x1b(0',
      '\x1b]',
      '\x9b31m',
      '\r',
      '\t',
      '\b',
      '\x0e',
      '\x85',
      '\x1b[>4m',
      '\x1b',
      '\u202e',
    ),
  },
)
export const line = fc.array(piece, { maxLength: 9 }).map((pieces) => pieces.join(''))
