// The public keys that a journal brings along, and which of them are to be trusted; it must never take one from a changed line.
import type { Frame } from '../line.ts'
import { vouchText } from './keys.ts'
import { isSignedBy } from './note.ts'

/** A key by the line that brought it. The first one replaces none. */
export type KeyLine = { line: number; key: string; replaces: string | null; isVouched: boolean }

/** What the seals need of a journal: its keys, its hand-overs, what station it is. */
export type SealLines = {
  keys: KeyLine[]
  handOvers: { line: number; tour: string }[]
  stationName: string
  firstHash: string
}

// The value of `type` begins after the thirteenth quotation mark: those of seq, at, by and type, of two values, and its own.
const QUOTES_BEFORE_TYPE = 13
const QUOTE = 34
const ASKED = ['tour-handed-over"', 'key-made"']
const FIRST_LETTERS = new Set(ASKED.map((type) => type.charCodeAt(0)))

/** Looks at a few bytes only, since every line of a journal comes by here. */
const isAsked = (bytes: Buffer): boolean => {
  let at = 0
  for (let quotes = 0; quotes < QUOTES_BEFORE_TYPE && at < bytes.length; at++) {
    if (bytes[at] === QUOTE) quotes++
  }
  if (!FIRST_LETTERS.has(bytes[at]!)) return false
  return ASKED.some((type) => bytes.toString('latin1', at, at + type.length) === type)
}

type Said = {
  tour?: unknown
  sealKey?: unknown
  key?: unknown
  replaces?: unknown
  vouched?: unknown
  name?: unknown
}

/** Gathers from line after line. */
export const sealLines = () => {
  const found: SealLines = { keys: [], handOvers: [], stationName: '', firstHash: '' }
  const notice = (line: number, bytes: Buffer, frame: Frame | undefined): void => {
    if (frame === undefined || frame.own !== frame.stated) return
    if (line !== 1 && !isAsked(bytes)) return
    const said = dataOf(bytes)
    if (line === 1) Object.assign(found, { firstHash: frame.own, stationName: textOf(said.name) })
    if (said.sealKey !== undefined) {
      found.keys.push({ line, key: textOf(said.sealKey), replaces: null, isVouched: false })
    }
    if (said.key !== undefined) {
      const [key, replaces, vouched] = [said.key, said.replaces, said.vouched].map(textOf) as [
        string,
        string,
        string,
      ]
      const isVouched = isSignedBy(vouchText(key), vouched, replaces)
      found.keys.push({ line, key, replaces: replaces || null, isVouched })
    }
    if (said.tour !== undefined) found.handOvers.push({ line, tour: textOf(said.tour) })
  }
  return { found, notice }
}

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '')

const dataOf = (bytes: Buffer): Said => {
  try {
    return (JSON.parse(bytes.toString('utf8')) as { data?: Said | null }).data ?? {}
  } catch {
    return {}
  }
}

/** All of them; or, where a key is known from elsewhere, that one and those it vouches for, one after the other. */
export const trustedKeys = (keys: readonly KeyLine[], known?: string): string[] => {
  if (known === undefined) return keys.map(({ key }) => key)
  const trusted = [known]
  for (const { key, replaces, isVouched } of keys) {
    if (replaces !== null && isVouched && trusted.includes(replaces)) trusted.push(key)
  }
  return trusted
}
