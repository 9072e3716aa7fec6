// Which texts a spreadsheet or an import takes for something else, and how a cell says that it is text all the same.
import { isFormula } from './csv-cell.ts'

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

/** An id that a spreadsheet took for a date: 3-5 becomes 5-Mar, and March 2005 becomes Mar-05. */
const DATED = /^(?:\d{1,2}-)?(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)(?:-\d{1,2})?$/
export const isDated = (cell: string): boolean => DATED.test(cell) && /\d/.test(cell)

export const PLATOON_WORDS = /^(?:platoon|shift|group)\s+(?=\S)|(?<=\S)\s+(?:platoon|shift|group)$/gi
const PLATOON_WORD = new RegExp(PLATOON_WORDS.source, 'i')

/** A long number that a spreadsheet has rounded. */
const MANGLED = /^-?\d+[.,]\d+E[+-]?\d+$|^-?\d+E\+\d+$/i
export const isMangled = (cell: string): boolean => MANGLED.test(cell)

/** What would otherwise be taken for something else than its letters: a formula, a word for nothing, a number, a date. */
const isTaken = (cell: string): boolean =>
  isFormula(cell) ||
  isEmptyWord(cell) ||
  isRackWord(cell) ||
  isMangled(cell) ||
  isDated(cell) ||
  PLATOON_WORD.test(cell)

/** A cell as an export writes it: with an apostrophe where a spreadsheet or an import would take it for something else. */
export const asText = (cell: string): string => (isTaken(cell.replace(/^'+/, '')) ? `'${cell}` : cell)

/** The cell's own letters: the apostrophe that says "this is text" is taken away again, any other stays. */
export const plainText = (cell: string): string =>
  cell.startsWith("'") && isTaken(cell.replace(/^'+/, '')) ? cell.slice(1) : cell
