// Terminals that can do less: no colours, no screen, no signs beyond ASCII; the words are the same.
import { onTestFinished, describe, expect, test } from 'vitest'
import { bayboard, PROGRAM, type Told } from '../cli/run.ts'
import { fitStation } from '../cli/two-seats.ts'
import { openTerminal } from '../pty.ts'
import { hasPty, openBoardHere } from './at-the-board.ts'

const TAG: Told = { do: 'tag', by: 'M-104', element: 'K-1', reason: 'hole at the crown', matter: 'safety' }
const OUT = /out of service/
/** Select Graphic Rendition of ECMA-48: 30 to 49 and 90 to 107 are colours. */
const COLOUR = /\x1b\[(?:\d+;)*(?:[34]\d|9\d|10[0-7])(?:[;:]\d+)*m/
const ESCAPE = '\x1b'

describe('a station with a tagged hood', () => {
  const station = fitStation(TAG)

  test('without a terminal: the status, and not one escape code', () => {
    const { stdout, stderr } = bayboard([], { station })
    expect(stdout).toContain('Hood K-1: tagged, hole at the crown')
    expect(stdout + stderr).not.toContain(ESCAPE)
  })

  test('LANG=C without a terminal: ASCII signs only', () => {
    const { stdout } = bayboard([], { station, env: { LANG: 'C' } })
    expect(stdout).toMatch(OUT)
    expect(stdout).toMatch(/^[\x20-\x7e\n]*$/)
  })

  describe.skipIf(!hasPty)('needs a pseudo-terminal:', () => {
    test('an ordinary terminal gets colours, so that the next test can fail', async () => {
      const board = await openBoardHere({ station, until: OUT })
      expect(board.written()).toMatch(COLOUR)
    })

    test('NO_COLOR=1: no colour in all that is written, and the same words', async () => {
      const board = await openBoardHere({ station, env: { NO_COLOR: '1' }, until: OUT })
      await board.start('?', 'All keys, the signs')
      await board.press('escape')
      await board.see('q quit')
      await board.start('t', 'Tag which element out of service?')
      expect(board.written()).toContain('Hood K-1: tagged, hole at the crown')
      expect(board.written()).not.toMatch(COLOUR)
    })

    test('TERM=dumb: why there is no board, the status instead, and not one escape code', async () => {
      // The pseudo-terminal names its own TERM, so the dumb one is set behind it.
      const terminal = await openTerminal({
        command: 'env',
        args: ['TERM=dumb', process.execPath, PROGRAM, '--station', station],
        columns: 120,
      })
      onTestFinished(() => terminal.close())
      expect(await terminal.exit).toMatchObject({ code: 1 })
      expect(terminal.written()).toContain('TERM is "dumb"')
      expect(terminal.written()).toContain('bayboard --text')
      expect(terminal.written()).toContain('Hood K-1: tagged, hole at the crown')
      expect(terminal.written()).not.toContain(ESCAPE)
    })

    test('LANG=C on the board: ASCII signs only, on every screen', async () => {
      const board = await openBoardHere({ station, env: { LANG: 'C' }, until: OUT })
      await board.see(/# out of service/)
      for (const [key, words] of [
        ['?', 'All keys, the signs'],
        ['l', 'The log, newest first'],
        ['r', 'Roll call:'],
        ['s', 'Swap which element?'],
      ] as const) {
        await board.start(key, words)
        await board.press('escape')
        await board.see('q quit')
      }
      expect(board.written()).toMatch(/^[\x00-\x7f]*$/)
    })
  })
})
