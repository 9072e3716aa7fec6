// The first start on a machine that has no station yet, as `npm start` does it.
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { bayboard, newPlace } from '../cli/run.ts'
import { allOf, demonstration, eventsOf, hasPty, openBoardHere } from './at-the-board.ts'

describe.skipIf(!hasPty)('needs a pseudo-terminal: the first start', () => {
  test('makes the demonstration in the XDG data folder and marks every screen of it as invented', async () => {
    const home = newPlace()
    const station = join(home, 'bayboard', 'station')
    expect(existsSync(station)).toBe(false)
    const board = await openBoardHere({ env: { XDG_DATA_HOME: home }, until: 'INVENTED' })
    expect(board.screen().join('\n')).toMatch(/may not ride/)
    for (const [key, words] of [
      ['l', 'The log, newest first'],
      ['?', 'All keys, the signs'],
      ['r', 'Roll call:'],
      ['x', 'Export the readiness log'],
    ] as const) {
      await board.start(key, words)
      await board.see('INVENTED')
      await board.press('escape')
      await board.see('q quit')
    }
    expect(await board.leave()).toMatchObject({ code: 0 })
    expect(eventsOf(station)[0]).toMatchObject({ type: 'station-made', data: { invented: true } })
    expect(bayboard(['verify'], { env: { XDG_DATA_HOME: home } }).status).toBe(0)
  })

  test('the job the README tells first: Down to the irons, s, Enter three times, and Ladder 9 can ride', async () => {
    const station = demonstration()
    const board = await openBoardHere({
      station,
      rows: 50,
      until: 'Ladder 9 cannot ride',
    })
    for (const position of [
      'Driver',
      'Nozzle',
      'Back-up',
      'Hydrant',
      'Control',
      'Officer',
      'Driver',
      'Irons',
    ]) {
      await board.press('down')
      await board.see(new RegExp(`> ${position}`))
    }
    await board.start('s', 'Swap which element?')
    await board.enter('Which goes in?')
    await board.enter('Ladder 9 can ride')
    await board.enter('swapped in')
    await board.see('Ladder 9 can ride')
    const [swap] = allOf(station, 'element-swapped').slice(-3)
    expect(swap?.data).toMatchObject({ seat: 'L9-3', out: 'L-9091' })
  })
})
