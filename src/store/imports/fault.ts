// What is wrong with an imported file, by line and column, and how that is said; it must never decide what is wrong.
import { count } from '../../domain/count.ts'
import { cleanText } from '../../domain/clean.ts'

/** One thing to be put right in the file. `column` is the file's own heading; `says` is one or more whole sentences. */
export interface Fault {
  line: number
  column: string | null
  says: string
}

/** A fault of the file as a whole, or of one line without naming a column. */
export const faultOf = (line: number, says: string): Fault => ({ line, column: null, says })

const MOST_SHOWN = 60

/** A piece of the file in quotes, safe to print and cut short where it is long. */
export function show(text: string): string {
  const clean = cleanText(text)
  return `"${clean.length > MOST_SHOWN ? `${clean.slice(0, MOST_SHOWN)}…` : clean}"`
}

export const showAll = (texts: readonly string[]): string => texts.map(show).join(', ')

export const byLine = (faults: readonly Fault[]): Fault[] => faults.toSorted((a, b) => a.line - b.line)

export const sayFault = ({ line, column, says }: Fault): string =>
  `Line ${line}${column === null ? '' : `, column ${show(column)}`}: ${says}`

/**
 * One sentence a fault, in the order of the lines.
 * @param limit how many faults are spelt out; a last sentence counts the others
 * @example `Line 7, column "Mfg date": "13/2019" is not a month. Write it as 2019-03.`
 */
export function sayFaults(faults: readonly Fault[], limit = Infinity): string[] {
  const said = byLine(faults).slice(0, limit).map(sayFault)
  const more = faults.length - said.length
  if (more > 0) said.push(`${count(more, 'more fault is', 'more faults are')} not shown.`)
  return said
}
