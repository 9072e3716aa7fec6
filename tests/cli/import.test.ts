// `bayboard import` of what is not new gear: changes shown first, a past brought along, workbooks, lists that come back; nothing unasked.
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import writeWorkbook, { type SheetData } from 'write-excel-file/node'
import { beforeAll, describe, expect, test } from 'vitest'
import { loadPty, openTerminal } from '../pty.ts'
import { bayboard, fileWith, journalOf, lines, newPlace, PROGRAM, recorded } from './run.ts'
import { daysAgo, emptyStation, HOUSE, stationWith } from './two-seats.ts'

let station = ''
beforeAll(() => {
  station = stationWith(...HOUSE, {
    do: 'add-element',
    by: 'setup',
    element: { id: '00777', kind: 'hood', made: daysAgo(731).slice(0, 7) },
  })
})
const imported = (text: string, ...args: string[]) =>
  bayboard(['import', fileWith(text, 'given.csv'), ...args], { station })
const lastEvent = (): { type: string; by: string; data: Record<string, unknown[]> } =>
  JSON.parse(lines(journalOf(station)).at(-1)!)

describe('a file that changes what is on the books', () => {
  const CHANGED = 'ID,Type,Size,Serial\nH-1,Helmet,L,\nH-2,Helmet,,S-H-2\n'

  test('is not taken unasked: what it changes is shown, and how to take it is said', () => {
    const before = journalOf(station)
    const { status, stdout, stderr } = imported(CHANGED)
    expect([status, stdout]).toEqual([1, 'Changes H-1: size L, was nothing\n'])
    expect(stderr).toContain(
      'changes what is on the books, as shown. Nothing was imported. To take it, add --update.',
    )
    expect(journalOf(station)).toBe(before)
  })

  test('is only shown by --dry-run', () => {
    const before = journalOf(station)
    const { status, stdout } = imported(CHANGED, '--dry-run')
    expect(status).toBe(0)
    expect(stdout).toMatch(
      /^Changes H-1: size L, was nothing\n.* would bring 1 change\. 1 row is on the books already\. Nothing was imported\.\n$/,
    )
    expect(journalOf(station)).toBe(before)
  })

  test('needs a name, and is then one event whose both versions stay in the history', () => {
    const nameless = imported(CHANGED, '--update')
    expect(nameless).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('Say who answers for it with --by MEMBER'),
    })
    expect(imported(CHANGED, '--update', '--by', 'M-104').status).toBe(0)
    expect(lastEvent()).toMatchObject({
      type: 'records-imported',
      by: 'M-104',
      data: { changes: [{ id: 'H-1' }] },
    })
    expect(bayboard(['history', 'H-1'], { station }).stdout).toContain('H-1: size L, was nothing')
  })

  test('brings nothing the second time', () => {
    const before = journalOf(station)
    const { status, stdout } = imported(CHANGED, '--update', '--by', 'M-104')
    expect([status, stdout]).toEqual([
      0,
      expect.stringContaining('is new. 2 rows are on the books already. Nothing was imported.'),
    ])
    expect(journalOf(station)).toBe(before)
  })
})

test('of a member with one other size only that size is shown, from what to what', () => {
  const sizes = 'ID,Name,Coat,Trousers,Gloves,Boots,Facepiece\nM-104,Ada Varga,46x32,38x30,76W,11D,M\n'
  expect(imported(sizes, '--dry-run').stdout.split('\n')[0]).toBe(
    'Changes M-104: size of coat 46x32, was 44x32',
  )
})

test('a used spare comes with its past: first the gear, then its cares, and its intervals run from them', () => {
  const gear = `ID,Type,Made,Issue date\nH-900,Helmet,${daysAgo(731).slice(0, 7)},${daysAgo(700)}\n`
  expect(imported(gear).status).toBe(0)
  expect(bayboard(['history', 'H-900'], { station }).stdout).toMatch(
    /expired, first advanced cleaning within/,
  )
  const past = ['advanced cleaning', 'advanced inspection'].map((care) => `H-900,${care},${daysAgo(20)},pass`)
  expect(imported(`Element,Care,Date,Result\n${past.join('\n')}\n`, '--by', 'M-104').stdout).toContain(
    'Imported 2 cares',
  )
  expect(bayboard(['history', 'H-900'], { station }).stdout).toMatch(/advanced cleaning interval: ready/)
})

describe('ids that a spreadsheet has spoilt', () => {
  test.each([
    [
      'ID,Type\n777,Hood\n',
      'Line 2, column "ID": "777" is not known here and "00777" is: a spreadsheet has taken the zeros away.',
    ],
    [
      `Element,Care,Date,Result\n777,repair,${daysAgo(3)},pass\n`,
      'Line 2, column "Element": "777" is not known here and "00777" is',
    ],
    [
      'ID,Type\n1.23E+05,Hood\n',
      'Line 2, column "ID": "1.23E+05" is a long number that a spreadsheet has rounded.',
    ],
  ])('%j', (text, words) => {
    const before = journalOf(station)
    const { status, stderr } = imported(text)
    expect([status, journalOf(station)]).toEqual([1, before])
    expect(stderr).toContain(words)
  })
})

test('a workbook is imported as it stands, real dates and all', async () => {
  const rows = [
    ['ID', 'Type', 'Made'],
    ['H-901', 'Helmet', new Date('2024-05-17T00:00:00Z')],
  ]
  const cells = rows.map((row) =>
    row.map((value) =>
      value instanceof Date ? { type: Date, value, format: 'mm/dd/yyyy' } : { type: String, value },
    ),
  )
  const path = join(newPlace(), 'gear.xlsx')
  writeFileSync(path, await writeWorkbook(cells as SheetData).toBuffer())
  expect(bayboard(['import', path], { station })).toMatchObject({
    status: 0,
    stdout: expect.stringContaining('and 1 element,'),
  })
  expect(bayboard(['history', 'H-901'], { station }).stdout).toContain('made 2024-05')
})

test('the lists of one station make another that exports the same lists', () => {
  const other = emptyStation()
  recorded(
    other,
    HOUSE.filter((each) => each.do === 'add-rig'),
  )
  for (const list of ['members', 'gear', 'cares', 'fit-tests']) {
    const { status, stdout } = bayboard(['export', '--list', list], { station })
    expect(status).toBe(0)
    const named = list === 'cares' || list === 'fit-tests' ? ['--by', 'M-104'] : []
    expect(bayboard(['import', fileWith(stdout, `${list}.csv`), ...named], { station: other })).toMatchObject(
      { status: 0 },
    )
    expect(bayboard(['export', '--list', list], { station: other }).stdout).toBe(stdout)
  }
})

test.each([
  [['import', 'x.csv', '--as', 'tanks'], '--as tanks is none of: gear, cares, fit-tests.'],
  [['export', '--list', 'tanks'], 'There is no list tanks. Choose one of: gear, members, cares, fit-tests.'],
  [
    ['export', '--list', 'gear', '--format', 'pdf'],
    'A list is made as csv, not as pdf: it is what import reads again.',
  ],
])('%j is wrong usage', (args, words) => {
  expect(bayboard(args, { station })).toMatchObject({ status: 2, stdout: '', stderr: `bayboard: ${words}\n` })
})

test.each([
  [
    'a heading the file has not',
    'Nummer=id',
    'There is no column "Nummer" to map. The file has: "ID", "Type".',
  ],
  ['a column there is not', 'ID=number', '"number" is not a column of ours.'],
])('--map with %s is wrong usage, and no fault of the file', (_, map, words) => {
  const { status, stderr } = imported('ID,Type\nH-70,Helmet\n', '--map', map)
  expect({ status, lines: lines(stderr).length }).toEqual({ status: 2, lines: 1 })
  expect(stderr).toContain(`bayboard: --map: ${words}`)
})

test('what is wrong with the rows and what this station has against others is told at once', () => {
  const { status, stderr } = imported(
    [
      'ID,Type,Made,Issued to',
      '00777,Coat shell,2019-03,',
      'H-71,Helmet,13/2019,',
      'H-72,Helmet,2019-03,M-999',
      'H-73,Helmet,2019-03,M-777',
      '777,Hood,2019-03,',
    ].join('\n'),
  )
  expect(status).toBe(1)
  const told = lines(stderr)
  expect(told.map((line) => /^Line (\d)/.exec(line)?.[1])).toEqual(['2', '3', '4', '5', '6', undefined])
  expect(told.at(-1)).toContain('has 5 faults. Nothing was imported.')
})

describe('what cannot be so is said once, and of the column that says it', () => {
  const [nextYear, lastMonth] = [daysAgo(-400), daysAgo(40)]
  const early = daysAgo(800)
  const head = 'ID,Type,Mfg date,In service date,Issued to,Issue date,Rated pressure\n'
  const made = daysAgo(731).slice(0, 7)
  test.each([
    [
      `H-81,Helmet,${made},${nextYear},,,`,
      'In service date',
      `it came into service on ${nextYear}, which is`,
    ],
    [`H-1,Helmet,,${nextYear},,,`, 'In service date', `it came into service on ${nextYear}, which is`],
    [`H-81,Helmet,${made},${early},,,`, 'In service date', `it came into service on ${early}, before it was`],
    [`H-81,Helmet,${made},,M-104,${early},`, 'Issue date', `made in ${made}, it cannot have been issued`],
    [
      `H-81,Helmet,${nextYear.slice(0, 7)},,,,`,
      'Mfg date',
      `it was made in ${nextYear.slice(0, 7)}, which is`,
    ],
    [
      `P-81,Air pack,${made},${lastMonth},E6-1,,4500`,
      'Rated pressure',
      'only a cylinder has a rated pressure',
    ],
    [`Y-81,Bottle,${made},,M-104,,4500`, 'Issued to', 'a cylinder belongs to a riding position'],
  ])('%s: %s', (row, column, words) => {
    expect(lines(imported(`${head}${row}\n`).stderr)).toEqual([
      expect.stringContaining(`Line 2, column "${column}": ${words}`),
      expect.stringContaining('has 1 fault. Nothing was imported.'),
    ])
  })

  test('and beside a fault in reading the file, not in a second pass', () => {
    const waiting = `H-82,Helmet,${made},${nextYear},M-82,,`
    const text = `${head.replace('\n', ',Name\n')}${waiting},\nM-82,,,,,,,Bo Imbert\nM-82,,,,,,,Cy Imbert\n`
    expect(lines(imported(text).stderr)).toEqual([
      expect.stringContaining(`Line 2, column "In service date": it came into service on ${nextYear}`),
      expect.stringContaining('Line 4, column "ID": "M-82" stands on line 3 already.'),
      expect.stringContaining('has 2 faults. Nothing was imported.'),
    ])
  })
})

test('whoever waits for a row that has a fault of its own is no fault besides', () => {
  const text = 'ID,Type,Name,Issued to,Sizes\nM-80,,Bo Imbert,,\nH-80,Helmet,,M-80,\nM-80,,Cy Imbert,,\n'
  expect(lines(imported(text).stderr)).toEqual([
    expect.stringContaining('Line 4, column "ID": "M-80" stands on line 2 already.'),
    expect.stringContaining('has 1 fault. Nothing was imported.'),
  ])
})

test('a care that stands twice in a file is one fault, where it stands again', () => {
  const text = `Element,Care,Date,Result\nH-1,Drying,${daysAgo(9)},pass\nH-1,Drying,${daysAgo(9)},pass\n`
  expect(lines(imported(text).stderr)).toEqual([
    'Line 3, column "Date": The same stands on line 2 already.',
    expect.stringContaining('Nothing was imported.'),
  ])
})

test.each([
  ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13, 255, 10, 254, 10])],
  ['a PDF', Buffer.from('%PDF-1.4\n1 0 obj\n')],
  ['noise', Buffer.from(Array.from({ length: 5000 }, (_, at) => ((at + 1) * 167 + (at >> 3)) % 256))],
])('%s is said in one sentence to be no text', (_, bytes) => {
  const path = join(newPlace(), 'given.csv')
  writeFileSync(path, bytes)
  const { status, stderr } = bayboard(['import', path], { station })
  expect(status).toBe(1)
  expect(lines(stderr)).toEqual([
    'Line 1: The file is no text and no workbook: it is neither CSV nor XLSX.',
    expect.stringContaining('has 1 fault. Nothing was imported.'),
  ])
})

const ODD = 'Nummer,Sache\nX-1,Helmet\nX-2,Hood\n'

test('headings nobody knows are refused where nobody can be asked', () => {
  const { status, stderr } = imported(ODD)
  expect(status).toBe(1)
  expect(stderr).toContain('What is missing: id (as "Asset #", "Barcode" or "Badge")')
})

test('a coat and an air pack imported as issued with no dates are unproven, not good for a year from the import', () => {
  const undated = 'ID,Type,Made,Assigned to\nC-77,Coat shell,2022-03,M-104\n'
  const { status, stdout } = imported(undated)
  expect([status, stdout]).toEqual([
    0,
    expect.stringContaining(
      '1 issued element has neither an in-service nor an issue date: the cares it needs are unproven until they are recorded or such a date is imported.\n',
    ),
  ])
  expect(bayboard(['history', 'C-77'], { station }).stdout).toContain('unproven')
  expect(bayboard(['history', 'C-77'], { station }).stdout).not.toContain('in service)')
})

test('old gear on the rack with no care and no date is said to count as never worn, which the officer may know better', () => {
  const rack = 'ID,Type,Made,In service\nC-81,Coat shell,2022-03,\nC-82,Coat shell,2022-03,2022-04-01\n'
  const { status, stdout } = imported(rack)
  expect([status, stdout]).toEqual([
    0,
    expect.stringMatching(
      /\n1 element on the rack has no care on record and neither .+: it counts as never worn\. Where that is not so, import the cares or such a date before anybody is given it\.\n$/,
    ),
  ])
})

test('of gear without dates nothing is called unproven that its label shows in date, or that needs no care from its issue', () => {
  const made = daysAgo(40).slice(0, 7)
  const undated = `ID,Type,Made,Assigned to\nC-78,Coat shell,${made},M-104\nF-78,Facepiece,2022-03,M-104\nC-79,Coat shell,${made},\n`
  expect(imported(undated)).toMatchObject({
    status: 0,
    stdout: expect.stringMatching(/^Imported 0 members and 3 elements, 2 of them issued, as event \d+\.\n$/),
  })
})

test('a later day of issue than the first that is known is said not to be taken; an earlier one is', () => {
  const issued = (days: number) =>
    imported(`ID,Type,Issue date\nH-1,Helmet,${daysAgo(days)}\n`, '--update', '--by', 'M-104')
  const later = issued(10)
  expect(later.stdout).toContain('is new. 1 row is on the books already. Nothing was imported.')
  expect(later.stderr).toMatch(
    /^Note: Line 2, column "Issue date": H-1 was first issued on .+, and that stays: .+ was not taken\.$/m,
  )
  expect(issued(90)).toMatchObject({
    status: 0,
    stdout: expect.stringContaining(`Changes H-1: issued on ${daysAgo(90)}, was ${daysAgo(60)}\n`),
    stderr: expect.not.stringContaining('not taken'),
  })
})

test.skipIf(!loadPty())(
  'headings nobody knows are asked about on a terminal, one by one, with samples',
  async () => {
    const path = fileWith(ODD, 'odd.csv')
    const args = [PROGRAM, 'import', path, '--station', station]
    const terminal = await openTerminal({ command: process.execPath, args, env: { LANG: 'C.UTF-8' } })
    const answers: [asked: string, answer: string][] = [
      ['What does the file hold?', ''],
      ['Column "Nummer", with "X-1", "X-2"', '1'],
      ['Column "Sache", with "Helmet", "Hood"', '1'],
    ]
    for (const [asked, answer] of answers) {
      await expect.poll(() => terminal.written(), { timeout: 20_000 }).toContain(asked)
      await expect
        .poll(() => terminal.written().slice(terminal.written().lastIndexOf(asked)))
        .toContain('leave it out: ')
      await terminal.send(`${answer}\r`)
    }
    const { code } = await terminal.exit
    expect(terminal.written()).toContain('The next time: --as gear --map "Nummer=id" --map "Sache=kind"')
    expect([code, lastEvent()]).toMatchObject([
      0,
      { type: 'gear-imported', data: { elements: [{ id: 'X-1' }, { id: 'X-2' }] } },
    ])
  },
)
