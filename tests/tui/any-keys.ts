// Tokens as hands, cats and scanners give them, for tests that hold whatever is pressed.
import * as fc from 'fast-check'
import { ACTIONS, LOG_ACTIONS, LOOKING } from '../../src/tui/keymap.ts'
import type { Key, Token } from '../../src/tui/input/keys.ts'

const KEYS: Key[] = ['up', 'down', 'left', 'right', 'escape', 'tab', 'back-tab', 'backspace', 'delete']
const FAR_KEYS: Key[] = ['page-up', 'page-down', 'home', 'end', 'ctrl-u', 'f1', 'insert']
const STARTS = [...new Set([...ACTIONS, ...LOOKING, ...LOG_ACTIONS].map((each) => each.key))]

const key = (...keys: Key[]): fc.Arbitrary<Token> => fc.constantFrom(...keys).map((each) => ({ key: each }))
const scans = ['K-9071', 'M-901', 'E9-1', 'q', '', 'HE-1', '4400']

export const anyToken: fc.Arbitrary<Token> = fc.oneof(
  { weight: 14, arbitrary: key('enter') },
  { weight: 6, arbitrary: key('escape') },
  { weight: 8, arbitrary: fc.constantFrom(...STARTS).map((char) => ({ char })) },
  { weight: 4, arbitrary: key(...KEYS) },
  { weight: 2, arbitrary: key(...FAR_KEYS) },
  { weight: 3, arbitrary: fc.constantFrom(...'0123456789').map((char) => ({ char })) },
  {
    weight: 1,
    arbitrary: fc.string({ minLength: 1, maxLength: 1, unit: 'grapheme' }).map((char) => ({ char })),
  },
  { weight: 1, arbitrary: fc.constantFrom(...scans).map((scan) => ({ scan })) },
  { weight: 1, arbitrary: fc.string({ maxLength: 12 }).map((paste) => ({ paste })) },
)

/** Any tokens, and now and then somebody who knows what they want: a key and the proposed answers. */
export const anyPresses: fc.Arbitrary<Token[]> = fc.oneof(
  { weight: 12, arbitrary: anyToken.map((token) => [token]) },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.constantFrom(...STARTS), fc.integer({ min: 2, max: 6 }))
      .map(([char, enters]) => [
        ...Array.from({ length: 4 }, (): Token => ({ key: 'escape' })),
        { char },
        ...Array.from({ length: enters }, (): Token => ({ key: 'enter' })),
      ]),
  },
)
