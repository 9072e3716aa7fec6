// Makes sure that a file's bytes are plain UTF-8 text before anything reads them; it must never guess an encoding.
import { isUtf8 } from 'node:buffer'
import { faultOf, type Fault } from './fault.ts'

export const MOST_BYTES = 20_000_000
/** A file with more bad lines than this is not text, and no list of them would help. */
const MOST_BAD_LINES = 500

const SAVE_AS = 'Save it as "CSV UTF-8 (comma delimited)".'
const CR = 13
const LF = 10

const startsWith = (bytes: Uint8Array, ...start: number[]): boolean =>
  start.every((byte, index) => bytes[index] === byte)

/** Is it a workbook by its first bytes? An old one (.xls) is told apart, since nothing here reads it. */
export const isWorkbook = (input: Uint8Array): boolean => startsWith(input, 0x50, 0x4b, 3, 4)

/** No encoding of a text has these bytes, but for a single NUL that strayed into UTF-8. */
const isControl = (byte: number): boolean =>
  byte < 9 || (byte > 13 && byte < 32 && byte !== 0x1a && byte !== 0x1b)

const isBinary = (bytes: Buffer): boolean =>
  startsWith(bytes, 0x25, 0x50, 0x44, 0x46, 0x2d) || (!isUtf8(bytes) && bytes.some(isControl))

function wrongFormat(bytes: Buffer): string | undefined {
  if (startsWith(bytes, 0xd0, 0xcf, 0x11, 0xe0)) {
    return 'This is a workbook of the old kind (.xls), or one with a password. Save it as .xlsx or as CSV.'
  }
  if (isWorkbook(bytes)) return `This is a spreadsheet workbook, not CSV. ${SAVE_AS}`
  // Without its mark nobody can tell which of its two orders the bytes are in.
  const isUtf16 = bytes.length > 1 && (bytes[0] === 0) !== (bytes[1] === 0)
  if (isUtf16) return `The file is UTF-16 text without its mark, and was not read. ${SAVE_AS}`
  return isBinary(bytes) ? 'The file is no text and no workbook: it is neither CSV nor XLSX.' : undefined
}

/** UTF-16 with its mark says itself how it is to be read. */
function fromUtf16(bytes: Buffer): Buffer | undefined {
  const encoding = startsWith(bytes, 0xff, 0xfe)
    ? 'utf-16le'
    : startsWith(bytes, 0xfe, 0xff)
      ? 'utf-16be'
      : undefined
  if (!encoding) return undefined
  try {
    return Buffer.from(new TextDecoder(encoding, { fatal: true }).decode(bytes))
  } catch {
    return Buffer.of(0)
  }
}

/** Each line of the file with its number. CR, LF and CR LF all end a line. */
function* linesOf(bytes: Buffer): Generator<[number, Buffer]> {
  let start = 0
  let line = 1
  for (let at = 0; at <= bytes.length; at++) {
    const byte = bytes[at]
    if (byte !== CR && byte !== LF && at < bytes.length) continue
    yield [line++, bytes.subarray(start, at)]
    if (byte === CR && bytes[at + 1] === LF) at++
    start = at + 1
  }
}

/** What the first letter beyond ASCII would be in the older Windows encoding, so that its writer recognises it. */
function sayOldEncoding(part: Buffer): string {
  const byte = part.find((each) => each >= 0x80)
  const letter = byte === undefined ? '' : new TextDecoder('windows-1252').decode(Uint8Array.of(byte))
  return /[\p{L}\p{P}\p{S}]/u.test(letter)
    ? `; it may be of the older Windows kind (Windows-1252), in which its first odd byte is "${letter}"`
    : ''
}

/** The text's bytes without a byte order mark, or what is wrong with them. */
export function plainBytes(input: Uint8Array): { bytes: Buffer; notes: string[] } | { faults: Fault[] } {
  const given = Buffer.from(input.buffer, input.byteOffset, input.byteLength)
  const decoded = fromUtf16(given)
  const bytes = decoded ?? given
  if (bytes.length > MOST_BYTES) {
    return {
      faults: [
        faultOf(1, `The file is larger than ${MOST_BYTES / 1e6} MB. Split it and import the parts in turn.`),
      ],
    }
  }
  const wrong = wrongFormat(bytes)
  if (wrong) return { faults: [faultOf(1, wrong)] }
  if (!isUtf8(bytes) || bytes.includes(0)) {
    const faults: Fault[] = []
    for (const [line, part] of linesOf(bytes)) {
      if (!isUtf8(part))
        faults.push(faultOf(line, `The line is not UTF-8 text${sayOldEncoding(part)}. ${SAVE_AS}`))
      if (part.includes(0)) faults.push(faultOf(line, 'The line holds a NUL byte. Remove it.'))
      if (faults.length < MOST_BAD_LINES) continue
      faults.push(faultOf(line, 'Nothing after this line was looked at.'))
      break
    }
    return { faults }
  }
  const notes = decoded ? ['The file is UTF-16 text and was read as such.'] : []
  return { bytes: startsWith(bytes, 0xef, 0xbb, 0xbf) ? bytes.subarray(3) : bytes, notes }
}
