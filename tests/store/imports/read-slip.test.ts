// A care slip as it comes back from a cleaner: every way it can be filled in wrongly is named by line and column, and a blank is never a result.
import { describe, expect, test } from 'vitest'
import { sayFaults } from '../../../src/store/imports/fault.ts'
import { readSlip, RESULTS } from '../../../src/store/imports/read-slip.ts'

const HEAD = 'element,kind,serial,care,on,result,who,note'
const slip = (...rows: string[]) => `${[HEAD, ...rows].join('\r\n')}\r\n`
const read = (text: string | Buffer) =>
  readSlip(typeof text === 'string' ? Buffer.from(text) : text, 'slip.csv')
const faults = (text: string | Buffer): string[] => {
  const found = read(text)
  return 'faults' in found ? sayFaults(found.faults) : []
}
const row = (cells: Record<string, string> = {}) => {
  const plain = {
    element: 'C-2',
    kind: '',
    serial: '',
    care: 'drying',
    on: '2026-11-24',
    result: 'serviceable',
    who: '',
    note: '',
  }
  return Object.values({ ...plain, ...cells }).join(',')
}
const DRIED = { element: 'C-2', care: 'drying', on: '2026-11-24', result: 'serviceable' }

const GOOD = slip(
  row({ kind: 'coat shell', who: 'J. Bench', note: '"thin, both sides"', result: 'unserviceable' }),
  row({ element: 'L-2', care: 'Advanced-Cleaning', result: 'Serviceable' }),
  row({ element: 'K-2', care: '', on: '', result: 'not back' }),
  row({ element: 'H-2', care: '', on: '', result: 'not done' }),
)

test('a slip that is filled in is read row by row, with its line', () => {
  expect(read(GOOD)).toEqual({
    rows: [
      {
        line: 2,
        element: 'C-2',
        kind: 'coat shell',
        serial: '',
        care: { ...DRIED, result: 'unserviceable', who: 'J. Bench', note: 'thin, both sides' },
      },
      {
        line: 3,
        element: 'L-2',
        kind: '',
        serial: '',
        care: { ...DRIED, element: 'L-2', care: 'advanced-cleaning' },
      },
      { line: 5, element: 'H-2', kind: '', serial: '' },
    ],
    notBack: ['K-2'],
    notes: [],
  })
})

test.each([
  ['with semicolons', (text: string) => text.replace('"thin, both sides"', 'thin').replaceAll(',', ';')],
  ['with a byte order mark', (text: string) => `\ufeff${text}`],
  ['with bare line feeds', (text: string) => text.replaceAll('\r\n', '\n')],
  ['with its headings in capitals', (text: string) => text.replace(HEAD, HEAD.toUpperCase())],
])('it is read %s', (_, change) => {
  const found = read(change(GOOD))
  expect('rows' in found && found.rows.map((each) => each.element)).toEqual(['C-2', 'L-2', 'H-2'])
})

test('only four columns are needed, in any order; a column it does not know is left alone, and it says so', () => {
  expect(read('result,element,on,care,price\nserviceable,C-2,2026-11-24,drying,12\n')).toEqual({
    rows: [{ line: 2, element: 'C-2', kind: '', serial: '', care: DRIED }],
    notBack: [],
    notes: ['These columns were not read: "price".'],
  })
})

test.each([
  ['24/11/2026', '2026-11-24'],
  ['11/24/2026', '2026-11-24'],
  ['11/11/2026', '2026-11-11'],
  ['24 Nov 2026', '2026-11-24'],
])('a day that can be read in one way only is read: %s', (on, day) => {
  expect(read(slip(row({ on })))).toMatchObject({ rows: [{ care: { on: day } }] })
})

test('an id that was kept from acting as a formula is the id it was', () => {
  expect(read(slip(row({ element: "'-77" })))).toMatchObject({ rows: [{ element: '-77' }] })
})

describe('a fault by line and column:', () => {
  test.each([
    ['result', { result: '' }, `The result is blank. Write one of: ${RESULTS.join(', ')}.`],
    ['result', { result: 'ok' }, `"ok" is no result. Write one of: ${RESULTS.join(', ')}.`],
    ['on', { on: '' }, 'The day is blank. Write it as 2026-11-24.'],
    ['on', { on: '03/04/2026' }, '"03/04/2026" can be read in two ways. Write it as 2026-11-24.'],
    ['on', { on: '2026-02-30' }, '"2026-02-30" is not a date in the calendar. Write it as 2019-03-15.'],
    [
      'on',
      { on: '46350' },
      '"46350" is a spreadsheet\'s own number for a date. Format the column as text and write 2019-03-15.',
    ],
    ['element', { element: '' }, 'The row names no element.'],
    ['element', { element: 'C 2' }, '"C 2" cannot be an id.'],
    ['note', { note: 'x'.repeat(2001) }, 'It is longer than 2000 characters.'],
  ])('%s %j', (column, cells, says) => {
    expect(faults(slip(row({ element: 'L-2' }), row(cells)))).toEqual([`Line 3, column "${column}": ${says}`])
  })

  test('a care there is not, with those there are', () => {
    const [fault] = faults(slip(row({ care: 'polishing' })))
    expect(fault).toMatch(
      /^Line 2, column "care": "polishing" is no care\. The cares are: routine inspection, /,
    )
  })

  test('one that is back and is not', () => {
    expect(faults(slip(row(), row({ result: 'not back' })))).toEqual([
      'Line 2, column "element": C-2 is not back by line 3, and has a care here. One of the two is wrong.',
    ])
  })

  test('every bad row is told, and none of the good ones taken', () => {
    expect(faults(slip(row(), row({ result: '' }), 'C-2,drying', row({ care: '' })))).toHaveLength(3)
  })

  test.each([
    ['an empty file', '', 'Line 1: "slip.csv" is empty.'],
    [
      'a slip as it was printed',
      slip(row({ on: '', result: '' }), row({ element: 'L-2', on: '', result: '' })),
      'Line 1: Nothing is written under result: this slip is not filled in yet.',
    ],
    ['headings alone', `${HEAD}\n`, 'Line 1: "slip.csv" has no rows under its headings.'],
    [
      'headings of something else',
      'a,b\n1,2\n',
      'Line 1: The heading row lacks element, care, on, result. A care slip has: element, care, on, result, kind, serial, who, note.',
    ],
    [
      'a heading that stands twice',
      `${HEAD},care\n`,
      'Line 1, column "care": Two columns have this heading.',
    ],
  ])('%s', (_, text, says) => {
    expect(faults(text)).toEqual([says])
  })

  test.each([
    ['a workbook', Buffer.from([0x50, 0x4b, 3, 4]), 'This is a spreadsheet workbook, not CSV.'],
    ['another encoding', Buffer.from([...Buffer.from(`${HEAD}\n`), 0xe9, 0x0a]), 'UTF-8'],
  ])('%s', (_, bytes, says) => {
    expect(faults(bytes)[0]).toContain(says)
  })
})
