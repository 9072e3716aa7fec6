// Leaving the board by key or by signal: the terminal is given back, the exit status tells how, and the tour goes on.
import { constants } from 'node:os'
import { describe, expect, test } from 'vitest'
import { bayboard } from '../cli/run.ts'
import { engine, digestOf, hasPty, openBoardHere, type Board } from './at-the-board.ts'

const GIVEN_BACK = {
  alternateScreen: false,
  cursorHidden: false,
  autowrap: true,
  bracketedPaste: false,
  synchronised: false,
}

/** A signal's exit status is 128 and its number, as shells count it. */
const WAYS: readonly (readonly [how: string, code: number, leave: (board: Board) => unknown])[] = [
  ['q', 0, (board) => board.type('q')],
  ['Ctrl-C', 0, (board) => board.press('ctrl-c')],
  ...(['SIGTERM', 'SIGHUP', 'SIGINT'] as const).map(
    (signal) => [signal, 128 + constants.signals[signal], (board: Board) => board.kill(signal)] as const,
  ),
]

describe.skipIf(!hasPty)('needs a pseudo-terminal: leaving', () => {
  const station = hasPty ? engine() : ''

  test.each(WAYS)(
    'by %s ends with %i, gives the terminal back and leaves the tour as it was',
    async (_, code, leave) => {
      const before = digestOf(station)
      const board = await openBoardHere({ station })
      expect(board.modes()).toMatchObject({ alternateScreen: true, cursorHidden: true })
      await leave(board)
      expect(await board.exit).toMatchObject({ code })
      expect(board.modes()).toEqual(GIVEN_BACK)
      expect(board.screen().join('')).toBe('')
      expect(digestOf(station)).toBe(before)
      expect(bayboard(['status'], { station }).stdout).toContain('Ada Varga')
    },
  )

  test('Ctrl-C in the middle of an action leaves at once and records nothing of it', async () => {
    const before = digestOf(station)
    const board = await openBoardHere({ station })
    await board.start('t', 'Tag which element out of service?')
    await board.enter('What is wrong')
    await board.enter('Which is it?')
    await board.enter('Tag it out of service?')
    await board.press('ctrl-c')
    expect(await board.exit).toMatchObject({ code: 0 })
    expect(board.modes()).toEqual(GIVEN_BACK)
    expect(digestOf(station)).toBe(before)
  })

  test('Esc goes one step back until the board is there again, and then stays', async () => {
    const board = await openBoardHere({ station })
    await board.start('t', 'Tag which element out of service?')
    await board.enter('What is wrong')
    await board.enter('Which is it?')
    for (const words of ['What is wrong', 'Tag which element out of service?', 'q quit']) {
      await board.press('escape')
      await board.see(words)
    }
    await board.press('escape')
    await board.press('down')
    await board.see(/> Driver/)
    expect(await board.leave()).toMatchObject({ code: 0 })
  })
})
