// How many keys the officer's commonest jobs take from the first screen; a count that grows is a job made longer.
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { eightSeats, HOUSE, OPEN, seats, stationWith } from '../cli/two-seats.ts'
import { engine, allOf, hasPty, openBoardHere } from './at-the-board.ts'

describe.skipIf(!hasPty)('needs a pseudo-terminal: keys from the first screen', () => {
  test('an all-well roll call takes r and one Enter a riding position: 3 for two', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('r', 'Roll call: E6-1')
    await board.enter('Roll call: E6-2')
    await board.enter('Roll call complete: 2 of 2 answered.')
    expect(board.keys()).toBe(3)
    expect(allOf(station, 'seat-answered')).toHaveLength(2)
  })

  test('with each pressure typed it takes four digits more a riding position: 11 for two', async () => {
    const station = stationWith(...HOUSE, OPEN, seats('M-104', 'E6-1'), seats('M-105', 'E6-2'))
    const board = await openBoardHere({ station })
    await board.start('r', 'Roll call: E6-1')
    await board.answer('4400', 'Roll call: E6-2')
    await board.answer('4450', 'Roll call complete: 2 of 2 answered.')
    expect(board.keys()).toBe(11)
    expect(allOf(station, 'pressure-read')).toHaveLength(2)
  })

  test('an all-well roll call of eight positions takes 9 from launch', async () => {
    const board = await openBoardHere({ station: eightSeats(), columns: 100, rows: 30 })
    await board.start('r', 'Roll call: E8-1')
    for (let seat = 2; seat <= 8; seat += 1) await board.enter(`Roll call: E8-${seat}`)
    await board.enter('Roll call complete: 8 of 8 answered.')
    expect(board.keys()).toBe(9)
  })

  test('a tag takes 5 and shows the spares, the swap 3 more: 8 until the rig can ride again', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('t', 'Tag which element out of service?')
    await board.enter('What is wrong')
    await board.enter('Which is it?')
    await board.enter('Tag it out of service?')
    await board.enter('Tagged C-1 out of service.')
    expect(board.keys()).toBe(5)
    await board.see('Which goes in?')
    await board.press('down')
    await board.see(/> fits: C-9/)
    await board.enter('Put coat shell C-9')
    await board.enter('swapped in')
    await board.see('Engine 6 can ride')
    expect(board.keys()).toBe(8)
    expect(allOf(station, 'element-swapped')).toHaveLength(3)
  })

  test('an exposure of the whole crew takes 5', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('e', 'Who was exposed?')
    await board.enter('To what?')
    await board.enter('At which incident?')
    await board.enter(/Exposure to .*Ada Varga, Bo Okoro/)
    await board.enter('Exposure recorded')
    expect(board.keys()).toBe(5)
    expect(allOf(station, 'exposure-recorded').map(({ data }) => data.seats)).toEqual([['E6-1', 'E6-2']])
  })

  test('a hand-over takes 5, the read-back and the exported log among them, with the officer proposed first', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('h', 'Hand over to whom?')
    await board.enter('reads this back')
    await board.press('down')
    await board.see(/> .*has read this back/)
    await board.enter(/signs off and hands tour .* over to/)
    await board.enter(/is handed over. It is sealed. Its log is in/)
    expect(board.keys()).toBe(5)
    expect(readdirSync(join(station, 'exports'))).toHaveLength(1)
    expect(readdirSync(join(station, 'seals'))).toHaveLength(1)
    expect(allOf(station, 'tour-handed-over')).toHaveLength(1)
  })
})
