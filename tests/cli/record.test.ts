// `bayboard record`: one JSON answer for each command, in order, from standard input or a file.
import { appendFileSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { asLines, bayboard, fileWith, journalOf, lines, newPlace, record, shell } from './run.ts'
import { emptyStation, instant } from './two-seats.ts'

const ada = { do: 'add-member', by: 'setup', member: { id: 'M-104', name: 'Ada Varga' } }
const note = (text: string, more: object = {}) => ({ do: 'note', by: 'M-104', text, ...more })

test('answers line by line, goes on after a refusal, and ends with 1 because of it', () => {
  const station = emptyStation()
  const { status, answers } = record(station, [ada, ada, note('kept')])
  expect(answers).toEqual([
    { accepted: [2] },
    { refused: 'M-104 is already the member Ada Varga. Nothing was added.' },
    { accepted: [3] },
  ])
  expect(status).toBe(1)
  expect(lines(journalOf(station))).toHaveLength(3)
})

test('the help shows commands that are taken as they stand there', () => {
  const shown = lines(bayboard(['record', '--help']).stdout).filter((line) => line.startsWith('  {'))
  const commands = shown.map((line) => JSON.parse(line) as typeof ada)
  const coat = { do: 'add-element', by: 'setup', element: { id: 'C-1041', kind: 'coat-shell' } }
  expect(record(emptyStation(), [ada, coat, ...commands])).toMatchObject({
    status: 0,
    answers: { length: 4 },
  })
})

test('ends with 0 when everything was accepted, and when there was nothing to do', () => {
  const station = emptyStation()
  expect(record(station, [ada, note('one')]).status).toBe(0)
  expect(record(station, [])).toEqual({ status: 0, answers: [] })
})

test('skips blank lines, takes lines ended by CR LF, and a last line without its end', () => {
  const station = emptyStation()
  const input = `\n${JSON.stringify(ada)}\r\n   \n\n${JSON.stringify(note('last'))}`
  const { status, stdout } = bayboard(['record'], { station, input })
  expect({ status, stdout }).toEqual({ status: 0, stdout: '{"accepted":[2]}\n{"accepted":[3]}\n' })
})

test('names the line that is not JSON, counting blank ones, and goes on', () => {
  const station = emptyStation()
  const { status, stdout } = bayboard(['record'], { station, input: `\n{"do":\n${JSON.stringify(ada)}\n` })
  const [first, second] = lines(stdout)
  expect(JSON.parse(first!)).toEqual({
    refused: expect.stringMatching(/^Line 2 is not JSON\. Write one command/),
  })
  expect(second).toBe('{"accepted":[2]}')
  expect(status).toBe(1)
})

test('answers a command it does not know with those it knows', () => {
  const { answers } = record(emptyStation(), [{ do: 'polish', by: 'setup' }])
  expect(answers).toEqual([
    { refused: expect.stringMatching(/^"polish" is not a command\. The commands are: add-rig, .*hand-over/) },
  ])
})

test('quotes nothing that could drive a terminal', () => {
  const input = '{"do":"\\u001b[2J\\u009b5n\\u202e"}\n{"do":"note","by":"setup","text":"x","\\u009bk":1}\n'
  const { stdout } = bayboard(['record'], { station: emptyStation(), input })
  expect(lines(stdout)).toHaveLength(2)
  expect(stdout).not.toMatch(/[\u007f-\u009f\u202e]|\\u00(1b|9b)|\\u202e/)
})

test('reads a file, keeps the instant a line names and says that it was recorded late', () => {
  const station = emptyStation()
  const at = instant(86_400_000)
  const file = fileWith(asLines([ada, note('yesterday', { at })]), 'commands.jsonl')
  const { status, stdout } = bayboard(['record', '--file', file], { station })
  expect({ status, stdout }).toEqual({ status: 0, stdout: '{"accepted":[2]}\n{"accepted":[3]}\n' })
  const last = JSON.parse(lines(journalOf(station)).at(-1)!) as { at: string; data: { recordedAt: string } }
  expect(last.at).toBe(at)
  expect(Date.parse(last.data.recordedAt) - Date.parse(at)).toBeGreaterThanOrEqual(86_400_000)
})

test('refuses an instant that is still to come', () => {
  const station = emptyStation()
  const { status, answers } = record(station, [{ ...ada, at: instant(-600_000) }])
  expect(answers).toEqual([{ refused: expect.stringContaining('"at" may name the past, not the future.') }])
  expect(status).toBe(1)
})

describe('what cannot be read ends with 3', () => {
  test('a file that is not there', () => {
    const file = join(newPlace(), 'none.jsonl')
    const { status, stdout, stderr } = bayboard(['record', '--file', file], { station: emptyStation() })
    expect({ status, stdout }).toEqual({ status: 3, stdout: '' })
    expect(stderr).toBe(
      `bayboard: ${file} cannot be read: it is not there (ENOENT). Every command answered before is recorded.\n`,
    )
  })

  test('a folder, named or on the standard input', () => {
    const station = emptyStation()
    const named = bayboard(['record', '--file', newPlace()], { station })
    expect(named).toMatchObject({ status: 3, stdout: '', stderr: expect.stringContaining('(EISDIR)') })
    const given = shell(`bayboard record --station '${station}' < '${newPlace()}'`)
    expect(given).toMatchObject({ status: 3, stdout: '', stderr: expect.stringContaining('is a folder') })
  })

  test('a station that is not there, before any line is read', () => {
    const { status, stdout, stderr } = bayboard(['record'], { station: newPlace(), input: asLines([ada]) })
    expect({ status, stdout }).toEqual({ status: 3, stdout: '' })
    expect(stderr).toContain('There is no station in ')
  })

  test('a damaged journal: the first command is answered with the reason and no byte changes', () => {
    const station = emptyStation()
    appendFileSync(join(station, 'journal.jsonl'), 'not a line of a journal\n')
    const before = readFileSync(join(station, 'journal.jsonl'))
    const { status, answers } = record(station, [ada, note('no')])
    expect(answers).toEqual([{ refused: expect.stringContaining('The journal is damaged at line 2 ') }])
    expect(status).toBe(3)
    expect(readFileSync(join(station, 'journal.jsonl'))).toEqual(before)
  })
})

test('sets an unfinished last line aside and goes on', () => {
  const station = emptyStation()
  appendFileSync(join(station, 'journal.jsonl'), '{"seq":2,"at"')
  expect(record(station, [ada])).toEqual({ status: 0, answers: [{ accepted: [3] }] })
  const [aside] = readdirSync(station).filter((name) => name.startsWith('journal.torn-'))
  expect(readFileSync(join(station, aside!), 'utf8')).toBe('{"seq":2,"at"')
  expect(bayboard(['verify'], { station }).status).toBe(0)
})

test('two programs that record at the same time lose nothing and leave one chain', () => {
  const station = emptyStation()
  expect(record(station, [ada]).status).toBe(0)
  const [one, other] = ['one', 'other'].map((name) =>
    fileWith(asLines(Array.from({ length: 30 }, (_, index) => note(`${name} ${index}`))), 'notes.jsonl'),
  )
  const each = (file: string) => `bayboard record --station '${station}' --file '${file}'`
  const ran = shell(`${each(one!)} & ${each(other!)} && wait $!`)
  expect(ran).toMatchObject({ status: 0, stderr: '' })
  const seqs = lines(ran.stdout).map((line) => (JSON.parse(line) as { accepted: number[] }).accepted[0]!)
  expect(seqs.toSorted((a, b) => a - b)).toEqual(Array.from({ length: 60 }, (_, index) => index + 3))
  expect(bayboard(['verify'], { station }).stdout).toContain('The journal verifies: 62 lines')
})
