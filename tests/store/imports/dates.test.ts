// How the dates of a spreadsheet are read: never a guessed day, month or century.
import { describe, expect, it } from 'vitest'
import { sayFaults } from '../../../src/store/imports/fault.ts'
import { faultsOf, readText, taken, withCell } from './sheets.ts'

const first = (heading: string, cell: string) => taken(readText(withCell(heading, cell))).elements[0]!
const says = (heading: string, cell: string): string[] =>
  sayFaults(faultsOf(readText(withCell(heading, cell))))

describe('a made date', () => {
  it.each([
    ['2019-03', '2019-03'],
    ['2019-03-15', '2019-03'],
    ['2019/3/15', '2019-03'],
    ['3/15/2019', '2019-03'],
    ['03/15/2019', '2019-03'],
    ['03/2019', '2019-03'],
    ['3/2019', '2019-03'],
    ['12/2019', '2019-12'],
    ['Mar 2019', '2019-03'],
    ['Mar-2019', '2019-03'],
    ['march 2019', '2019-03'],
    ['Sept. 2019', '2019-09'],
    ['3-Mar-2019', '2019-03'],
    ['March 3, 2019', '2019-03'],
    ['3/15/2019 0:00', '2019-03'],
    ['2019-03-15T00:00:00', '2019-03'],
    ['Mar\u00a02019', '2019-03'],
    ['02/29/2020', '2020-02'],
  ])('%j is %s', (cell, made) => {
    expect(first('Mfg date', cell).made).toBe(made)
  })

  it.each([
    ['13/2019', 'is not a month. Write it as 2019-03.'],
    ['00/2019', 'is not a month. Write it as 2019-03.'],
    ['2019-13', 'is not a month. Write it as 2019-03.'],
    ['02/29/2019', 'is not a date in the calendar. Write it as 2019-03.'],
    ['04/31/2019', 'is not a date in the calendar. Write it as 2019-03.'],
    ['13/13/2019', 'is not a date in the calendar. Write it as 2019-03.'],
    ['0219-03', 'is not a date in the calendar. Write it as 2019-03.'],
    ['3/4/19', 'has a year of two digits. Write all four, as 2019-03.'],
    ['Mar-19', 'has a year of two digits. Write all four, as 2019-03.'],
    ["Mar '19", 'has a year of two digits. Write all four, as 2019-03.'],
    ['3-Mar-19', 'has a year of two digits. Write all four, as 2019-03.'],
    ['3/19', 'has a year of two digits. Write all four, as 2019-03.'],
    ['43525', "is a spreadsheet's own number for a date. Format the column as text and write 2019-03."],
    ['43525.5', "is a spreadsheet's own number for a date. Format the column as text and write 2019-03."],
    ['2019', 'has a year and no month. Write both, as 2019-03.'],
    ['spring 2019', 'is not a date. Write it as 2019-03.'],
    ['20190315', 'is not a date. Write it as 2019-03.'],
  ])('%j is refused', (cell, sentence) => {
    expect(says('Mfg date', cell)).toEqual([`Line 2, column "Mfg date": "${cell}" ${sentence}`])
  })
})

describe('a whole date', () => {
  it.each([
    ['2019-06-01', '2019-06-01'],
    ['6/1/2019', '2019-06-01'],
    ['1-Jun-2019', '2019-06-01'],
    ['June 1, 2019', '2019-06-01'],
    ['25.06.2019', '2019-06-25'],
  ])('%j is %s', (cell, date) => {
    expect(first('In service', cell).inService).toBe(date)
  })

  it.each([
    ['2019-06', 'has no day. Write it as 2019-06-01 if that day is right.'],
    ['Jun 2019', 'has no day. Write it as 2019-06-01 if that day is right.'],
    ['2019', 'has no month and no day. Write it as 2019-03-15.'],
    ['43525', "is a spreadsheet's own number for a date. Format the column as text and write 2019-03-15."],
  ])('is not %j', (cell, sentence) => {
    expect(says('In service', cell)).toEqual([`Line 2, column "In service": "${cell}" ${sentence}`])
  })
})

/** Files with these cells under "Issue date" and "In service". */
const file = (...rows: [issued: string, inService?: string][]): string =>
  `ID,Type,Issued to,Issue date,In service\n${rows
    .map(([issued, inService = ''], index) => `X-${index},Hood,M-1,${issued},${inService}\n`)
    .join('')}`
const issuedOn = (text: string) => taken(readText(text)).elements.map((element) => element.issuedOn)

describe('day or month first', () => {
  it('is month first where nothing says otherwise, and that is noted', () => {
    expect(issuedOn(file(['03/04/2019'], ['12/12/2019']))).toEqual(['2019-03-04', '2019-12-12'])
    expect(taken(readText(file(['03/04/2019']))).notes).toEqual([
      'Column "Issue date": dates in figures were read month first, for nothing in the file says otherwise. "03/04/2019" is 2019-03-04.',
    ])
  })

  it('is day first for the whole column where one first number is over 12', () => {
    expect(issuedOn(file(['03/04/2019'], ['13/04/2019']))).toEqual(['2019-04-03', '2019-04-13'])
    expect(issuedOn(file(['03/04/2019'], ['12/04/2019']))).toEqual(['2019-03-04', '2019-12-04'])
  })

  it('follows another column of the file where its own cells say nothing', () => {
    const text = file(['03/04/2019', '25/02/2019'])
    expect(issuedOn(text)).toEqual(['2019-04-03'])
    expect(taken(readText(text)).notes.join('\n')).toContain('day first, as the other dates of this file are')
  })

  it('is its own for each column that shows it', () => {
    const [element] = taken(readText(file(['04/13/2019', '25/02/2019']))).elements
    expect(element).toMatchObject({ issuedOn: '2019-04-13', inService: '2019-02-25' })
  })

  it('is a fault, once, where one column shows both', () => {
    expect(sayFaults(faultsOf(readText(file(['13/04/2019'], ['03/04/2019'], ['04/13/2019']))))).toEqual([
      'Line 4, column "Issue date": "04/13/2019" and "13/04/2019" on line 2 cannot both be right: one has the day first, ' +
        'the other the month. Write the dates of this column as 2019-03-15.',
    ])
  })

  it('is a fault where a column shows neither and the others differ', () => {
    const text =
      'ID,Type,Issued to,Issue date,In service,Made\nX-1,Hood,M-1,03/04/2019,25/02/2019,02/25/2019\n'
    expect(sayFaults(faultsOf(readText(text)))).toEqual([
      'Line 2, column "Issue date": Other dates of this file have the day first and others the month. Write this column as 2019-03-15.',
    ])
  })

  it('is not asked of dates that begin with the year or name the month', () => {
    expect(taken(readText(file(['2019-04-03', '3 Apr 2019']))).notes).toEqual([])
  })
})

describe('the dates of one element', () => {
  it('take an issue date of gear that is issued to nobody now for its first, and note it', () => {
    const { elements, notes } = taken(readText(`ID,Type,Issued to,Issue date\nX-1,Hood,,2019-03-01\n`))
    expect(elements).toEqual([{ id: 'X-1', kind: 'hood', issuedOn: '2019-03-01' }])
    expect(notes).toEqual([
      'Column "Issue date": where the row names no holder it was read as the day of the first issue.',
    ])
  })
})
