// Reads one cell as the value its column holds; it must never fill in what a cell does not say.
import { cleanText } from '../../domain/clean.ts'
import type { Construction } from '../../domain/kinds.ts'
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

const EMPTY_WORDS = new Set([
  '-',
  '--',
  '–',
  '—',
  '?',
  'n/a',
  'na',
  'none',
  'unknown',
  'unk',
  'tbd',
  'null',
  '#n/a',
])
/** Words for an empty cell in a column that may be left empty. */
export const isEmptyWord = (cell: string): boolean => EMPTY_WORDS.has(cell.toLowerCase())

const RACK_WORDS = new Set([
  'spare',
  'spares',
  'rack',
  'stock',
  'in stock',
  'reserve',
  'unassigned',
  'unissued',
  'not issued',
])
/** Words for gear that is issued to nobody. */
export const isRackWord = (cell: string): boolean => RACK_WORDS.has(cell.toLowerCase())

const MANGLED = /^-?\d+[.,]\d+E[+-]?\d+$|^-?\d+E\+\d+$/i

/** An id, a serial or an assembly: text, never a number. */
export const readCode = (cell: string): Told<string> =>
  MANGLED.test(cell)
    ? {
        says: `${show(cell)} is a long number that a spreadsheet has rounded. Format the column as text and enter it again.`,
      }
    : { value: cell }

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
  const bare = cell.replace(/^(?:platoon|shift|group)\s+(?=\S)|(?<=\S)\s+(?:platoon|shift|group)$/gi, '')
  if (bare !== cell) note(`${show(cell)} was read as the platoon ${show(bare)}.`)
  return bare
}
