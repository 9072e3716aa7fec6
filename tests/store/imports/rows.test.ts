// What the rows of a file say together, and how its faults are told.
import { describe, expect, it } from 'vitest'
import { sayFaults } from '../../../src/store/imports/fault.ts'
import { readGear } from '../../../src/store/imports/read-gear.ts'
import { faultsOf, readText, taken } from './sheets.ts'

describe('the rows together', () => {
  it('refuse a row that is neither an element nor a member', () => {
    expect(sayFaults(faultsOf(readText('ID,Type,Size\nX-1,,L\n')))).toEqual([
      'Line 2, column "Type": The row has neither a kind nor a name: it is no element and no member.',
    ])
  })

  it('tell all faults of all rows, in the order of the lines', () => {
    const text = 'ID,Type,Made,Rated pressure\nX 1,Kite,13/2019,\nX-2,Hood\nX-3,Bottle,43525,310 bar\n'
    expect(faultsOf(readText(text)).map(({ line, column }) => [line, column])).toEqual([
      [2, 'Type'],
      [2, 'Made'],
      [2, 'ID'],
      [3, null],
      [4, 'Made'],
      [4, 'Rated pressure'],
    ])
  })

  it('note a size that its kind is not marked with, and take it: makers add to any list', () => {
    const read = taken(readText('ID,Type,Size\nX-1,Coat,banana\nX-2,Coat,44x32\nX-3,Helmet,any\n'))
    expect(read.elements.map((each) => each.size)).toEqual(['banana', '44x32', 'any'])
    expect(read.notes.filter((each) => each.includes('size'))).toEqual([
      'Line 2: "banana" is no size that coat shell is marked with (chest x length in inches, as 44x32); it will fit nobody.',
    ])
  })

  it('refuse a name where an id is wanted', () => {
    expect(sayFaults(faultsOf(readText('ID,Type,Assigned to\nX-1,Hood,"Ames, Dana"\n')))).toEqual([
      'Line 2, column "Assigned to": "Ames, Dana" looks like a name. Write the id of the member or riding position, as M-104.',
    ])
  })

  it('say as many faults as asked for and count the others', () => {
    const faults = faultsOf(readText('ID,Type\nX-1,Kite\nX-2,Kite\nX-3,Kite\n'))
    expect(sayFaults(faults)).toHaveLength(3)
    expect(sayFaults(faults, 3)).toHaveLength(3)
    expect(sayFaults(faults, 2).at(-1)).toBe('1 more fault is not shown.')
    expect(sayFaults(faults, 1).at(-1)).toBe('2 more faults are not shown.')
  })

  it('bring no control characters from a file name or a mapped heading into a sentence', () => {
    const said = sayFaults([
      ...faultsOf(readGear(Buffer.from(''), { file: 'ge\u001b[2Jar.csv' })),
      ...faultsOf(readText('ID,Type\nX-1,Hood\n', { 'Sh\u001b[31melf': 'id' })),
    ])
    expect(said[0]).toBe('Line 1: "gear.csv" is empty.')
    expect(said[1]).toContain('There is no column "Shelf" to map.')
  })
})
