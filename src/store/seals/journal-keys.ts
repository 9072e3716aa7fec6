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

const TYPE = ',"type":"'
const ASKED = ['tour-handed-over"', 'key-made"']

/** Looks at a few letters only, since every line of a journal comes by here. */
const isAsked = (text: string): boolean => {
  const at = text.indexOf(TYPE) + TYPE.length
  return ASKED.some((type) => text.startsWith(type, at))
}

type Said = {
  tour?: unknown
  sealKey?: unknown
  key?: unknown
  replaces?: unknown
  vouched?: unknown
  name?: unknown
}

/** Whether the seals need a line of a sound journal. */
export const isOfSeals = (line: number, text: string): boolean => line === 1 || isAsked(text)

/** Gathers from line after line. */
export const sealLines = () => {
  const found: SealLines = { keys: [], handOvers: [], stationName: '', firstHash: '' }
  const notice = (line: number, text: string, frame: Frame | undefined): void => {
    if (frame === undefined || frame.own !== frame.stated) return
    if (!isOfSeals(line, text)) return
    const said = dataOf(text)
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

const dataOf = (text: string): Said => {
  try {
    return (JSON.parse(Buffer.from(text, 'latin1').toString('utf8')) as { data?: Said | null }).data ?? {}
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
