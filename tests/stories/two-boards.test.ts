// Two boards on one station, as in two rooms of one house: each sees the other's work, and nothing is done twice.
import { describe, expect, test } from 'vitest'
import { bayboard } from '../cli/run.ts'
import { engine, allOf, hasPty, openBoardHere, type Board } from './at-the-board.ts'

async function chooseSpareGloves(board: Board): Promise<void> {
  await board.start('s', 'Swap which element?')
  await board.choose('gloves', 'Which goes in?')
  await board.enter('Put gloves G-9 in for')
}

describe.skipIf(!hasPty)('needs a pseudo-terminal: two boards on one station', () => {
  test('a tag made on one is on the other by itself, and so is what it does to the rig', async () => {
    const station = engine()
    const [one, other] = await Promise.all([openBoardHere({ station }), openBoardHere({ station })])
    await other.see('Engine 6 can ride')
    await one.start('t', 'Tag which element out of service?')
    await one.choose('hood', 'What is wrong')
    await one.enter('Which is it?')
    await one.enter('Tag it out of service?')
    await one.enter('Tagged K-1 out of service.')
    const screen = await other.see('Engine 6 cannot ride')
    expect(screen.join('\n')).toMatch(/Hood K-1: tagged/)
    expect(allOf(station, 'element-tagged')).toHaveLength(1)
  })

  test('a spare that the other has just taken is no longer offered for confirming, in words', async () => {
    const station = engine()
    const [one, other] = await Promise.all([openBoardHere({ station }), openBoardHere({ station })])
    await other.press('down')
    await other.see(/> Driver/)
    await chooseSpareGloves(other)
    await chooseSpareGloves(one)
    await one.enter('G-9 swapped in')
    await other.see('G-9 is no longer free')
    await other.press('enter')
    await other.see('Nothing can be done here. Esc goes back.')
    await other.press('escape')
    await other.see('The rack has no spare gloves. Esc goes back.')
    expect(allOf(station, 'element-swapped').map(({ data }) => [data.seat, data.in])).toEqual([
      ['E6-1', 'G-9'],
    ])
  })

  test('two swaps of one spare confirmed at the same moment: one is recorded, the other is refused in words', async () => {
    const station = engine()
    const [one, other] = await Promise.all([openBoardHere({ station }), openBoardHere({ station })])
    await other.press('down')
    await other.see(/> Driver/)
    await Promise.all([chooseSpareGloves(one), chooseSpareGloves(other)])
    await Promise.all([one.press('enter'), other.press('enter')])
    const ended =
      /G-9 swapped in|G-9 is no longer free|is not (?:on the rack|free|a spare)|G-9 .*(?:rack|stands in|issued|rig)/
    const screens = await Promise.all([one.see(ended), other.see(ended)])
    const done = screens.filter((screen) => screen.join('\n').includes('G-9 swapped in'))
    expect(done).toHaveLength(1)
    expect(allOf(station, 'element-swapped')).toHaveLength(1)
    expect(bayboard(['verify'], { station }).status).toBe(0)
  })

  test('the board and a script at the same time: both are recorded, in one chain without a gap', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('n', 'The note')
    await board.write('from the board', 'Write this note into the log?')
    const script = bayboard(['record'], {
      station,
      input: '{"do":"note","by":"M-105","text":"from a script"}\n',
    })
    expect(JSON.parse(script.stdout)).toHaveProperty('accepted')
    await board.enter('Noted.')
    expect(allOf(station, 'note-made').map(({ data }) => data.text)).toEqual([
      'from a script',
      'from the board',
    ])
    expect(bayboard(['verify'], { station }).status).toBe(0)
  })
})
