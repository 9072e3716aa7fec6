// While the glass holds only one sentence nothing that is pressed does anything: nobody sees what they would answer.
import { expect, test } from 'vitest'
import { ACTIONS, LOOKING } from '../../src/tui/keymap.ts'
import { bench, SMALL, type Press } from './bench.ts'
import { fitEngine } from './stations.ts'

const KEYS: Press[] = [
  ...[...ACTIONS, ...LOOKING].map((each) => ({ char: each.key })),
  'enter',
  'down',
  'escape',
  { type: '4400' },
  { scan: 'HE-1' },
  { paste: 'words' },
]

test.each([
  [79, 24],
  [80, 23],
])('at %i x %i no key but Ctrl-C does anything', (columns, rows) => {
  for (const before of [[], [{ type: 'r' }], [{ type: 't' }, 'enter', 'enter', 'enter']] as Press[][]) {
    const { ui } = bench(fitEngine()).press(...before)
    const board = bench(fitEngine(), { ui, size: { columns, rows } })
    for (const key of KEYS) expect(board.press(key, 'enter').ui).toEqual(ui)
    expect([board.events, board.left]).toEqual([[], []])
    expect(board.press('ctrl-c').left).toEqual([{ quit: true }])
  }
})

test('at 80 x 24 the same keys do what they say', () => {
  const board = bench(fitEngine(), { size: SMALL }).press({ type: 'r' }, 'enter')
  expect(board.last()).toBe('seat-answered')
})
