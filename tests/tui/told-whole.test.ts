// What a narrow glass must not cut off: without whom a rig cannot ride, whether gear is looked at again, which tour it is.
import { expect, test } from 'vitest'
import { answers } from '../domain/fit-crew.ts'
import { bench, SMALL } from './bench.ts'
import { demonstrationAfter, fitEngine } from './stations.ts'

const LETTERS = 'CLDTNHOGBFAY'
const NAME = 'Ikenna Brasdow-Oakenfeather'

const emptied = (...seats: string[]) =>
  demonstrationAfter(...seats.map((seat) => ({ do: 'clear-seat', by: 'M-901', seat }) as const))

test('a rig without its officer and its driver names both at 80 columns, and no heading runs into the letters', () => {
  const screen = bench(emptied('L9-1', 'L9-2'), { ui: { seat: 'L9-1' } }).screen(SMALL)
  const at = screen.findIndex((line) => line.startsWith(' Ladder 9 cannot ride'))
  expect(screen[at]).toMatch(new RegExp(`\\S {2,}${LETTERS}$`))
  expect(`${screen[at]!.replace(LETTERS, '').trim()} ${screen[at + 1]!.trim()}`).toBe(
    'Ladder 9 cannot ride: 1 fit, 4 needed; without Officer, Driver',
  )
  expect(screen[at + 2]).toMatch(/^> Officer\*/)
})

test('where the heading of a rig finds room it takes one line', () => {
  const screen = bench(emptied('L9-1', 'L9-2')).screen({ columns: 120, rows: 40 })
  const at = screen.findIndex((line) => line.startsWith(' Ladder 9 cannot ride'))
  expect(screen[at]).toMatch(new RegExp(`without Officer, Driver +${LETTERS}$`))
  expect(screen[at + 1]).toContain('Officer*')
})

test('that each piece is looked at again is told whole before when the last one answered', () => {
  const member = { id: 'M-700', name: NAME, platoon: 'B' } as const
  const station = fitEngine(
    { do: 'add-member', member },
    { do: 'seat-member', seat: 'E6-3', member: 'M-700' },
    ...['E6-1', 'E6-2', 'E6-3'].map(answers),
  )
  const board = bench(station, { ui: { seat: 'E6-3' } }).press({ type: 'ra' })
  board.press('down', 'down')
  const line = board.screen(SMALL).find((each) => each.includes(NAME) && each.includes('answered'))!
  expect(line).toMatch(/is called again: look at each one\. +3 of 3 answered$/)
  expect(board.text({ columns: 120, rows: 40 })).toMatch(/3 of 3 answered, last \d\d:\d\d/)
})

test('the second tour of a day is told from the first at 80 columns', () => {
  const station = demonstrationAfter(
    { do: 'hand-over', by: 'M-901', to: 'M-912' },
    {
      do: 'open-tour',
      by: 'M-912',
      tour: '2026-11-25-A-2',
      platoon: 'A',
      officer: 'M-912',
      on: '2026-11-25',
    },
  )
  expect(bench(station).screen(SMALL)[0]).toMatch(/^ Station 9 .*: tour 2026-11-25-A-2 +INVENTED DATA/)
})
