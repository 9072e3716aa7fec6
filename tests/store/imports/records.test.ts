// A past in a file: cares that were done and fit tests, each row one record, nothing filled in.
import { describe, expect, it, test } from 'vitest'
import { CARES, plain } from '../../../src/domain/kinds.ts'
import { readCare, readPassed } from '../../../src/store/imports/care-words.ts'
import { sayFaults } from '../../../src/store/imports/fault.ts'
import { faultsOf, readText, taken } from './sheets.ts'

const says = (text: string): string[] => sayFaults(faultsOf(readText(text)))

describe('a history of care', () => {
  it('is told from gear by its headings, and read in the words of a department', () => {
    const text = [
      'Asset #,Service,Date completed,Pass/Fail,Performed by,Remarks',
      'C-1041,Advanced cleaning,03/15/2026,Pass,North Wash,two cycles',
      '00123,Hydro test,12/31/2025,FAILED,,',
    ].join('\n')
    const { sort, cares, elements, notes } = taken(readText(text))
    expect([sort, elements]).toEqual(['cares', []])
    expect(cares).toEqual([
      {
        element: 'C-1041',
        care: 'advanced-cleaning',
        on: '2026-03-15',
        result: 'serviceable',
        who: 'North Wash',
        note: 'two cycles',
      },
      { element: '00123', care: 'hydrostatic-test', on: '2025-12-31', result: 'unserviceable' },
    ])
    expect(notes.join(' ')).toContain('dates in figures were read month first')
  })

  const care = (cells: string): string => `Element,Care,Date,Result\n${cells}\n`
  it.each([
    [
      'C-1,Cleaning,2026-03-15,pass',
      'Line 2, column "Care": "Cleaning" does not say which care it was: it may be routine, advanced or specialised cleaning.',
    ],
    [
      'C-1,Polish,2026-03-15,pass',
      `Line 2, column "Care": "Polish" is not a care. The cares are: ${CARES.map(plain).join(', ')}.`,
    ],
    [
      'C-1,Repair,2026-03-15,',
      'Line 2, column "Result": The row has no result. Write serviceable or unserviceable, or pass or fail.',
    ],
    [
      'C-1,Repair,2026-03-15,done',
      'Line 2, column "Result": "done" is not a result. Write serviceable or unserviceable, or pass or fail.',
    ],
    ['C-1,Repair,,pass', 'Line 2, column "Date": The row has no date. Write it as 2019-03-15.'],
    [
      'C-1,Repair,2026-02-30,pass',
      'Line 2, column "Date": "2026-02-30" is not a date in the calendar. Write it as 2019-03-15.',
    ],
    [',Repair,2026-03-15,pass', 'Line 2, column "Element": The row has no element.'],
    [
      '1.23E+05,Repair,2026-03-15,pass',
      'Line 2, column "Element": "1.23E+05" is a long number that a spreadsheet has rounded. Format the column as text and enter it again; if it is right, put an apostrophe before it.',
    ],
    [
      '5-Mar,Repair,2026-03-15,pass',
      'Line 2, column "Element": "5-Mar" is an id that a spreadsheet has made a date of. Format the column as text and enter it again; if it is right, put an apostrophe before it.',
    ],
    [
      'C 1,Repair,2026-03-15,pass',
      'Line 2, column "Element": "C 1" must be 1 to 40 letters, digits, "-", "_" or ".".',
    ],
  ])('row %j is refused', (cells, words) => {
    expect(says(care(cells))).toEqual([words])
  })

  it('that says the same of one day twice is refused, whatever the results', () => {
    expect(says(care('C-1,Repair,2026-03-15,pass\nC-1,Repair,2026-03-15,fail'))).toEqual([
      'Line 3, column "Date": The same stands on line 2 already.',
    ])
  })

  it('without a column of results says what is missing', () => {
    expect(says('Element,Care,Date\nC-1,Repair,2026-03-15\n')).toEqual([
      'Line 1: The headings are "Element", "Care", "Date". What is missing: result (as "Result" or "Pass/Fail"). Rename the headings, or say which is which, as: --map "Their Heading=result"',
    ])
  })

  it('with two columns for one is asked about, and answered by --map', () => {
    const text = 'Element,Care,Date,Result,By,Inspector\nC-1,Repair,2026-03-15,pass,A,B\n'
    expect(says(text)).toEqual([
      'Line 1: "By" and "Inspector" can both be the column who. Say which, as: --map "By=who"',
    ])
    expect(taken(readText(text, { Inspector: 'who', By: 'note' })).cares).toMatchObject([
      { who: 'B', note: 'A' },
    ])
  })
})

describe('a list of fit tests', () => {
  it('is told from a roster by its headings', () => {
    const text =
      'Badge,Mask,Mask size,Fit test date,Result\nM-104,Clear Two,M,2026-02-01,Pass\nM-105,Clear Two,L,2026-02-02,fail\n'
    const { sort, fitTests, members } = taken(readText(text))
    expect([sort, members]).toEqual(['fit-tests', []])
    expect(fitTests).toEqual([
      { member: 'M-104', facepiece: { model: 'Clear Two', size: 'M' }, on: '2026-02-01', result: 'pass' },
      { member: 'M-105', facepiece: { model: 'Clear Two', size: 'L' }, on: '2026-02-02', result: 'fail' },
    ])
  })

  it.each([
    ['M-104,,M,2026-02-01,pass', 'column "Mask": The row has no facepiece-model.'],
    ['M-104,Clear Two,,2026-02-01,pass', 'column "Mask size": The row has no facepiece-size.'],
    [',Clear Two,M,2026-02-01,pass', 'column "Badge": The row has no member.'],
  ])('row %j is refused: a fit test is of one facepiece of one size', (cells, words) => {
    expect(says(`Badge,Mask,Mask size,Fit test date,Result\n${cells}\n`)).toEqual([`Line 2, ${words}`])
  })
})

test('a roster with a facepiece size and a gear list with a service date stay what they are', () => {
  expect(taken(readText('Badge,Name,Facepiece size\nM-1,F. Iyer,M\n')).sort).toBe('gear')
  expect(taken(readText('Asset #,Type,Service date,Status\nC-1,Hood,2026-01-05,ok\n')).sort).toBe('gear')
})

test.each(CARES)('%s is read by its own name', (care) => {
  expect([readCare(care), readCare(plain(care).toUpperCase())]).toEqual([{ value: care }, { value: care }])
})
test.each([
  ['Pass', true],
  ['out of service', false],
  ['OOS', false],
  ['Serviceable', true],
])('%s is a result', (word, value) => {
  expect(readPassed(word)).toEqual({ value })
})
