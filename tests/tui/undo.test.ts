// The key that undoes the last act: what will be recorded is shown first, and only the confirming Enter records it.
import { expect, test } from 'vitest'
import { garment, tags } from '../domain/fit-crew.ts'
import { bench } from './bench.ts'
import { demonstration, fitEngine } from './stations.ts'

test('a tag just made by mistake: one key shows what will be recorded and what it does, Enter records it', () => {
  const board = bench(fitEngine()).press({ type: 't' }, 'enter', 'enter', 'enter', 'enter')
  expect(board.last()).toBe('element-tagged')
  const tagged = board.events.at(-1)!.seq
  board.type('-')
  expect(board.text()).toContain(`#${tagged}, `)
  expect(board.text()).toContain('This will be recorded:')
  expect(board.text()).toContain('tagged by mistake.')
  expect(board.text()).toContain('A. Varga may ride')
  expect(board.events).toHaveLength(1)
  board.press('enter')
  expect(board.last()).toBe('tag-lifted')
  expect(board.ui.screen).toBe('board')
})

test('the key that starts it never confirms it', () => {
  const board = bench(fitEngine()).press({ type: 'n' }, { type: 'Quiet.' }, 'enter', 'enter')
  board.type('----')
  expect(board.events).toHaveLength(1)
  expect(board.press('escape').ui.screen).toBe('board')
})

test('an assembly swapped in by one key goes out by one key', () => {
  const spares = (['coat-shell', 'coat-liner', 'drag-rescue-device'] as const).flatMap((kind) =>
    garment(kind, '9'),
  )
  const board = bench(fitEngine(...spares, tags('CS-1')))
  board.press({ type: 's' }, 'enter', 'enter', 'enter')
  expect(board.events.map((each) => each.type)).toEqual(Array(3).fill('element-swapped'))
  board.press({ type: '-' }, 'enter')
  expect(board.state.standIns.size).toBe(0)
})

test('what no key undoes says what to do instead, and Enter does nothing', () => {
  const board = bench(demonstration()).press({ type: 'a' }, 'enter', 'end', 'enter', 'enter')
  expect(board.last()).toBe('item-acknowledged')
  board.press('escape', { type: '-' })
  expect(board.text()).toContain('stays open until it is settled')
  expect(board.press('enter').text()).toContain('Nothing can be done here.')
  expect(board.events).toHaveLength(1)
})

test('before a care of many is undone, every piece and what will be recorded are in sight at 80 by 24', () => {
  const board = bench(
    fitEngine({ do: 'record-exposure', exposure: 'products-of-combustion', seats: ['E6-1', 'E6-2'] }),
  )
  board.press({ type: 'k' }).pick('in the crew').press('enter', 'enter').pick('serviceable')
  board.write('North Wash').press('enter')
  const { length } = board.events
  expect(length).toBeGreaterThan(15)
  board.type('-')
  const text = board.text().replaceAll(/\s+/g, ' ')
  const [first, last] = [board.events[0]!.seq, board.events.at(-1)!.seq]
  expect(text).toContain(`#${first} to #${last}, `)
  expect(text).toContain(`${length} records as one act.`)
  for (const { data } of board.events) expect(text).toContain('element' in data ? String(data.element) : '-')
  expect(text).toMatch(
    new RegExp(`This will be recorded: ${length} records, one against each of them, as \\+ `),
  )
  expect(text).toContain('recorded by mistake')
  expect(text).toContain('may not ride')
  expect(text).not.toContain('a larger window')
  board.press('enter')
  expect(board.events).toHaveLength(2 * length)
})
