// A held Enter never records twice: no more than one last look, or one called riding position, asked for.
import { expect, test } from 'vitest'
import { ACTIONS } from '../../src/tui/keymap.ts'
import { tags } from '../domain/fit-crew.ts'
import { bench, type Bench, type Press } from './bench.ts'
import { demonstration, fitEngine } from './stations.ts'

const HELD: Press[] = Array.from({ length: 30 }, () => 'enter')
const typesOf = (board: Bench): string[] => board.events.map((event) => event.type)

test('from the board it shows a card and records nothing', () => {
  for (const station of [fitEngine, demonstration]) {
    const board = bench(station()).press(...HELD)
    expect([board.ui.screen, board.events]).toEqual(['card', []])
  }
})

test('from the roll call it answers each riding position that has not answered, once', () => {
  const board = bench(fitEngine()).press({ type: 'r' }, ...HELD)
  expect(board.events.map((event) => 'seat' in event.data && event.data.seat)).toEqual(['E6-1', 'E6-2'])
})

test('a riding position that has answered is not answered again; what else there is to do is said', () => {
  const board = bench(fitEngine()).press({ type: 'r' }, 'enter', 'up', ...HELD)
  expect(typesOf(board)).toEqual(['seat-answered'])
  expect(board.ui).toMatchObject({
    screen: 'roll-call',
    message: { text: 'Officer A. Varga has answered; r goes to E6-2, the next to answer; f adds a finding.' },
  })
})

test('a riding position that has answered still takes a new reading, and a held Enter takes it once', () => {
  const board = bench(fitEngine()).press({ type: 'r' }, 'enter', 'up', { type: '4300' }, ...HELD)
  expect(typesOf(board)).toEqual(['seat-answered', 'pressure-read'])
})

test('after a finding at roll call it says that the position has answered', () => {
  const board = bench(fitEngine()).press({ type: 'rf' }, ...HELD)
  expect(typesOf(board)).toEqual(['seat-answered'])
})

test.each(ACTIONS.map((each) => [each.key, each.label]))(
  'from the key %s (%s) it confirms one last look at the most',
  (key) => {
    const stations = [() => fitEngine(tags('HE-1')), demonstration]
    for (const station of stations) {
      const board = bench(station()).press({ type: key })
      const asked: number[] = []
      for (const each of HELD) {
        const before = board.events.length
        board.press(each)
        if (board.events.length > before) asked.push(board.pressed)
      }
      expect(asked.length).toBeLessThanOrEqual(1)
    }
  },
)
