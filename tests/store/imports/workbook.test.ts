// Workbooks (XLSX), written by a library that does not read them: real dates, numbers for ids, several sheets, damage.
import writeWorkbook, { type SheetData } from 'write-excel-file/node'
import { describe, expect, it } from 'vitest'
import { readGear, type FileRead } from '../../../src/store/imports/read-gear.ts'
import { sayFaults } from '../../../src/store/imports/fault.ts'
import { readWorkbook, unpackedSize } from '../../../src/store/imports/workbook.ts'
import { faultsOf, taken } from './sheets.ts'

type Cell = string | number | boolean | Date | null
const cell = (value: Cell) =>
  value === null
    ? null
    : value instanceof Date
      ? { type: Date, value, format: 'mm/dd/yyyy' }
      : { type: value.constructor as StringConstructor, value }
const day = (text: string): Date => new Date(`${text}T00:00:00Z`)

async function workbook(rows: Cell[][]): Promise<Buffer> {
  return await writeWorkbook(rows.map((row) => row.map(cell)) as SheetData).toBuffer()
}
async function read(bytes: Buffer, sheet?: string): Promise<FileRead> {
  const opened = await readWorkbook(bytes, sheet)
  return 'faults' in opened ? opened : readGear(opened.sheet, { file: 'gear.xlsx' })
}
const says = async (rows: Cell[][]): Promise<string[]> =>
  sayFaults(faultsOf(await read(await workbook(rows))))

describe('a workbook', () => {
  it('is read as CSV of the same cells would be', async () => {
    const bytes = await workbook([
      ['Asset #', 'Type', 'Mfg date', 'Size', 'Issue date', 'Assigned to'],
      ['00123', 'Helmet', day('2019-03-15'), 'M', day('2019-06-01'), 'M-104'],
      [null, null, null, null, null, null],
      ['H-2', 'Hood', '2020-05', null, null, null],
    ])
    expect(taken(await read(bytes)).elements).toEqual([
      { id: '00123', kind: 'helmet', made: '2019-03', size: 'M', issuedTo: 'M-104', issuedOn: '2019-06-01' },
      { id: 'H-2', kind: 'hood', made: '2020-05' },
    ])
  })

  it('gives a real date as that day in every time zone', async () => {
    const rows = [
      ['ID', 'Type', 'In service'],
      ['H-1', 'Hood', day('2024-02-29')],
      ['H-2', 'Hood', day('2019-12-31')],
    ]
    const { elements } = taken(await read(await workbook(rows)))
    expect(elements.map((each) => each.inService)).toEqual(['2024-02-29', '2019-12-31'])
  })

  it('names its rows as the spreadsheet counts them, blank ones too', async () => {
    expect(
      await says([
        ['ID', 'Type'],
        [null, null],
        ['H-1', 'Cape'],
      ]),
    ).toEqual([expect.stringMatching(/^Line 3, column "Type": "Cape" is not a kind of element\./)])
  })

  it('that holds an id as a number is read, and says what may be lost', async () => {
    const { elements, notes } = taken(
      await read(
        await workbook([
          ['ID', 'Type'],
          [123, 'Hood'],
        ]),
      ),
    )
    expect(elements).toEqual([{ id: '123', kind: 'hood' }])
    expect(notes).toContain(
      'Column "ID": some cells are numbers in the workbook, and zeros at their start are lost.',
    )
  })

  it.each<[string, Cell, string]>([
    [
      'as a date',
      day('2005-03-01'),
      'The cell is a date in the workbook, not an id. Format the column as text and enter it again.',
    ],
    [
      'of more digits than a number keeps',
      1.2345678901234568e17,
      '"1.2345678901234568e+17" is a long number that a spreadsheet has rounded. Format the column as text and enter it again; if it is right, put an apostrophe before it.',
    ],
  ])('that holds an id %s is refused', async (_, id, words) => {
    expect(
      await says([
        ['ID', 'Type'],
        [id, 'Hood'],
      ]),
    ).toEqual([`Line 2, column "ID": ${words}`])
  })
})

describe('of several sheets', () => {
  const sheets = async (): Promise<Buffer> =>
    await writeWorkbook([
      { data: [] as SheetData, sheet: 'Cover' },
      { data: [['ID', 'Type'].map(cell), ['H-1', 'Hood'].map(cell)] as SheetData, sheet: 'Gear' },
      { data: [['ID', 'Type'].map(cell), ['H-2', 'Hood'].map(cell)] as SheetData, sheet: 'Old' },
    ]).toBuffer()

  it('the first with anything in it is read, and the others are named', async () => {
    const { elements, notes } = taken(await read(await sheets()))
    expect(elements.map((each) => each.id)).toEqual(['H-1'])
    expect(notes).toContain('The sheet "Gear" was read. Not read: "Old". Name another with --sheet.')
  })

  it('another is read by its name, and one there is not is said', async () => {
    expect(taken(await read(await sheets(), 'Old')).elements.map((each) => each.id)).toEqual(['H-2'])
    expect(sayFaults(faultsOf(await read(await sheets(), 'New')))).toEqual([
      'Line 1: The workbook has no sheet "New". Its sheets are: "Cover", "Gear", "Old".',
    ])
  })
})

describe('that cannot be opened', () => {
  it.each([0.2, 0.5, 0.9])('cut off at %f of its length says so', async (part) => {
    const bytes = await workbook([
      ['ID', 'Type'],
      ['H-1', 'Hood'],
    ])
    const cut = bytes.subarray(0, Math.floor(bytes.length * part))
    expect(sayFaults(faultsOf(await read(cut)))).toEqual([
      expect.stringMatching(/^Line 1: The workbook (is damaged|cannot be read)/),
    ])
  })

  it('with bytes damaged in the middle gives a sentence or the same cells, never other ones', async () => {
    const bytes = await workbook([
      ['ID', 'Type'],
      ['H-1', 'Hood'],
    ])
    for (let at = 60; at < bytes.length; at += 37) {
      const damaged = Buffer.from(bytes)
      damaged[at]! ^= 0xff
      const opened = await read(damaged)
      if ('faults' in opened) expect(sayFaults(opened.faults)[0]).toMatch(/^Line \d+/)
      else expect(opened.elements.every((each) => each.kind === 'hood')).toBe(true)
    }
  })

  it('that would be unpacked to more than any gear list is not unpacked', async () => {
    const bytes = await workbook([
      ['ID', 'Type'],
      ['H-1', 'Hood'],
    ])
    expect(unpackedSize(bytes)).toBeLessThan(100_000)
    const bomb = Buffer.from(bytes)
    // The size that the directory gives of its first entry, 24 bytes in.
    bomb.writeUInt32LE(0xf0000000, bomb.indexOf(Buffer.from('PK\u0001\u0002', 'latin1')) + 24)
    expect(sayFaults(faultsOf(await read(bomb)))).toEqual([
      expect.stringContaining('far larger than any gear list'),
    ])
  })

  it('of the old kind is called so', () => {
    const old = Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1])
    expect(sayFaults(faultsOf(readGear(old, { file: 'gear.xls' })))).toEqual([
      'Line 1: This is a workbook of the old kind (.xls), or one with a password. Save it as .xlsx or as CSV.',
    ])
  })
})
