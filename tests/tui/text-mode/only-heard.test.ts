// What an officer needs who hears the board line by line: little told twice, nothing cut that is answered for, and always a way on.
import { describe, expect, test } from 'vitest'
import { demonstration, demonstrationAfter } from '../stations.ts'
import { converse } from './converse.ts'

describe('what an officer who only hears the board needs', () => {
  const asks = (...lines: string[]) => converse(demonstration(), ...lines)

  test('a name typed on the board shows the card, part of one that several have lists them', async () => {
    expect((await asks('Penhallion')).heard).toContain('Card of M-928')
    expect((await asks('k9071')).heard).toContain('Card of K-9071')
    const { heard } = await asks('hood', '2')
    expect(heard.find((line) => line.startsWith('Narrowed by "hood"'))).toBeDefined()
    const second = heard.find((line) => line.startsWith('2. Hood '))!
    expect(heard).toContain(`Card of ${/K-\d+/.exec(second)![0]}`)
  })
  test('a name is looked up from a card as well', async () => {
    expect((await asks('K-9071', 'Penhallion')).heard).toContain('Card of M-928')
  })
  test('a number chooses in a narrowed list, and one that is not in it narrows nothing', async () => {
    const { heard } = await asks('/', 'penhal', '7', '1')
    expect(heard).toContain('There is no 7 here, only 1 to 1. To look for 7, type /7')
    expect(heard).toContain('Card of M-928')
  })
  test('a list that words have emptied says how to go on', async () => {
    const { heard } = await asks('/', 'zzzz', '1', 'b', 'penhal', '1')
    expect(heard).toContain('There is nothing to choose. Other words look again; b goes one step back.')
    expect(heard).toContain('There is nothing to choose by a number. To look for 1, type /1')
    expect(heard).toContain('Card of M-928')
  })
  test('hundreds of choices are counted and read out only when asked for', async () => {
    const { heard } = await asks('/')
    expect(heard.some((line) => /^\d+ to choose from: more reads them out\.$/.test(line))).toBe(true)
    expect(heard.some((line) => line.startsWith('13. '))).toBe(false)
  })
  test('a long list that is come back to is not read a second time unasked', async () => {
    const back = await asks('t', '1', 'b')
    expect(back.heard.filter((line) => line.startsWith('9. '))).toHaveLength(3)
    expect(back.text).toMatch(/The same \d+ to choose from as before: more reads them out\./)
    const asked = await asks('t', '1', 'b', 'more')
    expect(asked.heard.filter((line) => line.startsWith('9. '))).toHaveLength(4)
  })
  test('a word that does nothing says so and what can be typed', async () => {
    const { heard } = await asks('K-9071', 'w')
    expect(heard.join(' ')).toMatch(/"w" does nothing here: .* goes? back/)
  })
  test('what is to be read back at a hand-over is told to its end before it can be answered for', async () => {
    const torn = ['B-9011', 'B-9021', 'B-9031', 'B-9041', 'B-9051', 'B-9061', 'H-9011', 'H-9021'].map(
      (element) => ({ do: 'tag', by: 'M-901', element, reason: 'torn', matter: 'safety' }) as const,
    )
    const { heard } = await converse(demonstrationAfter(...torn), 'h', '1')
    const question = heard.findIndex((line) => line.endsWith('reads this back.'))
    expect(question).toBeGreaterThan(-1)
    const begin = heard.slice(0, question).lastIndexOf('Hand over.')
    expect(question - begin).toBeGreaterThan(30)
    expect(heard.slice(begin, question).join('\n')).not.toContain('more reads on')
  })
  test('what is wrong with many elements alike is told once, with the name of each', async () => {
    const smoke = { do: 'record-exposure', exposure: 'products-of-combustion', by: 'M-901' } as const
    const { heard } = await converse(demonstrationAfter({ ...smoke, seats: ['E9-2'] }), '2')
    const told = heard.filter((line) => line.includes('exposed to products of combustion on'))
    const names = ['C-9031', 'L-9031', 'T-9031', 'K-9031', 'B-9031']
    expect(told.filter((line) => names.every((each) => line.includes(each)))).toHaveLength(1)
    expect(told.length).toBeLessThan(5)
  })
  test('keys are called by what is typed here', async () => {
    const { text } = await asks('h', '1')
    expect(text).toContain('b goes back')
    expect(text).not.toMatch(/\bEsc\b/)
  })
})

describe('b only ever goes back', () => {
  const swapped = () =>
    demonstrationAfter(
      { do: 'send-away', by: 'M-901', elements: ['K-9011'], to: 'Drying room', for: 'drying' },
      { do: 'swap', by: 'M-901', seat: 'E9-1', out: 'K-9011', in: 'K-971' },
      { do: 'receive-back', by: 'M-901', elements: ['K-9011'] },
    )

  test('two of them from a card end on the board and begin no swap back', async () => {
    const { heard, text, commands } = await converse(swapped(), 'K-971', 'b', 'b', 'yes')
    expect(heard).toContain(
      'This is the board: b goes back no further. swap back puts own gear back in; quit leaves.',
    )
    expect(text).not.toContain('Swap back which element?')
    expect(commands).toEqual([])
  })
  test('own gear that is back is swapped by the words that are told', async () => {
    const { heard, text, commands } = await converse(swapped(), '1', 'swap back', '1', 'yes')
    expect(text).toMatch(/Back and fit: hood K-9011 of Maren Toldave\. swap back there puts it back\./)
    expect(heard).toContain('Swap back which element?')
    expect(commands.map((each) => each.do)).toEqual(['swap-back'])
  })
  test('the help and a swap say the words, never the key', async () => {
    const { text } = await converse(swapped(), '?', 'more', 'more', 'more', 'b', 's', '1', '1', 'yes')
    expect(text).toContain('swap back: Give the member their own element back')
    expect(text).toContain('b: one step back, always')
    expect(text).toMatch(/swapped in\. swap back puts it back\./)
    expect(text).not.toMatch(/\bb (on|there|swap)|\bEsc\b/)
  })
  test('q on a card says which word leaves', async () => {
    const { heard } = await converse(demonstration(), 'K-9071', 'q')
    expect(heard).toContain('quit leaves the board. b goes one step back.')
    expect(heard).not.toContain('That does nothing here.')
  })
})

describe('a station where nothing can be recorded', () => {
  const stopped = (...lines: string[]) =>
    converse({ ...demonstration(), stopped: 'The disk is full.' }, ...lines)

  test('is offered only keys that look, take a log away or leave', async () => {
    const { text } = await stopped()
    expect(text).toContain('Keys: / find, x export, l log, + coverage, . deadlines, ? all keys, q quit.')
  })
  test.each(['t', 's', 'r', 'h', 'n', '-'])('%s asks nothing that cannot be kept', async (key) => {
    const { heard, commands } = await stopped(key)
    expect(heard).toContain('Nothing can be recorded, and the standing line says why. Nothing was done.')
    expect(commands).toEqual([])
  })
})
