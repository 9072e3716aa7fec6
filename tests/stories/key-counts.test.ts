// How many keys the officer's commonest jobs take from the first screen; a count that grows is a job made longer.
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { recorded } from '../cli/run.ts'
import { eightSeats } from '../cli/two-seats.ts'
import { engine, allOf, hasPty, openBoardHere } from './at-the-board.ts'

describe.skipIf(!hasPty)('needs a pseudo-terminal: keys from the first screen', () => {
  test('taking over takes 4, the platoon whose turn it is and its officer proposed', async () => {
    const station = engine()
    recorded(station, [{ do: 'hand-over', by: 'M-104', to: 'M-207' }])
    const board = await openBoardHere({ station })
    await board.start('o', 'Which platoon comes on duty?')
    await board.enter('Who is its officer?')
    await board.enter('Open tour')
    await board.enter('is open. m seats the crew.')
    expect(board.keys()).toBe(4)
  })

  test('an all-well roll call of eight positions, gauges read before, takes 9: r and one Enter each', async () => {
    const board = await openBoardHere({ station: eightSeats({ isRead: true }), columns: 100, rows: 30 })
    await board.start('r', 'Roll call: E8-1')
    for (let seat = 2; seat <= 8; seat += 1) await board.enter(`Roll call: E8-${seat}`)
    await board.enter('Roll call complete: 8 of 8 answered.')
    expect(board.keys()).toBe(9)
  })

  test('with every gauge typed it takes 41: the 32 digits that the gauges show, r, and one Enter each', async () => {
    const station = eightSeats({ isRead: false })
    const board = await openBoardHere({ station, columns: 100, rows: 30 })
    await board.start('r', 'Roll call: E8-1')
    for (let seat = 2; seat <= 8; seat += 1) await board.answer('4400', `Roll call: E8-${seat}`)
    await board.answer('4400', 'Roll call complete: 8 of 8 answered.')
    expect(board.keys()).toBe(41)
    expect(allOf(station, 'pressure-read')).toHaveLength(8)
    expect(allOf(station, 'seat-answered')).toHaveLength(8)
  })

  test('a finding at roll call takes 6 from the board, and the roll goes on', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('r', 'Roll call: E6-1')
    await board.start('f', 'A finding on which element?')
    await board.enter('What is wrong')
    await board.enter('Which is it?')
    await board.enter('Tag it out of service?')
    await board.enter('After the roll, s on the board puts a spare in.')
    expect(board.keys()).toBe(6)
    expect(allOf(station, 'seat-answered')).toHaveLength(1)
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
    await board.start('s', /> fits: C-9/)
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

  test('with a PIN of each officer it takes their digits and an Enter each more: 15', async () => {
    const station = engine()
    recorded(station, [
      { do: 'set-pin', by: 'M-207', pin: '2468' },
      { do: 'set-pin', by: 'M-104', pin: '1357' },
    ])
    const board = await openBoardHere({ station })
    await board.start('h', 'Hand over to whom? Platoon C is due next')
    await board.enter('reads this back')
    await board.press('down')
    await board.see(/> .*has read this back/)
    await board.enter('The PIN of Cai Lindqvist (M-207), who has read this back?')
    await board.type('2468')
    await board.see('> ****')
    await board.enter('The PIN of Ada Varga (M-104)?')
    await board.type('1357')
    await board.see('> ****')
    await board.enter(/signs off and hands tour .* over to/)
    await board.enter(/is handed over. It is sealed./)
    expect(board.keys()).toBe(15)
    expect(allOf(station, 'tour-handed-over')).toMatchObject([{ data: { byPin: true, readBackByPin: true } }])
  })
})
