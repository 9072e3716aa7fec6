// Opens a workbook (XLSX) and gives one sheet of it as plain data; a part of the build of its own, loaded only for such a file.
import readWorkbookSheets from 'read-excel-file/universal'
import { faultOf, show, showAll, type Fault } from './fault.ts'
import type { Sheet, SheetCell } from './sheet.ts'

/** Unpacked it may be many times as large; a file that says more of itself is not opened. */
const MOST_UNPACKED = 300_000_000
const END_OF_DIRECTORY = 0x06054b50
const DIRECTORY_ENTRY = 0x02014b50
const LONGEST_END = 65_557

/** How large the file says it is when it is unpacked; undefined when its directory cannot be read. */
export function unpackedSize(bytes: Buffer): number | undefined {
  let end = bytes.length - 22
  const first = Math.max(0, bytes.length - LONGEST_END)
  while (end >= first && bytes.readUInt32LE(end) !== END_OF_DIRECTORY) end--
  if (end < first) return undefined
  const count = bytes.readUInt16LE(end + 10)
  let at = bytes.readUInt32LE(end + 16)
  let sum = 0
  for (let index = 0; index < count; index++) {
    if (at + 46 > bytes.length || bytes.readUInt32LE(at) !== DIRECTORY_ENTRY) return undefined
    sum += bytes.readUInt32LE(at + 24)
    at += 46 + bytes.readUInt16LE(at + 28) + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32)
  }
  return sum
}

const refuse = (says: string): { faults: Fault[] } => ({ faults: [faultOf(1, says)] })

/** @param wanted the name of the sheet, where it is not the first with anything in it */
export async function readWorkbook(
  bytes: Buffer,
  wanted?: string,
): Promise<{ sheet: Sheet } | { faults: Fault[] }> {
  const size = unpackedSize(bytes)
  if (size === undefined || size > MOST_UNPACKED) {
    return refuse(
      size === undefined
        ? 'The workbook is damaged or cut off: its directory cannot be read. Save it again as .xlsx.'
        : 'The workbook is far larger than any gear list when it is unpacked, and was not opened. Save the sheet alone.',
    )
  }
  let sheets: { sheet: string; data: unknown[][] }[]
  try {
    const plain = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer
    sheets = await readWorkbookSheets(plain, { trim: false })
  } catch {
    return refuse(
      'The workbook cannot be read: it is damaged, has a password, or is no .xlsx. Save it again as .xlsx.',
    )
  }
  const filled = sheets.filter(({ data }) => data.some((row) => row.some((cell) => cell !== null)))
  const names = sheets.map((each) => each.sheet)
  const one = wanted === undefined ? filled[0] : sheets.find((each) => each.sheet === wanted)
  if (!one) {
    return refuse(
      wanted === undefined
        ? 'The workbook is empty.'
        : `The workbook has no sheet ${show(wanted)}. Its sheets are: ${showAll(names)}.`,
    )
  }
  const others = filled.filter((each) => each !== one).map((each) => each.sheet)
  const notes = others.length
    ? [`The sheet ${show(one.sheet)} was read. Not read: ${showAll(others)}. Name another with --sheet.`]
    : []
  return { sheet: { name: one.sheet, rows: one.data.map((row) => row.map(cellOf)), notes } }
}

function cellOf(cell: unknown): SheetCell {
  // A workbook's date has no zone; the reader gives it as that day in UTC.
  if (cell instanceof Date)
    return { date: Number.isNaN(cell.getTime()) ? '' : cell.toISOString().slice(0, 10) }
  return typeof cell === 'string' || typeof cell === 'number' || typeof cell === 'boolean' ? cell : null
}
