// Hostile text wherever text comes in: cleaned or refused in one sentence, never raw on the terminal, never a trace, nothing lost.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { bayboard, fileWith, journalOf, lines, newPlace, recorded, type Ran } from './run.ts'
import { emptyStation, HOUSE } from './two-seats.ts'

const by = 'M-104'
/** Everything but a newline that could drive a terminal or turn a text around. */
const RAW = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/
/** One text of all of them; each alone is cleaned in tests/domain/clean.test.ts. */
const text = [
  '\u001b[2J\u001b[31m',
  '\u001b]0;title\u0007',
  '\u001b]8;;http://x.example\u001b\\',
  '\u009b31m\u0090q\u009c',
  '\u202ea\u2066b\u2069',
  '\u007f\b\b',
  '\u2028\u2029\r',
  '\u0000',
  '\ud800',
].join('x')

let station = ''
beforeAll(() => {
  station = emptyStation()
  recorded(station, HOUSE)
})
const shown = ({ stdout, stderr, status }: Ran): Ran => {
  expect(stdout).not.toMatch(RAW)
  expect(stderr).not.toMatch(RAW)
  return { stdout, stderr, status }
}
const one = ({ status, stderr }: Ran) => ({ status, sentences: lines(stderr).length })

describe('a hostile text', () => {
  test('in a name, a reason and a note is cleaned on the way in, and nothing raw is in the journal or on the screen', () => {
    const place = emptyStation()
    recorded(place, [
      { do: 'add-member', by: 'setup', member: { id: by, name: `N ${text}`, platoon: 'B' } },
      { do: 'add-element', by: 'setup', element: { id: 'C-1', kind: 'hood', maker: text } },
      { do: 'tag', by, element: 'C-1', reason: text, matter: 'safety' },
      { do: 'open-tour', by, tour: 'T-1', platoon: 'B', officer: by, on: '2026-11-24' },
      { do: 'note', by, text },
    ])
    expect(journalOf(place)).not.toMatch(RAW)
    for (const args of [['status'], ['history', 'C-1'], ['export'], ['export', '--format', 'csv']]) {
      const { stdout } = bayboard(args, { station: place })
      // CSV ends its lines with CR LF.
      expect(stdout.replaceAll('\r\n', '\n')).not.toMatch(RAW)
    }
  })

  test('in an id, an argument or the name of a station is refused or cleaned', () => {
    const typed = text.replaceAll(/[\u0000\ud800]/g, '')
    expect(one(shown(bayboard(['history', typed], { station }))).sentences).toBeLessThanOrEqual(1)
    expect(one(shown(bayboard(['export', '--tour', typed], { station })))).toEqual({
      status: 1,
      sentences: 1,
    })
    expect(one(shown(bayboard(['schema', typed])))).toEqual({ status: 2, sentences: 1 })
    expect(one(shown(bayboard([typed], { station })))).toEqual({ status: 2, sentences: 1 })
    const made = newPlace()
    const init = ['init', '--name', `S ${typed}`, '--time-zone', 'America/Phoenix']
    expect(shown(bayboard(init, { station: made })).status).toBe(0)
    expect(journalOf(made)).not.toMatch(RAW)
    shown(bayboard(['demo', join(newPlace(), typed), '--no-open']))
  })

  test('in a file to be imported, a policy or a seal is cleaned or refused', () => {
    const csv = fileWith(`Badge,Name\nM-900,"${text}"\nM-901,=cmd|' /C calc'!A0\n`, 'members.csv')
    expect([0, 1]).toContain(shown(bayboard(['import', csv, '--dry-run'], { station })).status)
    const overlay = fileWith(JSON.stringify({ name: text, changes: [{ id: text, reason: text }], add: [] }))
    expect(shown(bayboard(['policy', 'check', overlay], { station })).status).toBe(1)
    const seal = fileWith(
      `bayboard/x-0123456789abcdef\n1\n${'0'.repeat(64)}\ntour ${text}\nsealed x\n\n— ${text} AAAA\n`,
    )
    expect(shown(bayboard(['verify', '--against', seal], { station })).status).toBe(1)
    expect(shown(bayboard(['record'], { station, input: `${text}\n` })).status).toBe(1)
  })
})

describe('too much of it', () => {
  const nested = (depth: number) => `${'['.repeat(depth)}${']'.repeat(depth)}`
  test.each([
    ['a very long line', `{"do":"note","by":"M-104","text":"${'x'.repeat(5_000_000)}"}`],
    ['a text over its limit', `{"do":"note","by":"M-104","text":"${'x'.repeat(100_000)}"}`],
    ['deep lists', `{"do":"note","by":"M-104","text":${nested(100_000)}}`],
    ['deep objects', `${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}`],
    ['a deep amendment', `{"do":"amend","by":"M-104","seq":2,"why":"x","with":{"name":${nested(5_000)}}}`],
    ['a prototype', '{"do":"note","by":"M-104","text":"x","__proto__":{"by":"M-1"}}'],
    [
      'a prototype in an amendment',
      '{"do":"amend","by":"M-104","seq":2,"why":"x","with":{"__proto__":{"x":1}}}',
    ],
    ['a huge number', '{"do":"amend","by":"M-104","seq":1e400,"why":"x","with":{}}'],
    ['a number past whole numbers', '{"do":"amend","by":"M-104","seq":9007199254740993,"why":"x","with":{}}'],
    ['a negative zero', '{"do":"amend","by":"M-104","seq":-0,"why":"x","with":{}}'],
    ['a member twice', '{"do":"note","by":"M-104","text":"x","by":"M-999"}'],
    ['a byte order mark alone', '\ufeff'],
  ])('%s is refused, and the journal stays as it is', (_, input) => {
    const before = journalOf(station)
    const ran = shown(bayboard(['record'], { station, input: `${input}\n` }))
    expect(ran).toMatchObject({ status: expect.toBeOneOf([0, 1]), stderr: '' })
    for (const line of lines(ran.stdout)) expect(JSON.parse(line)).toEqual({ refused: expect.any(String) })
    expect(ran.stdout.length).toBeLessThan(2_000)
    expect(journalOf(station)).toBe(before)
  })

  test('a policy of deep JSON, of rubbish or of a folder ends with 1 or 3 and one sentence', () => {
    const folder = newPlace()
    for (const file of [fileWith(nested(100_000)), fileWith('\u0000\u0001'), folder, fileWith('null')]) {
      const ran = shown(bayboard(['policy', 'check', file], { station }))
      expect([1, 3]).toContain(ran.status)
      expect(ran.stdout).toBe('')
    }
  })

  test('a snapshot of rubbish or of another shape changes nothing', () => {
    const before = bayboard(['status', '--json', '--at', '2026-11-24T12:00:00Z'], { station }).stdout
    for (const text of ['', '{"__proto__":{}}', nested(50_000), 'x'.repeat(1_000_000)]) {
      writeFileSync(join(station, 'snapshot.json'), text)
      expect(bayboard(['status', '--json', '--at', '2026-11-24T12:00:00Z'], { station }).stdout).toBe(before)
    }
  })

  test('names in the folders of seals and keys that nobody put there do no harm', () => {
    mkdirSync(join(station, 'seals', 'a-folder.note'), { recursive: true })
    writeFileSync(join(station, 'seals', '\u001b[31m.note'), 'x')
    writeFileSync(join(station, 'seals', 'large.note'), Buffer.alloc(1_000_000))
    const { status, stdout } = shown(bayboard(['verify'], { station }))
    expect(status).toBe(1)
    expect(stdout).toContain('0 of 3 hold')
    expect(readFileSync(join(station, 'seals', 'large.note')).length).toBe(1_000_000)
  })
})
