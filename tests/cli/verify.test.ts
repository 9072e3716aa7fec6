// `bayboard verify`: an untouched journal verifies; any changed byte is named by its line; nothing is repaired.
import { appendFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { bayboard, journalOf, lines, newPlace, recorded } from './run.ts'
import { emptyStation, fitStation } from './two-seats.ts'

let station = ''
const path = () => join(station, 'journal.jsonl')
const headOf = (text: string): string => (JSON.parse(lines(text).at(-1)!) as { hash: string }).hash

beforeEach(() => {
  station = emptyStation()
  recorded(station, [
    { do: 'add-member', by: 'setup', member: { id: 'M-104', name: 'Ada Varga' } },
    { do: 'note', by: 'M-104', text: 'hose washed' },
    { do: 'note', by: 'M-104', text: 'nozzle changed' },
  ])
})

test('an untouched journal verifies: how many lines, and the hash of the last', () => {
  const { status, stdout, stderr } = bayboard(['verify'], { station })
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
  expect(stdout).toBe(`The journal verifies: 4 lines, head ${headOf(journalOf(station))}.\n`)
})

describe('a changed byte', () => {
  test.each([
    [1, 'Station 6', 'Station 7'],
    [3, 'washed', 'wasted'],
    [4, 'nozzle', 'Nozzle'],
  ])('in line %i is named by that line and ends with 1', (line, was, is) => {
    const changed = journalOf(station).replace(was, is)
    writeFileSync(path(), changed)
    const { status, stdout } = bayboard(['verify'], { station })
    expect(status).toBe(1)
    const [verdict, fault] = lines(stdout)
    expect(verdict).toContain('The journal does not verify: 1 fault in 4 lines. Nothing was repaired.')
    expect(fault).toBe(`Line ${line}: The line has been changed: its hash is not the hash of its bytes.`)
    expect(journalOf(station)).toBe(changed)
  })

  test('as JSON is a fault with its line and byte', () => {
    const text = journalOf(station)
    writeFileSync(path(), text.replace('washed', 'wasted'))
    const { status, stdout } = bayboard(['verify', '--json'], { station })
    const offset = text.split('\n').slice(0, 2).join('\n').length + 1
    expect(JSON.parse(stdout)).toEqual({
      verifies: false,
      lines: 4,
      head: headOf(text),
      faults: [{ line: 3, offset, what: expect.stringContaining('has been changed') }],
      torn: null,
      seals: [],
      against: [],
      unsealed: [],
      keys: [],
    })
    expect(status).toBe(1)
  })

  test('does not hide what is sound: status still shows it, says so also in what is piped on, and ends with 3', () => {
    writeFileSync(path(), journalOf(station).replace('nozzle', 'Nozzle'))
    const { status, stdout, stderr } = bayboard(['status'], { station })
    expect(stdout).toContain('Station 6')
    expect(stderr).toMatch(/^bayboard: The journal is damaged at line 4 /)
    expect(stdout).toContain('\nThe journal is damaged at line 4 ')
    expect(status).toBe(3)
    const asJson = JSON.parse(bayboard(['status', '--json'], { station }).stdout) as object
    expect(asJson).toMatchObject({ stopped: expect.stringContaining('damaged at line 4'), torn: null })
  })

  test('never lets status say that nobody is seated yet, where the seating may stand after it', () => {
    const crewed = fitStation()
    const file = join(crewed, 'journal.jsonl')
    writeFileSync(file, journalOf(crewed).replace('"type":"tour-opened"', '"type":"tour-Opened"'))
    const { stdout } = bayboard(['status'], { station: crewed })
    expect(stdout).toContain('As far as the journal can be read: nobody is seated.')
    expect(stdout).not.toContain('yet')
  })
})

test('a line taken out, and two lines in the other’s place, are faults', () => {
  const [one, two, three, four] = lines(journalOf(station))
  for (const left of [
    [one, two, four],
    [one, three, two, four],
  ]) {
    writeFileSync(path(), `${left.join('\n')}\n`)
    expect(bayboard(['verify'], { station }).status).toBe(1)
  }
})

test('an unfinished last line is the mark of a crash, said and no fault', () => {
  appendFileSync(path(), '{"seq":5')
  const words = 'After the last line 8 bytes of an unfinished one are left'
  const before = journalOf(station)
  const { status, stdout } = bayboard(['verify'], { station })
  expect(status).toBe(0)
  expect(stdout).toMatch(/^The journal verifies: 4 lines/)
  expect(stdout).toContain(words)
  const shown = bayboard(['status'], { station })
  expect(shown.stdout).toContain(words)
  const told = JSON.parse(bayboard(['status', '--json'], { station }).stdout) as object
  expect(told).toMatchObject({ stopped: null, torn: expect.stringContaining(words) })
  expect(journalOf(station)).toBe(before)
})

test('where there is no station, or the path leads through a file, it ends with 3', () => {
  const none = bayboard(['verify'], { station: newPlace() })
  expect(none).toMatchObject({
    status: 3,
    stdout: '',
    stderr: expect.stringContaining('There is no station in'),
  })
  const through = bayboard(['verify', '--json'], { station: join(path(), 'station') })
  expect(through).toMatchObject({ status: 3, stdout: '', stderr: expect.stringContaining('(ENOTDIR)') })
})
