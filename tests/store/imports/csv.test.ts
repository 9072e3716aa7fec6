// CSV itself. The cases follow the rules of RFC 4180, section 2, and are written by hand from memory of them.
import { stringify } from 'csv-stringify/sync'
import {
  array,
  assert,
  constantFrom,
  property,
  record,
  string,
  stringMatching,
  uniqueArray,
} from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readGear } from '../../../src/store/imports/read-gear.ts'
import { sayFaults } from '../../../src/store/imports/fault.ts'
import { faultsOf, readText, taken } from './sheets.ts'

const says = (input: string | Uint8Array): string[] =>
  sayFaults(faultsOf(readGear(typeof input === 'string' ? Buffer.from(input) : input, { file: 'gear.csv' })))
const models = (text: string) => taken(readText(text)).elements.map(({ id, model }) => [id, model])

describe('a file by the rules of RFC 4180', () => {
  it.each([
    [
      'rule 1, lines end in CR LF',
      'ID,Type,Model\r\n1,Hood,a\r\n2,Hood,b\r\n',
      [
        ['1', 'a'],
        ['2', 'b'],
      ],
    ],
    ['rule 2, the last line need not end', 'ID,Type,Model\r\n1,Hood,a', [['1', 'a']]],
    ['rule 4, an empty last cell counts', 'ID,Type,Model\r\n1,Hood,\r\n', [['1', undefined]]],
    ['rule 5, cells may be quoted', '"ID","Type","Model"\r\n"1","Hood","a"\r\n', [['1', 'a']]],
    ['rule 6, a comma in quotes', 'ID,Type,Model\r\n1,Hood,"a,b"\r\n', [['1', 'a,b']]],
    [
      'rule 6, a new line in quotes',
      'ID,Type,Model\r\n1,Hood,"a\r\nb"\r\n2,Hood,c\r\n',
      [
        ['1', 'a b'],
        ['2', 'c'],
      ],
    ],
    ['rule 7, a doubled quote', 'ID,Type,Model\r\n1,Hood,"6"" brim"\r\n', [['1', '6" brim']]],
    ['rule 7, nothing but quotes', 'ID,Type,Model\r\n1,Hood,""""""\r\n', [['1', '""']]],
    ['rule 7, an empty quoted cell', 'ID,Type,Model\r\n1,Hood,""\r\n', [['1', undefined]]],
    ['JSON in a cell', 'ID,Type,Model\r\n1,Hood,"{""a"": [1, ""b""]}"\r\n', [['1', '{"a": [1, "b"]}']]],
    ['UTF-8', 'ID,Type,Model\r\n1,Hood,ʤ 火 é\r\n', [['1', 'ʤ 火 é']]],
    ['not in the rules: lines end in LF', 'ID,Type,Model\n1,Hood,a\n', [['1', 'a']]],
    ['not in the rules: lines end in CR', 'ID,Type,Model\r1,Hood,a\r', [['1', 'a']]],
    ['not in the rules: empty lines', '\r\nID,Type,Model\r\n\r\n1,Hood,a\r\n,,\r\n\r\n', [['1', 'a']]],
    ['not in the rules: a byte order mark', '\ufeff"ID",Type,Model\r\n1,Hood,a\r\n', [['1', 'a']]],
    ['not in the rules: tabs', 'ID\tType\tModel\n1\tHood\ta,b\n', [['1', 'a,b']]],
    ['not in the rules: tabs between quotes', '"ID"\t"Type"\t"Model"\n"1"\t"Hood"\t"a"\n', [['1', 'a']]],
    ['not in the rules: a first line sep=;', 'sep=;\r\nID;Type;Model\r\n1;Hood;a,b\r\n', [['1', 'a,b']]],
    [
      'a heading with commas in quotes',
      'ID;Type;"Model";"Notes, old, older, oldest"\n1;Hood;a;\n',
      [['1', 'a']],
    ],
  ])('%s', (_, text, expected) => {
    expect(models(text)).toEqual(expected)
  })

  it('reads the same ids back from any table that a CSV writer made', () => {
    const idOf = stringMatching(/^[A-Za-z][A-Za-z0-9_.-]{0,39}$/)
    // Any text at all but NUL, which is refused by a rule of its own.
    const cell = string({ unit: 'binary', maxLength: 30 }).map((text) => text.replaceAll('\0', ''))
    const row = record({ id: idOf, size: cell, model: cell })
    const rows = uniqueArray(row, { selector: ({ id }) => id, minLength: 1, maxLength: 12 })
    const style = record({
      delimiter: constantFrom(',', ';', '\t', '|'),
      record_delimiter: constantFrom('\n', '\r\n', '\r'),
      quoted: constantFrom(true, false),
      bom: constantFrom(true, false),
    })
    const blanks = array(constantFrom('\n', '\r\n'), { maxLength: 3 })
    assert(
      property(rows, style, blanks, (rows, style, blanks) => {
        const table = rows.map(({ id, size, model }) => [id, 'Hood', size, model])
        const text = stringify([['ID', 'Kind', 'Size', 'Model'], ...table], {
          ...style,
          quoted_match: /[\r\n"]/,
        })
        const { elements } = taken(readText(text + blanks.join('')))
        expect(elements.map(({ id }) => id)).toEqual(rows.map(({ id }) => id))
      }),
      { numRuns: 300 },
    )
  })
})

describe('the line of a fault', () => {
  it('is where the row begins, also below cells that hold new lines', () => {
    const text = 'ID,Type,Model\r\n1,Hood,"a\r\n\r\nb"\r\n\r\n2,Kite,"c\nd"\r\n3,Kite,e\r\n'
    expect(faultsOf(readText(text)).map(({ line }) => line)).toEqual([6, 8])
  })

  it('counts the line that names the separator', () => {
    expect(faultsOf(readText('sep=;\nID;Type\n1;Kite\n')).map(({ line }) => line)).toEqual([3])
  })
})

describe('a broken file', () => {
  it('with ragged rows names each, and reads the others', () => {
    expect(says('ID,Type\n1\n2,Kite\n3,Hood,L\n')).toEqual([
      'Line 2: The row has 1 cell and the heading row has 2. A comma inside a cell needs quotes round the cell.',
      expect.stringMatching(/^Line 3, column "Type": "Kite"/),
      'Line 4: The row has 3 cells and the heading row has 2. A comma inside a cell needs quotes round the cell.',
    ])
  })

  it('with bare quotes names each, and reads the other rows', () => {
    const text = 'ID,Type,Model\n1,Hood,6" brim\n2,Kite,x\n3,Hood,"6" brim\n4,Kite,x\n'
    expect(says(text).map((said) => said.slice(0, 60))).toEqual([
      'Line 2, column "Model": A quote stands inside a cell that do',
      'Line 3, column "Type": "Kite" is not a kind of element. The ',
      'Line 4, column "Model": A quoted cell goes on after its clos',
      'Line 5, column "Type": "Kite" is not a kind of element. The ',
    ])
  })

  it('with a quote that closes on a later line names the line where it opens', () => {
    expect(says('ID,Type,Model\n1,Hood,"a\n2,Hood,b\n3,Hood,"c"\n4,Kite,d\n')).toEqual([
      'Line 2, column "Model": A quoted cell goes on after its closing quote. The quote that closes it stands 2 lines ' +
        'further down. Double each quote inside the cell or take it out.',
      expect.stringMatching(/^Line 5, column "Type"/),
    ])
  })

  it('with a quote that is never closed names its line and says that the rest was not read', () => {
    expect(says('ID,Type,Model\n1,Kite,x\n2,Hood,"a\n3,Kite,b\n')).toEqual([
      expect.stringMatching(/^Line 2, column "Type"/),
      'Line 3, column "Model": A quoted cell opens here and is never closed. Nothing after it was read.',
    ])
    expect(says('ID,"Type\n1,Hood\n')).toEqual([
      'Line 1: A quoted cell opens here and is never closed. Nothing after it was read.',
    ])
  })

  it.each([
    ['', '"gear.csv" is empty.'],
    ['\ufeff', '"gear.csv" is empty.'],
    ['\n\r\n , \n', '"gear.csv" is empty.'],
    ['ID,Type\n', '"gear.csv" has a heading row and no rows under it.'],
    ['ID,Type\n,\n\n', '"gear.csv" has a heading row and no rows under it.'],
  ])('that holds nothing is called so: %j', (text, sentence) => {
    expect(says(text)).toEqual([`Line 1: ${sentence}`])
  })
})

describe('bytes that are not plain UTF-8', () => {
  const save = 'Save it as "CSV UTF-8 (comma delimited)".'

  it('are named by line', () => {
    expect(
      says(Buffer.from('ID,Type,Model\r\n1,Hood,a\r\n2,Hood,caf\xe9\r\n3,Hood,\xff\r\n', 'latin1')),
    ).toEqual([
      `Line 3: The line is not UTF-8 text; it may be of the older Windows kind (Windows-1252), in which its first odd byte is "é". ${save}`,
      `Line 4: The line is not UTF-8 text; it may be of the older Windows kind (Windows-1252), in which its first odd byte is "ÿ". ${save}`,
    ])
    expect(says('ID,Type\n1,Ho\0od\n')).toEqual(['Line 2: The line holds a NUL byte. Remove it.'])
  })

  it.each([
    ['UTF-16 with its mark', Buffer.from('\ufeffID,Type\n1,Hood\n', 'utf16le')],
    ['UTF-16 the other way round', Buffer.from('\ufeffID,Type\n1,Hood\n', 'utf16le').swap16()],
  ])('are read where they say what they are: %s', (_, bytes) => {
    const { elements, notes } = taken(readGear(bytes, { file: 'gear.csv' }))
    expect(elements).toEqual([{ id: '1', kind: 'hood' }])
    expect(notes).toContain('The file is UTF-16 text and was read as such.')
  })

  it('are called by their name: UTF-16 without its mark', () => {
    expect(says(Buffer.from('ID,Type\n1,Hood\n', 'utf16le'))).toEqual([
      `Line 1: The file is UTF-16 text without its mark, and was not read. ${save}`,
    ])
  })

  it('of a workbook are called so', () => {
    expect(says(Buffer.from('PK\u0003\u0004\u0014\0'))).toEqual([
      `Line 1: This is a spreadsheet workbook, not CSV. ${save}`,
    ])
  })
})
