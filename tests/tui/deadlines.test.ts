// The deadlines ahead on the glass: what is past first, a plot by month, and the way to a card and back.
import { describe, expect, test } from 'vitest'
import { deadlinesOf } from '../../src/tui/deadlines.ts'
import { bench, SMALL } from './bench.ts'
import { demonstration, noRig } from './stations.ts'

const opened = () => bench(demonstration()).type('.')

test('. opens it from the board, and Esc goes back', () => {
  const board = opened()
  expect(board.screen()[2]).toMatch(/Deadlines ahead: 9 past, \d+ in 12 months, 1 without a day/)
  expect(board.press('escape').ui.screen).toBe('board')
  expect(board.commands).toEqual([])
})

test('Enter shows the card of the one in hand, and Esc comes back to it', () => {
  const board = opened().press('down', 'down', 'enter')
  expect(board.ui).toMatchObject({ screen: 'card', card: { id: 'C-986' } })
  expect(board.press('escape').ui).toMatchObject({ screen: 'deadlines', deadline: 2 })
})

describe('moving', () => {
  const last = deadlinesOf(opened().view).entries.length - 1

  test('stops at both ends, so that the way back begins at once', () => {
    const board = opened().press('up')
    expect(board.ui.deadline).toBe(0)
    expect(board.press('end', 'down').ui.deadline).toBe(last)
    expect(board.press('up').ui.deadline).toBe(last - 1)
  })

  test('the one in hand is always in sight, with its whole sentence', () => {
    const board = opened()
    for (const key of ['page-down', 'page-down', 'end', 'home'] as const) {
      const screen = board.press(key).screen()
      expect(screen.filter((line) => line.startsWith('> '))).toHaveLength(1)
      expect(screen.at(-4)).not.toBe('')
    }
  })
})

test('the plot is of the same months and counts as the list', () => {
  const screen = opened().screen()
  const below = screen.findIndex((line) => line.includes('Nov   Dec   Jan'))
  // Each month has its count on its bar, in its own column.
  const counts = Array.from({ length: 12 }, (_, month) => {
    const cells = screen.slice(3, below).map((line) => line.slice(1 + month * 6, 7 + month * 6).trim())
    return Number(cells.find((cell) => /^\d+$/.test(cell)))
  })
  expect(counts).toHaveLength(12)
  const { ahead } = deadlinesOf(opened().view).forecast
  expect(counts.reduce((sum, each) => sum + each, 0)).toBe(ahead.length)
})

test('a very wide and high glass draws no bar wider or higher than is read at once', () => {
  const screen = opened().screen({ columns: 300, rows: 100 })
  const bars = screen.filter((line) => /▒{3}|█{3}/.test(line))
  expect(bars.length).toBeLessThanOrEqual(12)
  expect(Math.max(...bars.flatMap((line) => line.split(' ').map((bar) => bar.length)))).toBeLessThanOrEqual(8)
})

test('one end of life among many cares does not fill the bar of its month', () => {
  const bars = opened()
    .screen()
    .filter((line) => line.includes('▒▒'))
  expect(bars.join('')).toContain('█▒▒▒')
  expect(bars.join('')).not.toContain('████')
})

test('a station without gear says that nothing comes due', () => {
  expect(bench(noRig()).type('.').text(SMALL)).toContain('Nothing comes due in this time.')
})

test('a letter does nothing, and no key here records', () => {
  const board = opened().type('rtsx')
  expect(board.ui.screen).toBe('deadlines')
  expect(board.events).toEqual([])
})
