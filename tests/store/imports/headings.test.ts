// How a file's headings find their columns, and what is said where they do not.
import { describe, expect, it } from 'vitest'
import { COLUMN_NAMES, COLUMNS, type ColumnWords } from '../../../src/store/imports/columns.ts'
import { sayFaults } from '../../../src/store/imports/fault.ts'
import { faultsOf, readText, taken } from './sheets.ts'

const says = (text: string, map?: Record<string, string>): string[] =>
  sayFaults(faultsOf(readText(text, map)))

describe('the synonyms', () => {
  it('give no heading to two columns of one kind of file', () => {
    for (const lists of [
      ['words', 'ofGear'],
      ['words', 'ofMembers'],
    ] as const) {
      const words = COLUMN_NAMES.flatMap((name) => {
        const column: ColumnWords = COLUMNS[name]
        return lists.flatMap((list) => column[list] ?? [])
      }).map((word) => word.toLowerCase())
      expect(words.filter((word, index) => words.indexOf(word) !== index)).toEqual([])
    }
  })

  it.each([
    'Serial #',
    'SERIAL NO.',
    'serial_number',
    'SerialNumber',
    ' Serial  Num ',
    'S/N',
    'Serial # (label)',
  ])('take %j for the serial', (heading) => {
    const { elements } = taken(readText(`Asset Tag,Item Type,"${heading}"\nX-1,Hood,S-9\n`))
    expect(elements).toEqual([{ id: 'X-1', kind: 'hood', serial: 'S-9' }])
  })

  it('take "Employee" for the holder in a gear list, the name beside a badge, and the id beside a name', () => {
    expect(taken(readText('Tag,Type,Employee\nX-1,Hood,M-1\n')).elements[0]!.issuedTo).toBe('M-1')
    expect(taken(readText('Badge,Employee\nM-1,A. Varga\n')).members).toEqual([
      { id: 'M-1', name: 'A. Varga' },
    ])
    expect(taken(readText('Employee,Name\nM-1,A. Varga\n')).members).toEqual([
      { id: 'M-1', name: 'A. Varga' },
    ])
  })

  it('join a first and a last name', () => {
    expect(taken(readText('Last Name,First Name,Badge\nVarga,Ana,M-1\n')).members).toEqual([
      { id: 'M-1', name: 'Ana Varga' },
    ])
  })

  it('leave out what they do not know, and say so', () => {
    const { notes } = taken(readText('ID,Type,Shelf,,\nX-1,Hood,7,,stray\n'))
    expect(notes).toEqual(['Column "Shelf" was not used.', 'Column 5 has no heading and was not used.'])
  })

  it('say that names in a pure gear list were not used', () => {
    expect(taken(readText('ID,Type,Name\nX-1,Hood,A. Varga\n')).notes).toEqual([
      'Column "Name" was not used: every row has a kind, so none is a member.',
    ])
  })

  it('do not choose between two headings for one column', () => {
    expect(says('Asset #,Barcode,Type\nX-1,1,Hood\n')).toEqual([
      'Line 1: "Asset #" and "Barcode" can both be the column id. Say which, as: --map "Asset #=id"',
    ])
  })
})

describe('a heading mapped by the user', () => {
  it('outranks the synonyms', () => {
    const { elements, notes } = taken(readText('Asset #,Barcode,Type\nX-1,1,Hood\n', { barcode: 'id' }))
    expect(elements).toEqual([{ id: '1', kind: 'hood' }])
    expect(notes).toEqual(['Column "Asset #" was not used.'])
  })

  it('may be any heading, and the target may be written in any case', () => {
    const map = { Nummer: 'ID', Was: 'kind', Wer: 'issuedTo' }
    expect(taken(readText('Nummer,Was,Wer\nX-1,Hood,M-1\n', map)).elements).toEqual([
      { id: 'X-1', kind: 'hood', issuedTo: 'M-1' },
    ])
  })

  it('is left out by the target "unused"', () => {
    const text = 'Badge,Name,Type\nM-1,A. Varga,volunteer\n'
    expect(says(text)).toHaveLength(1)
    expect(taken(readText(text, { Type: 'unused' })).members).toEqual([{ id: 'M-1', name: 'A. Varga' }])
  })

  it.each([
    [{ Shelf: 'id' }, 'There is no column "Shelf" to map. The file has: "ID", "Type".'],
    [{ '': 'id' }, 'There is no column "" to map. The file has: "ID", "Type".'],
    [
      { Type: 'sort' },
      `"sort" is not a column of ours. The columns are: ${[...COLUMN_NAMES, 'unused'].join(', ')}.`,
    ],
    [{ ID: 'kind', Type: 'kind' }, 'Two headings are mapped to kind. Map one of them only.'],
  ])('that cannot be is a fault: %j', (map, sentence) => {
    expect(says('ID,Type\nX-1,Hood\n', map as Record<string, string>)).toContain(`Line 1: ${sentence}`)
  })
})

describe('a heading row', () => {
  it('with neither an id nor a kind or name lists what it has and what is wanted', () => {
    expect(says('\nShelf,Colour\n7,black\n')).toEqual([
      'Line 2: The headings are "Shelf", "Colour". What is missing: id (as "Asset #", "Barcode" or "Badge"); and kind ' +
        '(as "Type" or "Item") for gear, or name for members. Rename the headings, or say which is which, as: ' +
        '--map "Their Heading=id"',
    ])
  })

  it('with an id only lacks the kind or name, and with a kind only the id', () => {
    expect(says('ID,Size\nX-1,L\n')[0]).toContain('What is missing: kind (as "Type"')
    expect(says('Type,Size\nHood,L\n')[0]).toContain(
      'What is missing: id (as "Asset #", "Barcode" or "Badge").',
    )
  })

  it('may not hold a heading twice', () => {
    expect(says('ID,Type,Size,SIZE \nX-1,Hood,L,M\n')).toEqual([
      'Line 1: The heading "SIZE" stands over columns 3 and 4. Rename one.',
    ])
  })

  it.each(['__proto__', 'constructor', 'prototype', 'toString'])('may not hold %j', (heading) => {
    expect(says(`ID,Type,${heading}\nX-1,Hood,L\n`)).toEqual([
      `Line 1: A column cannot be called "${heading}". Rename it.`,
    ])
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false)
  })
})
