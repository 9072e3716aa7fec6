// The newest lines of a journal, for the log on the board.
import { appendFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readNewest } from '../../src/store/newest.ts'
import { draft, madeJournal, newFolder, pathIn } from './station-folder.ts'

const journal = (count: number, length = 10): string => {
  const folder = newFolder()
  const texts = Array.from({ length: count }, (_, index) => draft(`${index + 1} ${'x'.repeat(length)}`))
  madeJournal(folder, texts).close()
  return folder
}
const seqs = (folder: string, count: number) => readNewest(folder, count).map((each) => each.seq)

describe('the newest events', () => {
  it('come newest first, as many as were asked for', () => {
    expect(seqs(journal(9), 3)).toEqual([9, 8, 7])
  })
  it('are all there are when fewer are there', () => {
    expect(seqs(journal(2), 3)).toEqual([2, 1])
    expect(seqs(journal(3), 3)).toEqual([3, 2, 1])
  })
  it('are whole when the lines are longer than one step of reading', () => {
    expect(seqs(journal(4, 200_000), 2)).toEqual([4, 3])
    expect(seqs(journal(4, 200_000), 9)).toEqual([4, 3, 2, 1])
  })
  it('leave out a last line that is not whole', () => {
    const folder = journal(3)
    appendFileSync(pathIn(folder), '{"seq":4,"at":"2026')
    expect(seqs(folder, 2)).toEqual([3, 2])
  })
})
