// Makes sure that a file's bytes are plain UTF-8 text before anything reads them; it must never guess an encoding.
import { isUtf8 } from 'node:buffer'
import { faultOf, type Fault } from './fault.ts'

export const MOST_BYTES = 20_000_000
/** A file with more bad lines than this is not text, and no list of them would help. */
const MOST_BAD_LINES = 500

const SAVE_AS = 'Save it as "CSV UTF-8 (comma delimited)".'
const CR = 13
const LF = 10

const startsWith = (bytes: Buffer, ...start: number[]): boolean =>
  start.every((byte, index) => bytes[index] === byte)

function wrongFormat(bytes: Buffer): string | undefined {
  if (startsWith(bytes, 0x50, 0x4b, 3, 4) || startsWith(bytes, 0xd0, 0xcf, 0x11, 0xe0)) {
    return `This is a spreadsheet workbook, not CSV. ${SAVE_AS}`
  }
  const isUtf16 =
    startsWith(bytes, 0xff, 0xfe) ||
    startsWith(bytes, 0xfe, 0xff) ||
    (bytes.length > 1 && (bytes[0] === 0) !== (bytes[1] === 0))
  return isUtf16 ? `The file is UTF-16 text, and only UTF-8 is read. ${SAVE_AS}` : undefined
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

/** The text's bytes without a byte order mark, or what is wrong with them. */
export function plainBytes(input: Uint8Array): { bytes: Buffer } | { faults: Fault[] } {
  const bytes = Buffer.from(input.buffer, input.byteOffset, input.byteLength)
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
      if (!isUtf8(part)) faults.push(faultOf(line, `The line is not UTF-8 text. ${SAVE_AS}`))
      if (part.includes(0)) faults.push(faultOf(line, 'The line holds a NUL byte. Remove it.'))
      if (faults.length < MOST_BAD_LINES) continue
      faults.push(faultOf(line, 'Nothing after this line was looked at.'))
      break
    }
    return { faults }
  }
  return { bytes: startsWith(bytes, 0xef, 0xbb, 0xbf) ? bytes.subarray(3) : bytes }
}
