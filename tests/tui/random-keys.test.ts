// Whatever is pressed: the board never breaks, every command is well formed, and only a confirming Enter records.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Token } from '../../src/tui/input/keys.ts'
import { stepOf } from '../../src/tui/update/sheet.ts'
import { anyPresses, anyToken } from './any-keys.ts'
import { bench, type Bench, type Standing } from './bench.ts'
import { demonstration, fitEngine, nobodySeated, noRig } from './stations.ts'

/** May this token record something here? Enter on a last look, or the answer at roll call. */
function mayRecord(board: Bench, token: Token): boolean {
  if (!('key' in token) || token.key !== 'enter') return false
  const { ui, view } = board
  return ui.screen === 'roll-call' || (ui.screen === 'sheet' && stepOf(view, ui).ask === 'confirm')
}

const STATIONS: [string, () => Standing, number][] = [
  ['the demonstration', demonstration, 3000],
  ['an engine that is fit', fitEngine, 3000],
  ['a house before its first tour', nobodySeated, 3500],
  ['a station without a rig', noRig, 500],
]

test.each(STATIONS)('%s: only a confirming Enter records, whatever is pressed', (_, station, count) => {
  const start = station()
  const board = bench(start)
  const tokens = fc.sample(anyPresses, { numRuns: count, seed: 20261125 }).flat().slice(0, count)
  expect(tokens).toHaveLength(count)
  let recorded = 0
  for (const token of tokens) {
    const isAllowed = mayRecord(board, token)
    const before = board.events.length
    board.press(token)
    if (board.events.length > before) {
      recorded += 1
      expect({ token, isAllowed }).toEqual({ token, isAllowed: true })
    }
    expect(board.state.seq - board.events.length).toBe(start.state.seq)
  }
  // The keys must have reached the journal for this to say anything.
  if (station !== noRig) expect(recorded).toBeGreaterThan(20)
})

test('the stations above get ten thousand tokens', () => {
  expect(STATIONS.reduce((sum, [, , count]) => sum + count, 0)).toBe(10_000)
})

test('Esc leads back to the board from wherever one got to, in a dozen presses, and records nothing', () => {
  fc.assert(
    fc.property(fc.array(anyToken, { maxLength: 25 }), fc.boolean(), (tokens, isOpen) => {
      const board = bench(isOpen ? fitEngine() : nobodySeated()).press(...tokens)
      const recorded = board.events.length
      let presses = 0
      while (board.ui.screen !== 'board' && presses < 12) {
        board.press('escape')
        presses += 1
      }
      expect(board.ui.screen).toBe('board')
      expect(board.events).toHaveLength(recorded)
      expect(board.press('escape', 'escape').ui.screen).toBe('board')
    }),
    { numRuns: 150, seed: 7 },
  )
})
