// What was not meant is not done: half a word, a scan, a letter of a longer word.
import { describe, expect, test } from 'vitest'
import { demonstration, fitEngine } from '../stations.ts'
import { converse, converseBy } from './converse.ts'

describe('the end of the input in the middle', () => {
  test('of a word: it is not taken for the whole word', async () => {
    const { commands, heard } = await converseBy(fitEngine(), 'n\nHydrant frozen\nyes')
    expect(commands).toEqual([])
    expect(heard.slice(-4, -1)).toEqual([
      'The last line has no end and was not taken.',
      'Note was begun and not confirmed: nothing of it was recorded.',
      'Left. Everything accepted is on disk.',
    ])
    const whole = await converseBy(fitEngine(), 'n\nHydrant frozen\nyes\n')
    expect(whole.commands.map((each) => each.do)).toEqual(['note'])
  })
  test('of a pressure: none is recorded', async () => {
    const { commands } = await converseBy(fitEngine(), 'r\npsi 4400')
    expect(commands).toEqual([])
  })
  test('of what only looks: nothing is said of it', async () => {
    const { heard } = await converse(fitEngine(), '/')
    expect(heard.join()).not.toContain('was begun')
  })
})

describe('what is known to be a scan is never a command or an answer', () => {
  const scanning = (...lines: string[]) =>
    converseBy(fitEngine(), lines.map((line) => `${line}\n`).join(''), '~')
  test.each([
    ['the whole word yes', ['n', 'Hydrant frozen', '~yes']],
    ['ok at roll call', ['r', 'psi 4400', '~ok']],
    ['a pressure', ['r', '~psi 4400']],
  ])('%s', async (_, lines) => {
    const typed = await scanning(...lines.map((line) => line.replace('~', '')))
    const { commands, text } = await scanning(...lines)
    expect(commands.length).toBeLessThan(typed.commands.length)
    expect(text).toContain('a scan is not an answer')
  })
  test('a key of the board, or the word that leaves it', async () => {
    const { text, heard } = await scanning('~h', '~quit', '1')
    expect(text).not.toContain('Hand over to whom?')
    expect(heard).toContain('Read "quit": no element, member or riding position here has this id or serial.')
    expect(text).toContain('In hand: E6-1')
  })
  test('a number of a list: it narrows the list', async () => {
    const { text } = await scanning('t', '~1')
    expect(text).toContain('Narrowed by "1"')
    expect(text).not.toContain('What is wrong with')
  })
  test('a label: its card, and where a list is asked of, the list narrowed to it', async () => {
    const { heard } = await scanning('~HE-1', 'b', 't', '~HE-1', '1')
    expect(heard).toContain('Card of HE-1')
    expect(heard.some((line) => line.startsWith('What is wrong with helmet HE-1'))).toBe(true)
  })
})

test('words narrow the spares offered after a tag, and no letter of them is a key of the board', async () => {
  const tagged = ['1', 't', '1', '1', '1', 'yes']
  const { text } = await converse(demonstration(), ...tagged, 'C-982', '1')
  expect(text).toContain('Narrowed by "C-982": 1 of 7.')
  expect(text).toContain('Put coat shell C-982')
  const left = await converse(demonstration(), ...tagged, 'h')
  expect(left.text).toContain('A key of the board leaves it for now.')
  expect(left.text).toContain('Hand over to whom?')
})

test('help says what is typed here, and no key that only moves about a screen', async () => {
  const { heard } = await converse(demonstration(), 'help', 'more', 'more', 'more')
  expect(heard).toContain('yes: does what was read out last; nothing else does')
  expect(heard.filter((line) => /^(up, down|left, right|Tab|Enter|Ctrl-C): /.test(line))).toEqual([])
  const note = await converse(fitEngine(), 'n', 'help', 'yes')
  expect(note.commands).toMatchObject([{ do: 'note', text: 'help' }])
})
