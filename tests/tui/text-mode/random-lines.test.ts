// Whatever is typed into the conversation: it never breaks, and only yes, ok and a pressure record anything.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { ACTIONS, LOG_ACTIONS, LOOKING } from '../../../src/tui/keymap.ts'
import { demonstration, fitEngine, nobodySeated } from '../stations.ts'
import { converse } from './converse.ts'

const KEYS = [...new Set([...ACTIONS, ...LOOKING, ...LOG_ACTIONS].map((each) => each.key))].filter(
  (key) => key !== 'q',
)
const line = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...KEYS) },
  { weight: 6, arbitrary: fc.constantFrom('1', '2', '3') },
  { weight: 2, arbitrary: fc.constantFrom('back', 'b', '', 'more', 'keep', 'none', 'next', 'enter') },
  { weight: 2, arbitrary: fc.constantFrom('HE-1', 'K-9071', 'M-104', '~', 'ok then', 'y') },
  {
    weight: 1,
    arbitrary: fc
      .string({ maxLength: 12, unit: 'grapheme' })
      .filter((each) => !/[\r\n\u2028\u2029]/.test(each)),
  },
)
/** Somebody who knows what they want: a key, the first choices, and the word that does it. */
const wanted = fc
  .tuple(fc.constantFrom(...KEYS), fc.integer({ min: 0, max: 4 }), fc.constantFrom('ok', 'psi 4400', 'words'))
  .map(([key, count, word]) => [
    'back',
    'back',
    'back',
    'back',
    key,
    ...Array.from({ length: count }, () => '1'),
    word,
    'yes',
  ])

test.each([
  ['the demonstration', demonstration, 1],
  ['an engine that is fit', fitEngine, 2],
  ['a house before its first tour', nobodySeated, 3],
] as const)('%s: many lines without a word that does anything record nothing', async (_, station, seed) => {
  const isDoing = (each: string): boolean => /^\s*(yes|ok|psi .*|quit)\s*$/i.test(each)
  const typed = fc.sample(line, { numRuns: 120, seed }).filter((each) => !isDoing(each))
  const { commands, heard } = await converse(station(), ...typed)
  expect(commands).toEqual([])
  expect(heard.at(-2)).toBe('Left. Everything accepted is on disk.')
})

test('with them it records, and comes to its end all the same', async () => {
  const some = fc.oneof(
    { weight: 1, arbitrary: wanted },
    { weight: 2, arbitrary: line.map((each) => [each]) },
  )
  let recorded = 0
  for (const seed of [4, 5, 6, 7]) {
    const typed = fc.sample(some, { numRuns: 40, seed }).flat()
    const { commands, heard } = await converse(fitEngine(), ...typed.filter((each) => !/quit/i.test(each)))
    recorded += commands.length
    expect(heard.at(-2)).toBe('Left. Everything accepted is on disk.')
  }
  expect(recorded).toBeGreaterThan(5)
})
