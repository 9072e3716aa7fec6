// Reads one cell as the value its column holds; it must never fill in what a cell does not say.
import { cleanText } from '../../domain/clean.ts'
import type { Construction } from '../../domain/kinds.ts'
import { isDated, isMangled, plainText, PLATOON_WORDS } from '../../exports/csv-text.ts'
import { show } from './fault.ts'

export type Told<T> = { value: T } | { says: string }
/** A value; a fault; or neither, where a word says nothing that can be kept. */
export type Read<T> = Told<T> | undefined
export type Note = (says: string) => void

const SPACES = /[\u00a0\u2007\u202f]/g

/** One line, no controls, plain spaces. */
export const cleanCell = (cell: string): string => cleanText(cell.replaceAll(SPACES, ' '))

/** Did cleaning take away more than white space? */
export const isAltered = (cell: string): boolean =>
  cleanCell(cell) !==
  cell
    .replaceAll(SPACES, ' ')
    .replaceAll(/[\t\n\r ]+/g, ' ')
    .trim()

const AS_TEXT = 'Format the column as text and enter it again; if it is right, put an apostrophe before it.'

/** An id, a serial or an assembly: text, never a number. */
export function readCode(cell: string): Told<string> {
  if (isMangled(cell))
    return { says: `${show(cell)} is a long number that a spreadsheet has rounded. ${AS_TEXT}` }
  if (isDated(cell))
    return { says: `${show(cell)} is an id that a spreadsheet has made a date of. ${AS_TEXT}` }
  return { value: plainText(cell) }
}

const PSI = /^(\d{1,3}(?:,\d{3})+|\d+)(?:\.0+)?\s*(?:psi|psig|lbs?)?\.?$/i

export function readPsi(cell: string): Told<number> {
  const digits = PSI.exec(cell)?.[1]
  if (digits) return { value: Number(digits.replaceAll(',', '')) }
  const other = /\b(?:bar|kpa|mpa)\b/i.test(cell) ? ' Give the pressure in psi.' : ''
  return { says: `${show(cell)} is not a whole number of psi.${other} Write it as 4500.` }
}

const CONSTRUCTION_WORDS: Readonly<Record<Construction, readonly string[]>> = {
  steel: ['steel', 'chrome steel', 'all steel'],
  aluminium: ['aluminium', 'aluminum', 'alu', 'all aluminium', 'all aluminum'],
  carbon: [
    'carbon',
    'carbon fibre',
    'carbon fiber',
    'carbon composite',
    'carbon wrapped',
    'fully wrapped carbon',
  ],
  glass: [
    'glass',
    'glass fibre',
    'glass fiber',
    'fibreglass',
    'fiberglass',
    'glass composite',
    'glass wrapped',
  ],
  aramid: ['aramid', 'aramid fibre', 'aramid fiber', 'aramid composite', 'aramid wrapped'],
  hoop: ['hoop', 'hoop wrapped', 'hoop wound'],
}
const UNPROVEN = new Set(['composite', 'fully wrapped', 'full wrap', 'fully wrapped composite', 'wrapped'])

const wordKey = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[^\p{L}]+/gu, ' ')
    .trim()
const constructionByWord = new Map(
  Object.entries(CONSTRUCTION_WORDS).flatMap(([name, words]) =>
    words.map((word): [string, Construction] => [word, name as Construction]),
  ),
)

export function readConstruction(cell: string, note: Note): Read<Construction> {
  const word = wordKey(cell)
  const value = constructionByWord.get(word)
  if (value) return { value }
  if (UNPROVEN.has(word)) {
    note(
      `${show(cell)} does not say which fibre a cylinder is wrapped in: its construction was left out and is unproven.`,
    )
    return undefined
  }
  return {
    says: `${show(cell)} is not a construction. The constructions are: ${Object.keys(CONSTRUCTION_WORDS).join(', ')}.`,
  }
}

/** `A Shift` is platoon `A`. */
export function readPlatoon(cell: string, note: Note): string {
  const bare = cell.replaceAll(PLATOON_WORDS, '')
  if (bare !== cell) note(`${show(cell)} was read as the platoon ${show(bare)}.`)
  return bare
}
