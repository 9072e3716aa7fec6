// A mistake mended at the keyboard: undone by one key, corrected in the log, both versions in the journal.
import { describe, expect, test } from 'vitest'
import { bayboard } from '../cli/run.ts'
import { allOf, engine, eventsOf, hasPty, openBoardHere } from './at-the-board.ts'

describe.skipIf(!hasPty)('needs a pseudo-terminal: a mistake', () => {
  test('just made is undone in two keys, and what will be recorded is read first', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('t', 'Tag which element out of service?')
    await board.choose('hood', 'What is wrong')
    await board.enter('Which is it?')
    await board.enter('Tag it out of service?')
    await board.enter('Tagged K-1 out of service.')
    await board.press('escape')
    await board.see('q quit')
    const keys = board.keys()
    const before = eventsOf(station).length
    await board.start('-', 'This will be recorded:')
    await board.see('tagged by mistake.')
    expect(eventsOf(station)).toHaveLength(before)
    await board.enter('Undone; both stay in the log.')
    expect(board.keys() - keys).toBe(2)
    expect(allOf(station, 'tag-lifted').at(-1)!.data).toMatchObject({
      element: 'K-1',
      basis: 'tagged by mistake',
    })
    expect(bayboard(['verify'], { station }).status).toBe(0)
  })

  test('found later is corrected in the log, filtered to its element, with both versions in sight', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('p', 'Pressure of cylinder Y-1')
    await board.type('4300')
    await board.see('> 4300')
    await board.enter('Esc one step back')
    await board.enter('Read 4300 psi on Y-1.')
    const read = allOf(station, 'pressure-read').at(-1)!
    await board.start('l', 'The log, newest first')
    await board.start('e', 'Show the log of which element?')
    await board.choose('y-1', 'The log of element Y-1 only')
    await board.start('c', 'What is wrong in event')
    await board.enter('(it says: 4300)')
    await board.write('4400', 'Why is it corrected?')
    await board.write('misread the gauge', 'As amended: Pressure in psi: 4400, was 4300.')
    await board.enter('is amended; both versions stay in the log')
    await board.see('As first recorded: Read 4300 psi')
    expect(allOf(station, 'event-amended').at(-1)!.data).toMatchObject({
      seq: read.seq,
      was: { psi: 4300 },
      with: { psi: 4400 },
    })
    await board.press('escape')
    await board.see(/The log, newest first: \d+ of/)
    await board.press('escape')
    await board.see('q quit')
  })
})
