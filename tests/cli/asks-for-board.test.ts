// Opening the board in a plain way reads no table of subcommands; it must mean the same as the table would say.
import { describe, expect, test } from 'vitest'
import { asksForBoard } from '../../src/cli/asks-for-board.ts'

describe('the board is opened at once by', () => {
  test.each([
    [[], {}],
    [['board'], {}],
    [['--station', 'house'], { station: 'house' }],
    [['board', '--station', 'house'], { station: 'house' }],
  ])('%j', (argv, asked) => {
    expect(asksForBoard(argv)).toEqual(asked)
  })
})

describe('the table of subcommands decides', () => {
  test.each([
    [['status']],
    [['--help']],
    [['board', '--help']],
    [['--station']],
    [['--station', '']],
    [['--station', '--help']],
    [['--station=house']],
    [['--station', 'house', 'board']],
    [['boards']],
    [['board', 'board']],
  ])('%j', (argv) => {
    expect(asksForBoard(argv)).toBeUndefined()
  })
})
