// A hand-held scanner at the board: what it sends shows a card, and is never a command, an answer or a quit.
import { describe, expect, test } from 'vitest'
import { engine, digestOf, hasPty, openBoardHere } from './at-the-board.ts'

describe.skipIf(!hasPty)('needs a pseudo-terminal: a scan', () => {
  const station = hasPty ? engine() : ''

  test('on the board shows the card of what was scanned', async () => {
    const board = await openBoardHere({ station })
    await board.scan('C-1')
    const screen = await board.see('S-C-1')
    expect(screen.join('\n')).toMatch(/oat shell C-1/)
    await board.press('escape')
    await board.see('quit')
  })

  test('in a list puts what it names in hand, and in a last look is no answer; neither records anything', async () => {
    const board = await openBoardHere({ station })
    const before = digestOf(station)
    await board.start('t', 'Tag which element out of service?')
    await board.scan('K-1')
    await board.see('Read "K-1": it is in hand. Enter takes it.')
    await board.see(/> Hood K-1/)
    await board.scan('ZZ-404')
    await board.see('a scan is not an answer')
    await board.enter('What is wrong with hood K-1')
    await board.enter('Which is it?')
    await board.enter('Tag it out of service?')
    await board.scan('C-1')
    const screen = await board.see('a scan is not an answer')
    expect(screen.join('\n')).toContain('Tag it out of service?')
    expect(digestOf(station)).toBe(before)
  })

  test('with the prefix of the station, in a burst of three, gives three cards one after the other', async () => {
    const board = await openBoardHere({ station, env: { BAYBOARD_SCAN_PREFIX: '~' } })
    await board.scan('~C-1\r~K-1\r\n~B-1')
    const screen = await board.see('Boots B-1')
    expect(screen.join('\n')).toContain('What boots are for')
    await board.press('escape')
    await board.see('q quit')
  })

  test('of a label that nobody here has says what was read', async () => {
    const board = await openBoardHere({ station })
    const before = digestOf(station)
    await board.scan('ZZ-404')
    await board.see('Read "ZZ-404": no element, member or riding position here')
    expect(digestOf(station)).toBe(before)
  })

  test('that spells q, Enter and the letters of actions neither quits, nor answers, nor opens a dialog', async () => {
    const board = await openBoardHere({ station })
    const before = digestOf(station)
    await board.scan('qtq')
    await board.see('Read "qtq"')
    await board.start('r', 'Roll call: E6-1')
    for (const ending of ['\r', '\n', '\r\n', '\t']) {
      await board.scan('4400', ending)
      const screen = await board.see('Read "4400"')
      expect(screen.join('\n')).toContain('Roll call: E6-1')
      await board.press('left')
      await board.seeNoMore('Read "4400"')
    }
    expect(digestOf(station)).toBe(before)
  })

  test('typed slowly, the same letters are keys: t asks what to tag, and the rest narrows the list', async () => {
    const board = await openBoardHere({ station })
    await board.start('t', 'Tag which element out of service?')
    await board.type('hood')
    await board.see('Narrowed by "hood"')
    await board.press('escape')
    await board.seeNoMore('Narrowed by')
    await board.press('escape')
    await board.see('q quit')
    expect(await board.leave()).toMatchObject({ code: 0 })
  })
})
