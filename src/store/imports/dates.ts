// Reads the dates that spreadsheets hold; it must never guess a day, a month or a century that is not written.
import { isLocalDate, isMonth, type LocalDate, type Month } from '../../domain/time.ts'
import type { Told } from './cells.ts'
import { show } from './fault.ts'

export type Order = 'month-first' | 'day-first'

const MONTHS = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ')
const FULL = 'january february march april may june july august september october november december'.split(
  ' ',
)

const MIDNIGHT = /[ T]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?: ?[AP]M)?Z?$/i
const ISO = /^(\d{4})[-/.](\d{1,2})(?:[-/.](\d{1,2}))?$/
const WHOLE = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4})$/
const MONTH_YEAR = /^(\d{1,2})[-/.](\d{4})$/
const WORDED = /^(?:(\d{1,2})[\s\-/.]*)?([a-z]{3,9})\.?[\s,\-/]*(\d{4})$/i
const WORD_FIRST = /^([a-z]{3,9})\.?\s+(\d{1,2}),?\s+(\d{4})$/i
const SHORT_YEAR = /^(?:\d{1,2}[-/.]){1,2}\d{2}$|^(?:\d{1,2}[\s\-/.]*)?[a-z]{3,9}\.?[\s\-/,]*['’]?\d{2}$/i
const SERIAL = /^\d{5}(?:[.,]\d+)?$/

interface Parts {
  year: number
  month: number
  day?: number | undefined
}

/** The number of an English month's name or three-letter form, 1 to 12; "sept" too. */
function monthOf(word: string): number | undefined {
  const lower = word.toLowerCase()
  const index = lower === 'sept' ? 8 : Math.max(MONTHS.indexOf(lower), FULL.indexOf(lower))
  return index < 0 ? undefined : index + 1
}

const withoutTime = (text: string): string => text.replace(MIDNIGHT, '')

/** A whole date in figures that does not begin with the year. */
export function figuresOf(text: string): [first: number, second: number, year: number] | undefined {
  const parts = WHOLE.exec(withoutTime(text))
  return parts ? [Number(parts[1]), Number(parts[3]), Number(parts[4])] : undefined
}

function partsOf(text: string, order: Order): Parts | undefined {
  const figures = figuresOf(text)
  if (figures) {
    const [first, second, year] = figures
    return order === 'day-first' ? { year, month: second, day: first } : { year, month: first, day: second }
  }
  const iso = ISO.exec(text)
  if (iso) return { year: Number(iso[1]), month: Number(iso[2]), day: iso[3] ? Number(iso[3]) : undefined }
  const short = MONTH_YEAR.exec(text)
  if (short) return { year: Number(short[2]), month: Number(short[1]) }
  const [word, day, year] = wordedOf(text)
  const month = word && monthOf(word)
  return month ? { year: Number(year), month, day: day ? Number(day) : undefined } : undefined
}

function wordedOf(text: string): (string | undefined)[] {
  const worded = WORDED.exec(text)
  if (worded) return [worded[2], worded[1], worded[3]]
  const first = WORD_FIRST.exec(text)
  return first ? [first[1], first[2], first[3]] : []
}

const two = (number: number): string => String(number).padStart(2, '0')

function read(cell: string, order: Order, example: string): { says: string } | Parts {
  const text = withoutTime(cell)
  const write = `Write it as ${example}.`
  if (SERIAL.test(text)) {
    return {
      says: `${show(cell)} is a spreadsheet's own number for a date. Format the column as text and write ${example}.`,
    }
  }
  const parts = partsOf(text, order)
  if (!parts) {
    return SHORT_YEAR.test(text)
      ? { says: `${show(cell)} has a year of two digits. Write all four, as ${example}.` }
      : { says: `${show(cell)} is not a date. ${write}` }
  }
  const { year, month, day } = parts
  if (day === undefined && (month < 1 || month > 12))
    return { says: `${show(cell)} is not a month. ${write}` }
  const isReal =
    day === undefined
      ? isMonth(`${year}-${two(month)}`)
      : isLocalDate(`${year}-${two(month)}-${two(day)}`) && isMonth(`${year}-${two(month)}`)
  return isReal ? parts : { says: `${show(cell)} is not a date in the calendar. ${write}` }
}

/** The month on a label; a day, where one is written, is read and left out. */
export function readMonth(text: string, order: Order): Told<Month> {
  if (/^\d{4}$/.test(text)) return { says: `${show(text)} has a year and no month. Write both, as 2019-03.` }
  const parts = read(text, order, '2019-03')
  return 'says' in parts ? parts : { value: `${parts.year}-${two(parts.month)}` }
}

export function readDate(text: string, order: Order): Told<LocalDate> {
  if (/^\d{4}$/.test(text)) return { says: `${show(text)} has no month and no day. Write it as 2019-03-15.` }
  const parts = read(text, order, '2019-03-15')
  if ('says' in parts) return parts
  return parts.day === undefined
    ? {
        says: `${show(text)} has no day. Write it as ${parts.year}-${two(parts.month)}-01 if that day is right.`,
      }
    : { value: `${parts.year}-${two(parts.month)}-${two(parts.day)}` }
}
