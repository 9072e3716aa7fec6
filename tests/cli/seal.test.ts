// Seals and keys by subcommand: made at the hand-over, checked, printed on the log, and used from paper.
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { bayboard, fileWith, journalOf, lines, newPlace, record, recorded } from './run.ts'
import { emptyStation, HOUSE } from './two-seats.ts'

const by = 'M-104'
const tour = (id: string) => [
  { do: 'open-tour', by, tour: id, platoon: 'B', officer: by, on: '2026-11-24' },
  { do: 'note', by, text: `in ${id}` },
  { do: 'hand-over', by, to: by },
]
const sealed = (): string => {
  const station = emptyStation()
  recorded(station, [...HOUSE, ...tour('T-1'), ...tour('T-2')])
  return station
}

let station = ''
beforeAll(() => {
  station = sealed()
})
const keptSeal = (name = 'T-2.note') => readFileSync(join(station, 'seals', name), 'utf8')

describe('bayboard verify', () => {
  test('counts the seals that hold, and against one kept elsewhere says for how many lines it speaks', () => {
    const file = fileWith(keptSeal(), 'kept.note')
    const { status, stdout } = bayboard(['verify', '--against', file], { station })
    expect(status).toBe(0)
    expect(stdout).toContain('Seals in the folder seals: 2 of 2 hold.')
    expect(stdout).toContain(`Against ${file}: it holds. The first `)
  })

  test.each(['json', 'text', 'csv'])('takes the exported log as %s for a seal kept on paper', (format) => {
    const log = bayboard(['export', '--format', format], { station }).stdout
    const file = fileWith(log, `log.${format}`)
    expect(bayboard(['verify', '--against', file], { station })).toMatchObject({
      status: 0,
      stdout: expect.stringContaining('it holds'),
    })
    const forged = fileWith(log.replaceAll('tour T-2', 'tour T-1'))
    expect(bayboard(['verify', '--against', forged], { station }).status).toBe(1)
  })

  test('takes a log as CSV that a spreadsheet has saved again with a mark and semicolons', () => {
    const log = bayboard(['export', '--format', 'csv'], { station }).stdout
    const again = `\uFEFF${log.replaceAll(',', ';')}`
    const { status, stdout } = bayboard(['verify', '--against', fileWith(again, 'log.csv')], { station })
    expect({ status, stdout }).toMatchObject({ status: 0, stdout: expect.stringContaining('it holds') })
  })

  test.each(['json', 'text', 'csv'])(
    'a log as %s of a tour that is still open is held against the journal by the length and hash it tells',
    (format) => {
      const other = sealed()
      recorded(other, [tour('T-3')[0]!])
      const log = bayboard(['export', '--format', format], { station: other }).stdout
      const file = fileWith(log, `log.${format}`)
      const same = bayboard(['verify', '--against', file], { station: other })
      const agree = `Against ${file}: It is not signed; its length and hash agree with the journal.`
      expect(same).toMatchObject({ status: 0, stdout: expect.stringContaining(agree) })
      writeFileSync(join(other, 'journal.jsonl'), journalOf(station))
      const cut = bayboard(['verify', '--against', file], { station: other })
      expect(cut).toMatchObject({ status: 1, stdout: expect.stringContaining('it was shortened') })
    },
  )

  test('of a PDF, and of a file that holds no seal, says what a seal is read from', () => {
    const words = 'A seal is read from its note, or from a readiness log as text, CSV or JSON.'
    const pdf = join(newPlace(), 'log.pdf')
    expect(bayboard(['export', '--format', 'pdf', '--out', pdf], { station }).status).toBe(0)
    const ofPdf = bayboard(['verify', '--against', pdf], { station })
    expect(ofPdf).toMatchObject({ status: 3, stdout: '', stderr: expect.stringContaining(words) })
    const other = bayboard(['verify', '--against', fileWith('id,kind\nC-1,helmet\n')], { station })
    expect(other).toMatchObject({ status: 1, stdout: expect.stringContaining(words) })
  })

  test('a journal cut at a line boundary verifies by itself, and not against the seal', () => {
    const other = sealed()
    const all = lines(journalOf(other))
    writeFileSync(join(other, 'journal.jsonl'), `${all.slice(0, -1).join('\n')}\n`)
    const kept = fileWith(readFileSync(join(other, 'seals', 'T-2.note'), 'utf8'))
    rmSync(join(other, 'seals'), { recursive: true })
    expect(bayboard(['verify'], { station: other }).status).toBe(0)
    const { status, stdout } = bayboard(['verify', '--against', kept], { station: other })
    expect(status).toBe(1)
    expect(stdout).toContain(`it was shortened. Line ${all.length} is missing.`)
  })

  test('the first line is the verdict on all of it: a cut journal whose seals are still there does not verify', () => {
    const other = sealed()
    const all = lines(journalOf(other))
    const verdictOn = (kept: number): string | undefined => {
      writeFileSync(join(other, 'journal.jsonl'), `${all.slice(0, kept).join('\n')}\n`)
      return lines(bayboard(['verify'], { station: other }).stdout)[0]
    }
    const one =
      'The journal does not verify: 1 of 2 seals does not hold, as told below. Its own chain holds: '
    expect(verdictOn(all.length - 1)).toContain(`${one}${all.length - 1} lines, head `)
    expect(verdictOn(3)).toContain('The journal does not verify: 2 of 2 seals do not hold')
  })

  test('no seal is said to hold over a line that has been changed, whether it is kept here or elsewhere', () => {
    const other = sealed()
    const path = join(other, 'journal.jsonl')
    const kept = fileWith(readFileSync(join(other, 'seals', 'T-2.note'), 'utf8'))
    writeFileSync(path, journalOf(other).replace('in T-1', 'in T-9'))
    const { status, stdout } = bayboard(['verify', '--against', kept], { station: other })
    const changed = lines(journalOf(other)).findIndex((line) => line.includes('in T-9')) + 1
    expect(status).toBe(1)
    expect(stdout).toContain('Seals in the folder seals: 0 of 2 hold.')
    expect(stdout).toContain(`line ${changed}, which it covers, is not sound`)
    expect(stdout).not.toContain('it holds')
  })

  test('as JSON tells each seal, the keys and what has none', () => {
    const { stdout } = bayboard(['verify', '--json'], { station })
    expect(JSON.parse(stdout)).toMatchObject({
      verifies: true,
      seals: [
        { seal: 'T-1.note', holds: true },
        { seal: 'T-2.note', holds: true },
      ],
      against: [],
      unsealed: [],
      keys: [{ replaces: null }],
    })
  })

  test.each([
    ['a seal that is not there', ['--against', '/nowhere/kept.note'], 3, 'cannot be read'],
    ['a key that is none', ['--key', 'nonsense'], 2, 'is no public key'],
  ])('%s', (_, args, exit, words) => {
    const { status, stderr } = bayboard(['verify', ...args], { station })
    expect({ status, lines: lines(stderr).length }).toEqual({ status: exit, lines: 1 })
    expect(stderr).toContain(words)
  })
})

describe('bayboard seal', () => {
  test('makes what is missing, replaces nothing, and shows the newest', () => {
    const other = sealed()
    const kept = readFileSync(join(other, 'seals', 'T-2.note'), 'utf8')
    rmSync(join(other, 'seals', 'T-1.note'))
    expect(bayboard(['verify'], { station: other }).stdout).toContain('Handed over without a seal: T-1.')
    const made = bayboard(['seal'], { station: other })
    expect(made).toMatchObject({ status: 0, stderr: '' })
    expect(made.stdout).toMatch(/^Sealed tour T-1: .*T-1\.note\n/)
    expect(made.stdout).toContain(kept)
    expect(readFileSync(join(other, 'seals', 'T-2.note'), 'utf8')).toBe(kept)
    expect(bayboard(['seal'], { station: other }).stdout).toContain('Every hand-over has its seal: 2.')
    expect(bayboard(['verify'], { station: other }).stdout).toContain('2 of 2 hold.')
  })

  test('before the first hand-over has nothing to seal', () => {
    expect(bayboard(['seal'], { station: emptyStation() })).toMatchObject({ status: 1, stdout: '' })
  })

  test('a hand-over that could not be sealed is accepted all the same, and the complaint says what to do', () => {
    const other = sealed()
    renameSync(join(other, 'keys'), join(other, 'keys-elsewhere'))
    const [open, , handOver] = tour('T-3')
    recorded(other, [open!])
    const { status, answers } = record(other, [handOver!])
    expect({ status, answers }).toEqual({ status: 0, answers: [{ accepted: [expect.any(Number)] }] })
    expect(bayboard(['seal'], { station: other })).toMatchObject({
      status: 3,
      stderr: expect.stringContaining('Bring the folder keys back from a copy'),
    })
    expect(bayboard(['key'], { station: other }).status).toBe(1)
    renameSync(join(other, 'keys-elsewhere'), join(other, 'keys'))
    expect(bayboard(['seal'], { station: other }).status).toBe(0)
    expect(existsSync(join(other, 'seals', 'T-3.note'))).toBe(true)
  })
})

describe('bayboard key', () => {
  test('shows the public key and never a private one', () => {
    const { status, stdout } = bayboard(['key'], { station })
    expect(status).toBe(0)
    expect(stdout).toMatch(/^bayboard\/[a-z0-9-]+\+[0-9a-f]{8}\+\S+\n$/)
    expect(bayboard(['verify', '--key', stdout.trim()], { station }).status).toBe(0)
  })

  test('make needs a member and a reason where there is a key already', () => {
    const other = sealed()
    const replace = ['key', 'make', '--replace']
    expect(bayboard(replace, { station: other }).status).toBe(2)
    expect(bayboard([...replace, '--by', by], { station: other }).status).toBe(2)
    expect(bayboard([...replace, '--by', 'M-999', '--why', 'x'], { station: other }).status).toBe(1)
    expect(readdirSync(join(other, 'keys'))).toHaveLength(1)
    const made = bayboard([...replace, '--by', by, '--why', 'new machine'], { station: other })
    expect(made.status).toBe(0)
    expect(readdirSync(join(other, 'keys'))).toHaveLength(2)
    expect(journalOf(other)).not.toContain('PRIVATE')
    recorded(other, tour('T-3'))
    expect(bayboard(['verify'], { station: other }).stdout).toContain('3 of 3 hold.')
  })
})

test('a key that works is not replaced unasked, and what it sealed is said', () => {
  const other = sealed()
  const before = journalOf(other)
  const make = ['key', 'make', '--by', by, '--why', 'a second time by mistake']
  const { status, stdout, stderr } = bayboard(make, { station: other })
  expect({ status, stdout }).toEqual({ status: 1, stdout: '' })
  expect(stderr).toBe(
    'bayboard: There is a key and it works: it sealed 2 tours, the last by name T-2. No key was made. To make another in its place, add --replace.\n',
  )
  expect(journalOf(other)).toBe(before)
  const fresh = emptyStation()
  recorded(fresh, HOUSE)
  expect(bayboard(make, { station: fresh }).status).toBe(0)
  expect(bayboard(make, { station: fresh }).stderr).toContain('it has sealed nothing yet')
})

test('a key whose private half is lost is replaced without more words', () => {
  const other = sealed()
  rmSync(join(other, 'keys'), { recursive: true })
  const made = bayboard(['key', 'make', '--by', by, '--why', 'lost'], { station: other })
  expect(made).toMatchObject({ status: 0, stderr: '' })
})

describe('a journal that disagrees with its seals', () => {
  test('a cut end is said at opening, and nothing is recorded over it', () => {
    const other = sealed()
    const all = lines(journalOf(other))
    const cut = `${all.slice(0, -1).join('\n')}\n`
    writeFileSync(join(other, 'journal.jsonl'), cut)
    const status = bayboard(['status'], { station: other })
    expect(status.status).toBe(3)
    expect(status.stderr).toContain(
      `The journal was cut: the seal of tour T-2 covers ${all.length} lines and ${all.length - 1} are left.`,
    )
    const [answer] = record(other, [{ do: 'note', by, text: 'over it' }]).answers
    expect(JSON.stringify(answer)).toContain('The journal was cut')
    expect(journalOf(other)).toBe(cut)
  })

  test('what was recorded after the newest seal is no cut', () => {
    const other = sealed()
    recorded(other, [{ do: 'note', by, text: 'after' }])
    expect(bayboard(['status'], { station: other }).stderr).toBe('')
  })
})
