// What a cell may hold and what is said of one that may not, with its line and the file's own heading.
import { describe, expect, it } from 'vitest'
import { sayFaults } from '../../../src/store/imports/fault.ts'
import { faultsOf, readText, taken, withCell } from './sheets.ts'

const only = (heading: string, cell: string) => taken(readText(withCell(heading, cell))).elements[0]!
const fault = (heading: string, cell: string): string => {
  const faults = faultsOf(readText(withCell(heading, cell)))
  expect(faults.map(({ line, column }) => [line, column])).toEqual([[2, heading]])
  return faults[0]!.says
}

describe('a kind', () => {
  it.each([
    ['Bunker coat', 'coat-shell'],
    ['Jacket', 'coat-shell'],
    ['COAT, OUTER SHELL', 'coat-shell'],
    ['coat-shell', 'coat-shell'],
    ['Thermal liner (coat)', 'coat-liner'],
    ['DRD', 'drag-rescue-device'],
    ['Drag rescue device', 'drag-rescue-device'],
    ['Pants', 'trouser-shell'],
    ['Turnout trousers', 'trouser-shell'],
    ['Pant liner', 'trouser-liner'],
    ['Structural helmet', 'helmet'],
    ['Hood', 'hood'],
    ['Structural gloves', 'gloves'],
    ['Pair of boots', 'boots'],
    ['Mask', 'facepiece'],
    ['SCBA', 'air-pack'],
    ['Bottle', 'cylinder'],
  ])('%j is a %s', (word, kind) => {
    expect(taken(readText(`ID,Type\nX-1,"${word}"\n`)).elements).toEqual([{ id: 'X-1', kind }])
  })

  it.each([
    ['Liner', 'it may be the coat liner or the trouser liner'],
    ['Outer shell', 'it may be the coat shell or the trouser shell'],
    ['Turnout gear', 'it is more than one element, and each needs a row of its own'],
    ['Coat & pants', 'it is more than one element, and each needs a row of its own'],
  ])('%j could be two and is refused with the reason', (word, why) => {
    expect(faultsOf(readText(`ID,Type\nX-1,${word}\n`))).toEqual([
      { line: 2, column: 'Type', says: `"${word}" does not say which kind of element it is: ${why}.` },
    ])
  })

  it.each(['Kite', 'Wildland coat', 'Extrication gloves', 'Fire'])(
    'that is not known, as %j, is refused with the known ones',
    (word) => {
      expect(sayFaults(faultsOf(readText(`ID,Type\nX-1,${word}\n`)))).toEqual([
        `Line 2, column "Type": "${word}" is not a kind of element. The kinds are: coat shell, coat liner, drag rescue device, ` +
          'trouser shell, trouser liner, helmet, hood, gloves, boots, facepiece, air pack, cylinder.',
      ])
    },
  )
})

describe('an id', () => {
  it('keeps its zeros and is text', () => {
    expect(taken(readText('ID,Type\n00123,Hood\n')).elements[0]!.id).toBe('00123')
    expect(taken(readText('ID,Type\n12E3,Hood\n')).elements[0]!.id).toBe('12E3')
  })

  it.each(['1.23E+05', '1,23E+05', '4E+11'])('that a spreadsheet has rounded, as %j, is refused', (id) => {
    expect(faultsOf(readText(`ID,Type\n"${id}",Hood\n`))).toEqual([
      {
        line: 2,
        column: 'ID',
        says: `"${id}" is a long number that a spreadsheet has rounded. Format the column as text and enter it again; if it is right, put an apostrophe before it.`,
      },
    ])
    expect(fault('Serial #', id)).toContain('rounded')
    const [member, ...more] = faultsOf(readText(`Badge,Name\n"${id}",A. Varga\n`))
    expect(member).toMatchObject({ line: 2, column: 'Badge', says: expect.stringContaining('rounded') })
    expect(more).toEqual([])
  })

  it.each(['C 1041', '=A1', '="00123"', 'x'.repeat(41), 'n/a'])('%j is not one', (id) => {
    const [first, ...more] = faultsOf(readText(`ID,Type\n"${id.replaceAll('"', '""')}",Hood\n`))
    expect(first).toMatchObject({ line: 2, column: 'ID' })
    expect(first!.says).toContain('must be 1 to 40 letters, digits, "-", "_" or "."')
    expect(more).toEqual([])
  })

  it('of 40 characters is the longest', () => {
    expect(taken(readText(`ID,Type\n${'x'.repeat(40)},Hood\n`)).elements).toHaveLength(1)
  })

  it('that stands twice is a fault with both lines, whether of members or elements', () => {
    const text = 'ID,Type,Name\nM-1,,A. Varga\nX-1,Hood,\n\nX-1,Boots,\nM-1,Hood,\nX-1,Kite,\n'
    expect(sayFaults(faultsOf(readText(text))).map((said) => said.slice(0, 51))).toEqual([
      'Line 5, column "ID": "X-1" stands on line 3 already',
      'Line 6, column "ID": "M-1" stands on line 2 already',
      'Line 7, column "ID": "X-1" stands on line 3 already',
      'Line 7, column "Type": "Kite" is not a kind of elem',
    ])
  })

  it('that is missing is a fault', () => {
    expect(sayFaults(faultsOf(readText('Tag,Type\n,Hood\n')))).toEqual([
      'Line 2, column "Tag": The row has no id.',
    ])
    expect(sayFaults(faultsOf(readText('Badge,Name\n,A. Varga\n')))).toEqual([
      'Line 2, column "Badge": The row has no id.',
    ])
  })
})

describe('a rated pressure', () => {
  it.each([
    ['4500', 4500],
    ['4500 psi', 4500],
    ['4,500', 4500],
    ['4,500 PSI', 4500],
    ['2216.0', 2216],
    ['100', 100],
    ['20000', 20_000],
  ])('%j is %d psi', (cell, psi) => {
    expect(only('Rated pressure', cell).ratedPsi).toBe(psi)
  })

  it.each([
    ['300 bar', 'Give the pressure in psi.'],
    ['4.5', 'is not a whole number of psi'],
    ['45,00', 'is not a whole number of psi'],
    ['full', 'is not a whole number of psi'],
    ['-4500', 'is not a whole number of psi'],
    ['99', 'is less than any cylinder is rated for'],
    ['20001', 'is more than any cylinder holds'],
  ])('%j is refused', (cell, says) => {
    expect(fault('Rated pressure', cell)).toContain(says)
  })
})

describe('a construction', () => {
  it.each([
    ['Carbon fibre', 'carbon'],
    ['carbon-fiber', 'carbon'],
    ['Aluminum', 'aluminium'],
    ['STEEL', 'steel'],
    ['fiberglass', 'glass'],
    ['aramid', 'aramid'],
    ['hoop-wrapped', 'hoop'],
  ])('%j is %s', (cell, construction) => {
    expect(only('Construction', cell).construction).toBe(construction)
  })

  it.each(['composite', 'Fully wrapped'])('%j proves none: it is left out and noted', (cell) => {
    const { elements, notes } = taken(readText(withCell('Construction', cell)))
    expect(elements).toEqual([{ id: 'X-1', kind: 'cylinder' }])
    expect(notes.join()).toContain('its construction was left out and is unproven')
  })

  it('that is not known is refused with the known ones', () => {
    expect(fault('Construction', 'wood')).toBe(
      '"wood" is not a construction. The constructions are: steel, aluminium, carbon, glass, aramid, hoop.',
    )
  })
})

describe('a cell', () => {
  it('is cleaned of controls, and the line is noted', () => {
    const { elements, notes } = taken(readText('ID,Type,Model\nX-1,Hood,"Tour\u001b[2J\u202e 3\u0007"\n'))
    expect(elements[0]!.model).toBe('Tour 3')
    expect(notes).toEqual(['Line 2: control or invisible characters were taken out.'])
  })

  it('with an escape sequence brings none into the sentence of a fault', () => {
    const [said] = sayFaults(faultsOf(readText('ID,Ty\u001b[31mpe\nX-1,Ki\u001b[2Jte\u202e\n')))
    expect(said).toMatch(/^Line 2, column "Type": "Kite" is not a kind/)
  })

  it('with a formula is text and is never worked out', () => {
    expect(only('Model', '=1+1').model).toBe('=1+1')
    expect(only('Model', '@SUM(A1)').model).toBe('@SUM(A1)')
  })

  it('of 2000 characters is taken and of 2001 is not', () => {
    expect(only('Model', 'm'.repeat(2000)).model).toHaveLength(2000)
    expect(fault('Model', 'm'.repeat(2001))).toMatch(/^"m{60}…" is longer than 2000 characters\.$/)
  })

  it('with a word for nothing is empty where it may be, and that is noted', () => {
    const { elements, notes } = taken(readText('ID,Type,Size\nX-1,Hood,N/A\nX-2,Hood,-\n'))
    expect(elements).toEqual([
      { id: 'X-1', kind: 'hood' },
      { id: 'X-2', kind: 'hood' },
    ])
    expect(notes).toEqual([
      'Column "Size": "N/A" was read as an empty cell.',
      'Column "Size": "-" was read as an empty cell.',
    ])
  })
})
