// The board killed outright in the middle of work, and a last line torn by it: what was acknowledged is there.
import { appendFileSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { bayboard, journalOf, lines } from '../cli/run.ts'
import { engine, allOf, eventsOf, hasPty, openBoardHere } from './at-the-board.ts'

describe.skipIf(!hasPty)('needs a pseudo-terminal: a board that is killed', () => {
  test('has everything on disk that it acknowledged, and the next start shows it', async () => {
    const station = engine()
    const board = await openBoardHere({ station })
    await board.start('t', 'Tag which element out of service?')
    await board.choose('hood', 'What is wrong')
    await board.enter('Which is it?')
    await board.enter('Tag it out of service?')
    await board.enter('Tagged K-1 out of service.')
    // Another act is on its way when the end comes; it may be there or not, but never in part.
    await board.start('n', 'The note')
    await board.write('cut off', 'Write this note into the log?')
    await board.press('enter')
    board.kill('SIGKILL')
    await board.exit

    expect(allOf(station, 'element-tagged').map(({ data }) => data.element)).toEqual(['K-1'])
    expect(bayboard(['verify'], { station }).status).toBe(0)
    const again = await openBoardHere({ station })
    const screen = await again.see(/> Officer\*? +Ada Varga +■ out of service/)
    expect(screen.join('\n')).toContain('Hood K-1: tagged')
    await again.start('n', 'The note')
    await again.write('works again', 'Write this note into the log?')
    await again.enter('Noted.')
    expect(allOf(station, 'note-made').at(-1)?.data.text).toBe('works again')
  })

  test.each([40, 90, 160, 260])(
    'at any moment of a run of acts has each one whole or not at all: after %i ms',
    async (ms) => {
      const station = engine()
      const before = eventsOf(station).length
      const board = await openBoardHere({ station })
      await board.start('s', 'Swap which element?')
      await board.enter('Which goes in?')
      await board.enter('Put coat shell C-9, coat liner L-9 and')
      setTimeout(() => board.kill('SIGKILL'), ms)
      await Promise.race([board.press('enter'), board.exit])
      await board.exit
      expect(bayboard(['verify'], { station }).status).toBe(0)
      const swaps = allOf(station, 'element-swapped').map(({ data }) => data.in)
      expect(['C-9', 'L-9', 'D-9'].slice(0, swaps.length)).toEqual(swaps)
      expect(eventsOf(station).length).toBe(before + swaps.length)
      if (board.screen().join('\n').includes('swapped in')) expect(swaps).toHaveLength(3)
    },
  )

  test('that tore its last line: the torn bytes are set aside at the next act, nothing else is lost, and the log says so', async () => {
    const station = engine()
    const whole = journalOf(station)
    const torn = lines(whole).at(-1)!.slice(0, 70)
    appendFileSync(join(station, 'journal.jsonl'), torn)
    const board = await openBoardHere({ station })
    await board.see('Engine 6 can ride')
    await board.start('n', 'The note')
    await board.write('after the crash', 'Write this note into the log?')
    await board.enter('Noted.')

    expect(journalOf(station).startsWith(whole)).toBe(true)
    const aside = readdirSync(station).filter((name) => name.startsWith('journal.torn-'))
    expect(aside.map((name) => readFileSync(join(station, name), 'utf8'))).toEqual([torn])
    const types = eventsOf(station)
      .slice(lines(whole).length)
      .map((each) => each.type)
    expect(types).toEqual(['journal-recovered', 'note-made'])
    expect(bayboard(['verify'], { station }).status).toBe(0)
    await board.start('l', 'The log, newest first')
    await board.see(/unfinished|set aside/)
  })
})
