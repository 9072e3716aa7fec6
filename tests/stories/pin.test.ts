// A PIN at the real board: the hand-over asks for it, a wrong one is refused, logged and asked for again.
import { describe, expect, test } from 'vitest'
import { bayboard, journalOf } from '../cli/run.ts'
import { allOf, engine, hasPty, openBoardHere } from './at-the-board.ts'

/** So long that no hash in the journal holds it by chance. */
const PIN = '471108155930'

describe.skipIf(!hasPty)('needs a pseudo-terminal: a PIN at the board', () => {
  test('is set unseen, asked for at the hand-over, and no wrong one passes or goes unnoticed', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('#', 'Whose PIN is set?')
    await board.enter('A new PIN for Ada Varga')
    await board.type(PIN)
    expect((await board.see('> ****')).join('')).not.toContain(PIN)
    await board.enter('The new PIN again?')
    await board.type(PIN)
    await board.see('> ****')
    await board.enter('Set the PIN of Ada Varga')
    await board.enter('The PIN of Ada Varga (M-104) is set.')
    await board.start('h', 'Hand over to whom?')
    await board.enter('reads this back')
    await board.press('down')
    await board.see(/> .*has read this back/)
    await board.enter('The PIN of Ada Varga (M-104)?')
    await board.type('1234')
    await board.see('> ****')
    await board.enter('signs off')
    await board.enter('That is not the PIN of Ada Varga')
    expect(allOf(station, 'tour-handed-over')).toEqual([])
    expect(allOf(station, 'pin-refused')).toMatchObject([
      { data: { member: 'M-104', for: 'hand-over', tries: 1 } },
    ])
    // The question stands again; the wait after one wrong PIN is a second.
    await board.see('The PIN of Ada Varga (M-104)?')
    await new Promise((done) => setTimeout(done, 1_100))
    await board.type(PIN)
    await board.see('> ****')
    await board.enter('signs off')
    await board.enter('is handed over. It is sealed.')
    expect(allOf(station, 'tour-handed-over')).toMatchObject([{ data: { byPin: true, readBack: true } }])
    expect(journalOf(station)).not.toContain(PIN)
    expect(bayboard(['verify'], { station }).status).toBe(0)
  })
})
