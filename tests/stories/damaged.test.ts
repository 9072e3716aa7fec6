// A journal that was damaged on the disk: the board opens, says so as long as it lasts, takes nothing and mends nothing.
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { bayboard, lines } from '../cli/run.ts'
import { engine, hasPty, openBoardHere, wordsOf } from './at-the-board.ts'

const bytesOf = (station: string): Buffer => readFileSync(join(station, 'journal.jsonl'))

/** Flips one bit of one byte; gives the number of its line. */
function damage(station: string, part: number): number {
  const bytes = bytesOf(station)
  const at = Math.floor(bytes.length * part)
  bytes[at] = bytes[at]! ^ 0x01
  writeFileSync(join(station, 'journal.jsonl'), bytes)
  return lines(bytes.subarray(0, at).toString()).length
}

/** A station of which nothing but the journal is left, as from a backup, with one bit flipped. */
function damagedStation(part: number): { station: string; line: number } {
  const station = engine()
  rmSync(join(station, 'snapshot.json'), { force: true })
  return { station, line: damage(station, part) }
}

const REFUSED = 'Nothing can be recorded, and the standing line says why.'

describe.skipIf(!hasPty)('needs a pseudo-terminal: a journal with one flipped bit', () => {
  test('near its end: the tour is shown, a tag is refused in words before anything is asked, and no byte changes', async () => {
    const { station, line } = damagedStation(0.995)
    const before = bytesOf(station)
    const board = await openBoardHere({ station })
    const screen = await board.see('NOTHING CAN BE RECORDED')
    expect(wordsOf(screen.join('\n'))).toContain(`The journal is damaged at line ${line} `)
    expect(screen.join('\n')).toContain('Ada Varga')
    const refused = await board.start('t', REFUSED)
    expect(refused.join('\n')).not.toContain('Tag which')
    await board.press('escape')
    await board.see('q quit')
    await board.see('NOTHING CAN BE RECORDED')
    expect(await board.leave()).toMatchObject({ code: 0 })
    expect(bytesOf(station)).toEqual(before)
    expect(existsSync(join(station, 'snapshot.json'))).toBe(false)
  })

  test('in the middle: a note is refused in words before anything is asked, and no byte changes', async () => {
    const { station, line } = damagedStation(0.5)
    const before = bytesOf(station)
    const board = await openBoardHere({ station })
    const screen = await board.see('NOTHING CAN BE RECORDED')
    expect(wordsOf(screen.join('\n'))).toContain(`The journal is damaged at line ${line} `)
    await board.start('n', REFUSED)
    expect(await board.leave()).toMatchObject({ code: 0 })
    expect(bytesOf(station)).toEqual(before)
  })
})

test('verify names the damaged line, and no log is exported that would leave out what follows it', () => {
  const station = engine()
  const line = damage(station, 0.5)
  expect(bayboard(['verify'], { station }).status).toBe(1)
  expect(bayboard(['verify'], { station }).stdout).toMatch(new RegExp(`\\bline ${line}\\b`, 'i'))
  const exported = bayboard(['export'], { station })
  expect(exported).toMatchObject({ status: 3, stdout: '' })
  expect(exported.stderr).toContain('No log was made, because it would not be whole.')
})
