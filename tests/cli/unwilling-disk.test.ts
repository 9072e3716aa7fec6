// What the disk does not give or take: the subcommands say so, end with 3, and lose nothing that was accepted.
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import {
  asLines,
  bayboard,
  fileWith,
  journalOf,
  lines,
  newPlace,
  record,
  recorded,
  shell,
  type Answer,
} from './run.ts'
import { emptyStation, fitStation } from './two-seats.ts'

describe('a folder that cannot be read ends with 3', () => {
  const SUBCOMMANDS = [
    ['status'],
    ['record'],
    ['verify'],
    ['export'],
    ['history', 'C-1'],
    ['policy', 'show'],
    ['board'],
  ]
  const file = join(newPlace(), 'a-file')
  writeFileSync(file, 'kept')
  const odd = newPlace()
  mkdirSync(join(odd, 'journal.jsonl'))

  test.each(SUBCOMMANDS)(
    '%s, where the path leads through a file or a folder is in the place of the journal',
    (...args) => {
      for (const [station, words] of [
        [join(file, 'station'), 'part of the path is not a folder (ENOTDIR)'],
        [odd, 'there is a folder in its place (EISDIR)'],
      ] as const) {
        const { status, stdout, stderr } = bayboard(args, { station })
        expect({ status, stdout }).toEqual({ status: 3, stdout: '' })
        expect(stderr).toContain(words)
        expect(lines(stderr)).toHaveLength(1)
      }
    },
  )
})

// The shell's limit on the size of a file stands for a disk that is full: a write is cut short, the next one fails.
describe('a file that cannot grow', () => {
  const note = (text: string) => ({ do: 'note', by: 'M-104', text })

  test('stops recording: what was answered as accepted is there, what was not is not', () => {
    const station = emptyStation()
    recorded(station, [{ do: 'add-member', by: 'setup', member: { id: 'M-104', name: 'Ada Varga' } }])
    const notes = Array.from({ length: 20 }, (_, index) => note(`note ${index}`))
    const file = fileWith(asLines(notes), 'notes.jsonl')
    const ran = shell(`ulimit -f 2; bayboard record --station '${station}' --file '${file}'`)
    expect(ran.status).toBe(3)
    expect(ran.stderr).toMatch(/^bayboard: The journal cannot be written: only \d+ of \d+ bytes were written/)
    const answers = lines(ran.stdout).map((line): Answer => JSON.parse(line))
    const accepted = answers.filter((answer) => 'accepted' in answer)
    expect(accepted.length).toBeGreaterThan(0)
    expect(answers).toEqual([
      ...accepted,
      { refused: expect.stringContaining('What was accepted before is safe on disk.') },
    ])
    // Two events came before the notes, and the next start sets the part of a line aside with an event of its own.
    const next = accepted.length + 3
    expect(record(station, [note('after')])).toEqual({ status: 0, answers: [{ accepted: [next + 1] }] })
    const texts = lines(journalOf(station)).flatMap((line) => /"text":"([^"]*)"/.exec(line)?.[1] ?? [])
    expect(texts).toEqual([...accepted.map((_, index) => `note ${index}`), 'after'])
    expect(bayboard(['verify'], { station }).status).toBe(0)
  })

  test('is not exported by half: no file is left', () => {
    const station = fitStation()
    const place = newPlace()
    const out = join(place, 'log.json')
    const ran = shell(`ulimit -f 1; bayboard export --format json --out '${out}' --station '${station}'`)
    expect(ran).toMatchObject({ status: 3, stdout: '' })
    expect(ran.stderr).toContain(
      `${out} cannot be written: the file has reached the largest size allowed (EFBIG).`,
    )
    expect(readdirSync(place)).toEqual([])
  })
})
