// One line of the journal: how an entry is written and how a line is checked; it must never judge a line by writing it again.
import { isUtf8 } from 'node:buffer'
import { hash } from 'node:crypto'

/** What a caller asks to have recorded; `data` is a JSON object that the store never looks into. */
export type Draft = { at: string; by: string; type: string; data: object }

/** A draft with its place in the chain. */
export type Entry = Draft & { seq: number; prev: string; hash: string }

export const ZEROS = '0'.repeat(64)

/** No line is longer; without a limit a damaged journal could fill the memory. */
export const MAX_LINE_BYTES = 64 * 1024 * 1024

// From the end of a line: ,"prev":"<64 hex>","hash":"<64 hex>"}
export const HASH_MEMBER = ',"hash":"'
export const PREV_MEMBER = ',"prev":"'
export const HASH_PART = HASH_MEMBER.length + 64 + 2
export const END_PART = PREV_MEMBER.length + 64 + 1 + HASH_PART
const BETWEEN_HASHES = `"${HASH_MEMBER}`
export const SEQ_MEMBER = '{"seq":'
const MEMBERS = 'seq,at,by,type,data,prev,hash'

// DEL, C1, the line separators and every bidirectional control: raw, they could drive a terminal or turn a text around.
const ESCAPED = /[\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g

/** SHA-256 as 64 lower-case hex digits; a string counts as its UTF-8 bytes. */
export const sha256 = (bytes: string | Uint8Array): string => hash('sha256', bytes, 'hex')

export const hashBytes = (bytes: Uint8Array): Buffer => hash('sha256', bytes, 'buffer')

const asJson = (value: unknown): string =>
  JSON.stringify(value).replace(ESCAPED, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`)

/** The line for an entry, without its newline. Throws if `data` is not an object that JSON can carry: that is a mistake in the program. */
export const formatLine = (draft: Draft, seq: number, prev: string): { line: string; hash: string } => {
  const data = asJson(draft.data)
  if (!data.startsWith('{')) throw new TypeError(`The data of ${draft.type} are not a JSON object.`)
  const { at, by, type } = draft
  const members = `"at":${asJson(at)},"by":${asJson(by)},"type":${asJson(type)},"data":${data}`
  const body = `${SEQ_MEMBER}${seq},${members}${PREV_MEMBER}${prev}"`
  const own = sha256(body)
  return { line: `${body}${HASH_MEMBER}${own}"}`, hash: own }
}

/** What stands at the fixed places of a line: `stated` is the hash it carries, `own` the hash its bytes really have. */
export type Frame = { seq: number; prev: string; stated: string; own: string }

const startsLikeLine = (bytes: Buffer): boolean => {
  for (let at = 0; at < SEQ_MEMBER.length; at++) if (bytes[at] !== SEQ_MEMBER.charCodeAt(at)) return false
  return true
}

/** Reads the fixed places of a line (bytes without the newline); undefined if the line is not built like one. */
export const frameOf = (bytes: Buffer): Frame | undefined => {
  const length = bytes.length
  if (length < SEQ_MEMBER.length + 2 + END_PART || !startsLikeLine(bytes)) return undefined
  const end = bytes.toString('latin1', length - END_PART)
  const built =
    end.startsWith(PREV_MEMBER) &&
    end.startsWith(`"${HASH_MEMBER}`, PREV_MEMBER.length + 64) &&
    end.endsWith('"}')
  if (!built) return undefined
  const seq = digitsAt(bytes, SEQ_MEMBER.length)
  if (seq === undefined) return undefined
  return {
    seq,
    prev: end.slice(PREV_MEMBER.length, PREV_MEMBER.length + 64),
    stated: end.slice(-66, -2),
    own: sha256(bytes.subarray(0, length - HASH_PART)),
  }
}

const digitsAt = (bytes: Buffer, start: number): number | undefined => {
  let value = 0
  let at = start
  for (let byte = bytes[at]; byte !== undefined && byte >= 48 && byte <= 57; byte = bytes[++at]) {
    value = value * 10 + byte - 48
  }
  const isWritten = at > start && bytes[at] === 44 && bytes[start] !== 48 && Number.isSafeInteger(value)
  return isWritten ? value : undefined
}

export type Checked = { ok: true; entry: Entry } | { ok: false; what: string }

/** Why a line whose hash holds is still no entry, or the entry. */
export const readEntry = (bytes: Buffer, frame: Frame): Checked => {
  if (!isUtf8(bytes)) return { ok: false, what: 'The line is not UTF-8.' }
  let value: unknown
  try {
    value = JSON.parse(bytes.toString('utf8'))
  } catch {
    return { ok: false, what: 'The line is not JSON.' }
  }
  if (
    !isEntry(value) ||
    value.seq !== frame.seq ||
    value.prev !== frame.prev ||
    value.hash !== frame.stated
  ) {
    return { ok: false, what: `The line does not have exactly the members ${MEMBERS}.` }
  }
  return { ok: true, entry: value }
}

const isEntry = (value: unknown): value is Entry => {
  if (typeof value !== 'object' || value === null || Object.keys(value).join() !== MEMBERS) return false
  const { at, by, type, data } = value as Record<keyof Entry, unknown>
  const isObject = typeof data === 'object' && data !== null && !Array.isArray(data)
  return typeof at === 'string' && typeof by === 'string' && typeof type === 'string' && isObject
}

// A line that holds only plain strings, numbers and words, lists and objects of them: most lines, told in a tenth of the time JSON.parse takes.
const STRING = String.raw`"[^"\\\x00-\x1f]*"`
const SIMPLE = `(?:${STRING}|-?(?:0|[1-9][0-9]{0,14})|true|false|null)`
const FLAT = `\\{(?:${STRING}:${SIMPLE}(?:,${STRING}:${SIMPLE})*)?\\}`
const ITEM = `(?:${SIMPLE}|${FLAT})`
const VALUE = `(?:${ITEM}|\\[(?:${ITEM}(?:,${ITEM})*)?\\])`
const MEMBER = `${STRING}:${VALUE}`
// Sticky, so that it tells where it ended: what stands at the fixed places after it is compared, not matched.
const PLAIN = new RegExp(
  `\\{"seq":[1-9][0-9]*,"at":${STRING},"by":${STRING},"type":${STRING},"data":\\{(?:${MEMBER}(?:,${MEMBER})*)?\\}`,
  'y',
)

// The expression would run out of its stack on a very long line.
const LARGEST_PLAIN = 16 * 1024

const isPlain = (text: string): boolean => {
  PLAIN.lastIndex = 0
  return PLAIN.test(text) && PLAIN.lastIndex === text.length - END_PART
}

/** The frame of the line that follows `seq` and `prev`, where it is sound in every way; undefined says nothing. Each byte of the line is one letter of `text`. */
export const plainFrame = (bytes: Buffer, text: string, seq: number, prev: string): Frame | undefined => {
  const { length } = text
  const prevAt = length - END_PART + PREV_MEMBER.length
  const isNext =
    length <= LARGEST_PLAIN &&
    digitsAt(bytes, SEQ_MEMBER.length) === seq &&
    text.startsWith(PREV_MEMBER, length - END_PART) &&
    text.slice(prevAt, prevAt + 64) === prev &&
    text.startsWith(BETWEEN_HASHES, prevAt + 64) &&
    text.endsWith('"}')
  if (!isNext) return undefined
  const own = sha256(bytes.subarray(0, length - HASH_PART))
  return text.slice(length - 66, length - 2) === own && isPlain(text) && isUtf8(bytes)
    ? { seq, prev, stated: own, own }
    : undefined
}

/** Checks one line (raw bytes without the newline) against its place in the chain. */
export const checkLine = (bytes: Buffer, expectedSeq: number, expectedPrev: string): Checked => {
  const frame = frameOf(bytes)
  if (frame === undefined) return { ok: false, what: 'The line is not built like a line of the journal.' }
  if (frame.own !== frame.stated) return { ok: false, what: WRONG_HASH }
  if (frame.seq !== expectedSeq) return { ok: false, what: wrongSeq(frame.seq, expectedSeq) }
  if (frame.prev !== expectedPrev) return { ok: false, what: WRONG_PREV }
  return readEntry(bytes, frame)
}

export const WRONG_HASH = 'The line has been changed: its hash is not the hash of its bytes.'
export const WRONG_PREV = 'The line does not follow the one before it: its prev is another hash.'
export const wrongSeq = (found: number, expected: number): string =>
  `The line has seq ${found} where seq ${expected} belongs.`
