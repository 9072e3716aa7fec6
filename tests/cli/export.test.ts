// `bayboard export`: the readiness log of a tour in every format, written whole or not at all, and over nothing unasked.
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { beforeAll, describe, expect, test } from 'vitest'
import { readinessLogShape } from '../../src/exports/readiness-log.ts'
import { bayboard, fileWith, journalOf, lines, newPlace } from './run.ts'
import { answers, emptyStation, fitStation, TOUR } from './two-seats.ts'

let station = ''
beforeAll(() => {
  station = fitStation(
    answers('E6-1'),
    answers('E6-2', [{ element: 'H-2', point: 'cracked', matter: 'safety' }]),
  )
})
const exported = (...args: string[]) => bayboard(['export', ...args], { station })

const withoutClock = (text: string) => text.replaceAll(/\d\d:\d\d(:\d\d)?/g, '')

describe('to the standard output', () => {
  test('as text, the default, tells the tour, who may not ride and the finding', () => {
    const { status, stdout, stderr } = exported()
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    for (const words of ['Station 6', TOUR, 'Ada Varga', 'Helmet H-2', 'cracked'])
      expect(stdout).toContain(words)
  })

  test('as JSON has the published shape, with the length and the head of the journal', () => {
    const log = readinessLogShape.parse(JSON.parse(exported('--format', 'json').stdout))
    const all = lines(journalOf(station))
    expect(log.journal).toMatchObject({
      length: all.length,
      head: (JSON.parse(all.at(-1)!) as { hash: string }).hash,
    })
    expect(log.tour).toMatchObject({ id: TOUR, officer: 'M-104', closed: null })
    expect(log.rollCall).toMatchObject({ answered: 2, filled: 2, complete: true })
    expect(log.findings).toMatchObject([{ element: 'H-2', point: 'cracked', matter: 'safety', seat: 'E6-2' }])
  })

  test('as CSV is read by a strict reader, every row as wide as the first', () => {
    const { status, stdout } = exported('--format', 'csv')
    expect(status).toBe(0)
    const [header, ...rows] = parse(stdout, { bom: true }) as string[][]
    expect(header!.length).toBeGreaterThan(3)
    expect(rows.some((row) => row.some((cell) => cell.includes('cracked')))).toBe(true)
  })

  test('of a tour by its id is that of the last, which it is', () => {
    const [named, last] = [exported('--format', 'json', '--tour', TOUR), exported('--format', 'json')]
    const told = [named, last].map(({ stdout }) => readinessLogShape.parse(JSON.parse(stdout)).tour)
    expect(told[0]).toEqual(told[1])
  })
})

describe('to a file', () => {
  test('writes what the standard output would hold, and leaves no other file', () => {
    const out = join(newPlace(), 'log.txt')
    const { status, stdout } = exported('--out', out)
    expect({ status, stdout }).toEqual({ status: 0, stdout: `Wrote ${out}\n` })
    expect(readdirSync(join(out, '..'))).toEqual(['log.txt'])
    expect(withoutClock(readFileSync(out, 'utf8'))).toBe(withoutClock(exported().stdout))
  })

  test('makes no folder for a name that was mistyped', () => {
    const folder = newPlace()
    for (const force of [[], ['--force']]) {
      expect(exported('--out', join(folder, 'lgos', 'november', 'log.txt'), ...force)).toEqual({
        status: 3,
        stdout: '',
        stderr: `bayboard: There is no folder ${join(folder, 'lgos', 'november')}. Nothing was written. Make it, or mend the name.\n`,
      })
    }
    expect(readdirSync(folder)).toEqual([])
  })

  test('that is there is not replaced without --force', () => {
    const out = join(newPlace(), 'log.json')
    writeFileSync(out, 'mine')
    const refused = exported('--format', 'json', '--out', out)
    expect(refused).toMatchObject({ status: 3, stdout: '' })
    expect(refused.stderr).toBe(
      `bayboard: ${out} is already there. Nothing was written. Add --force to replace it.\n`,
    )
    expect(readFileSync(out, 'utf8')).toBe('mine')
    expect(exported('--format', 'json', '--out', out, '--force').status).toBe(0)
    expect(readinessLogShape.safeParse(JSON.parse(readFileSync(out, 'utf8'))).success).toBe(true)
    expect(readdirSync(join(out, '..'))).toEqual(['log.json'])
  })

  test.each([
    ['under a file', (folder: string) => join(folder, 'a-file', 'log.txt'), /cannot be written/],
    ['that is a folder', (folder: string) => join(folder, 'a-folder'), /cannot be written|is already there/],
    ['with a name too long', (folder: string) => join(folder, 'x'.repeat(300)), /cannot be written/],
  ])('%s ends with 3, says why, and leaves nothing behind', (_, outIn, words) => {
    const folder = newPlace()
    writeFileSync(join(folder, 'a-file'), 'kept')
    mkdirSync(join(folder, 'a-folder'))
    exported('--out', join(folder, 'a-folder', 'log.txt'))
    for (const force of [[], ['--force']]) {
      const { status, stdout, stderr } = exported('--out', outIn(folder), ...force)
      expect({ status, stdout }).toEqual({ status: 3, stdout: '' })
      expect(stderr).toMatch(words)
      expect(stderr).not.toContain('did not foresee')
    }
    expect(readdirSync(folder).toSorted()).toEqual(['a-file', 'a-folder'])
    expect(readdirSync(join(folder, 'a-folder'))).toEqual(['log.txt'])
    expect(readFileSync(join(folder, 'a-file'), 'utf8')).toBe('kept')
  })
})

test('changes no byte of the journal', () => {
  const before = journalOf(station)
  for (const format of ['text', 'csv', 'json']) exported('--format', format)
  expect(journalOf(station)).toBe(before)
})

test('a format there is not is wrong usage', () => {
  expect(exported('--format', 'rtf')).toEqual({
    status: 2,
    stdout: '',
    stderr: 'bayboard: The readiness log is not made as rtf. Choose one of: text, csv, json, pdf.\n',
  })
})

test('who wants a calendar of it is told where the calendar is', () => {
  const { status, stderr } = exported('--format', 'ics')
  expect(status).toBe(2)
  expect(stderr).toContain('A calendar of what comes due: bayboard forecast --format ics.')
})

test('a tour there is not is refused with those there are, and no file is made', () => {
  const out = join(newPlace(), 'log.txt')
  const { status, stderr } = exported('--tour', '2001-01-01-A', '--out', out)
  expect(status).toBe(1)
  expect(stderr).toContain(`There is no tour 2001-01-01-A in this journal. The last tours are: ${TOUR}.`)
  expect(existsSync(out)).toBe(false)
})

test('before the first tour there is no log', () => {
  const { status, stderr } = bayboard(['export'], { station: emptyStation() })
  expect(status).toBe(1)
  expect(stderr).toMatch(/^bayboard: No tour has been opened at this station yet/)
})

describe('an exported log in JSON is judged again from its own evidence', () => {
  const judged = (text: string) =>
    bayboard(['status', '--log', fileWith(text, 'log.json')], { station: newPlace() })

  test('without the station: the same riding positions and reasons, and the status that goes with them', () => {
    const { status, stdout, stderr } = judged(exported('--format', 'json').stdout)
    expect({ status, stderr }).toEqual({ status: 1, stderr: '' })
    expect(stdout).toContain('Helmet H-2: tagged, cracked')
  })

  test('and one whose verdicts were bettered is found out', () => {
    const log = readinessLogShape.parse(JSON.parse(exported('--format', 'json').stdout))
    for (const rig of log.board.rigs) rig.canRide = true
    const { status, stdout, stderr } = judged(JSON.stringify(log))
    expect(status).toBe(1)
    expect(stdout).toContain('Helmet H-2: tagged, cracked')
    expect(stderr).toContain('do not follow from its own evidence')
  })

  test('what is no such log is said so', () => {
    expect(judged('{}')).toMatchObject({
      status: 3,
      stderr: expect.stringContaining('is not a readiness log'),
    })
  })
})
