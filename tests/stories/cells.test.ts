// What the terminal shows is the frame, cell by cell, after any sequence of keys and sizes.
import { describe, expect, test } from 'vitest'
import { demonstration, hasPty, openBoard, openBoardHere, type Board } from './at-the-board.ts'

/** Every key of the board but the one that leaves; answers, narrowing letters and digits come from the same. */
const LETTERS = [...'rl?oamchftsbudpekwvjizyg/nx-45']
const [UP, DOWN, PAGE_UP, PAGE_DOWN] = ['\x1b[A', '\x1b[B', '\x1b[5~', '\x1b[6~']
const [HOME, END, TAB, BACK_TAB] = ['\x1b[H', '\x1b[F', '\t', '\x1b[Z']
const MOVING = [UP, DOWN, DOWN, DOWN, PAGE_UP, PAGE_DOWN, HOME, END, TAB, BACK_TAB]
const [ENTER, ESCAPE, BACKSPACE] = ['\r', '\x1b', '\x7f']
const DECIDING = [ENTER, ENTER, ENTER, ESCAPE, BACKSPACE]
const SIZES: readonly [columns: number, rows: number][] = [
  [80, 24],
  [200, 60],
  [300, 100],
  [81, 25],
  [132, 43],
  [100, 30],
  [160, 24],
  [80, 60],
]
const TOO_SMALL: readonly [columns: number, rows: number][] = [
  [79, 24],
  [80, 23],
  [40, 10],
]

/** Numbers that are the same in every run (a linear congruential generator; the constants are those of Numerical Recipes). */
function dice(seed: number): <T>(sides: readonly T[]) => T {
  let state = seed
  return (sides) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return sides[Math.floor((state / 2 ** 32) * sides.length)]!
  }
}

/** Characters and colours of every cell of the screen; the clock in the head may move on by itself. */
function cellsOf({ emulator }: Board): string[] {
  const buffer = emulator.buffer.active
  return Array.from({ length: emulator.rows }, (_, y) => {
    const line = buffer.getLine(buffer.baseY + y)!
    const cells = Array.from({ length: emulator.cols }, (_, x) => {
      const cell = line.getCell(x)!
      const look = [
        cell.getFgColorMode() && `${cell.getFgColorMode()}:${cell.getFgColor()}`,
        cell.getBgColorMode() && `${cell.getBgColorMode()}:${cell.getBgColor()}`,
        cell.isBold() && 'bold',
        cell.isDim() && 'dim',
        cell.isInverse() && 'inverse',
      ].filter(Boolean)
      return `${cell.getWidth()}${cell.getChars() || ' '}${look.join()}`
    })
    return cells.join('|')
  })
}

/** When every key before has had its effect: the board answers a scan of a label that nobody has, on any screen. */
async function settled(board: Board, mark: string): Promise<void> {
  // What comes while a command is being recorded is left out if that is refused, so it may take more than one scan.
  const words = `Read "${mark}"`
  for (let tries = 0; tries < 20 && !board.screen().join('\n').includes(words); tries++) {
    await board.scan(mark)
    await board.waitFor(words, 500).catch(() => undefined)
  }
  await board.see(words)
  await board.press('down')
  await board.seeNoMore(words)
}

const FIRST_LINE = '\x1b[1;1H'

/** The frame painted whole, on a glass of which the program takes nothing for granted. */
async function repaintedWhole(board: Board, [columns, rows]: readonly [number, number]): Promise<void> {
  for (const width of [columns + 1, columns]) {
    const before = board.written().length
    board.resize(width, rows)
    await board.see(() => board.written().slice(before).includes(FIRST_LINE))
  }
}

const minuteOf = (board: Board): string => /\d\d:\d\d/.exec(board.screen()[0] ?? '')?.[0] ?? 'no clock'

/** The first title across the screen, which names the screen or the action. */
const titleOf = (board: Board): string => /^── (\S+ ?\S*)/m.exec(board.screen().join('\n'))?.[1] ?? 'none'

describe.skipIf(!hasPty)('needs a pseudo-terminal: the glass and the frame', () => {
  // Side by side, because a test of keys mostly waits.
  test.concurrent.for([1, 2])(
    'show the same characters in the same colours after random keys and sizes, seed %i',
    async (seed, { expect, onTestFinished }) => {
      const pick = dice(seed)
      const board = await openBoard({ station: demonstration() })
      onTestFinished(() => board.close())
      let size = SIZES[0]!
      let compared = 0
      const seen = new Set<string>()
      for (let round = 0; round < 5; round++) {
        for (let burst = 0; burst < 8; burst++) {
          if (pick([true, false, false])) {
            size = pick(SIZES)
            if (pick([true, false])) board.resize(...pick(TOO_SMALL))
            board.resize(...size)
          }
          await board.type(pick(LETTERS))
          seen.add(titleOf(board))
          await board.send(pick(MOVING)! + pick(MOVING)! + pick(DECIDING)!)
          seen.add(titleOf(board))
        }
        await settled(board, `NOBODY-${seed}-${round}`)
        const minute = minuteOf(board)
        const shown = cellsOf(board)
        await repaintedWhole(board, size)
        const isSame = () => cellsOf(board).every((line, y) => line === shown[y])
        await board.waitFor(isSame, 3000).catch(() => undefined)
        // A minute that began between the two looks is the clock's doing, and states may fall due with it.
        if (minuteOf(board) !== minute) continue
        expect(cellsOf(board), board.screen().join('\n')).toEqual(shown)
        compared++
      }
      expect(compared).toBeGreaterThan(3)
      // The keys went somewhere: to the roll call, the log, the help, cards and many an action.
      expect(seen.size).toBeGreaterThan(4)
    },
  )

  test('under-size it says one plain sentence and nothing else, and then shows the same screen again', async () => {
    const board = await openBoardHere({ station: demonstration() })
    await board.start('l', 'The log, newest first')
    const log = board.screen().slice(1)
    for (const [columns, rows] of TOO_SMALL) {
      board.resize(columns, rows)
      const words = `The board needs 80x24; this is ${columns}x${rows}: enlarge it, or Ctrl-C to leave.`
      const told = (lines: readonly string[]): string =>
        // The emulator keeps what lies beyond the edge of a screen made narrower; nobody sees it.
        lines
          .map((line) => line.slice(0, columns).trim())
          .filter(Boolean)
          .join(' ')
      await board.see((lines) => told(lines) === words)
      board.resize(80, 24)
      await board.see('The log, newest first')
      expect(board.screen().slice(1)).toEqual(log)
    }
  })
})
