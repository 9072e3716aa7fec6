// The words departments write for the cares and their results, and reading them; a word that could be two must never be taken for one.
import { CARES, plain, type Care } from '../../domain/kinds.ts'
import type { Told } from './cells.ts'
import { listed } from './columns.ts'
import { show } from './fault.ts'

const CARE_WORDS: Readonly<Partial<Record<Care, readonly string[]>>> = {
  'routine-inspection': listed('routine inspection, monthly inspection, daily inspection'),
  'advanced-inspection': listed('advanced inspection, adv inspection, advanced insp'),
  'complete-liner-inspection': listed('complete liner inspection, liner inspection'),
  'preliminary-exposure-reduction': listed('preliminary exposure reduction, per'),
  'routine-cleaning': listed('routine cleaning, routine clean'),
  'advanced-cleaning': listed('advanced cleaning, advanced clean, adv cleaning'),
  'specialised-cleaning': listed('specialised cleaning, specialized cleaning'),
  drying: listed('drying, dried'),
  repair: listed('repair, repaired, repairs'),
  'hydrostatic-test': listed('hydrostatic test, hydro test, hydro, hydrostatic, hydrotest'),
  'flow-test': listed('flow test, annual flow test, bench test'),
  'function-check': listed('function check, functional check, functional test'),
}
const AMBIGUOUS: Readonly<Record<string, string>> = {
  cleaning: 'it may be routine, advanced or specialised cleaning',
  cleaned: 'it may be routine, advanced or specialised cleaning',
  wash: 'it may be routine, advanced or specialised cleaning',
  inspection: 'it may be a routine or an advanced inspection',
  'annual inspection': 'it may be an advanced or a complete liner inspection',
  test: 'it may be a hydrostatic test or a flow test',
}

const keyOf = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[^\p{L}]+/gu, ' ')
    .trim()
const careByWord = new Map(
  CARES.flatMap((care) =>
    [care, ...(CARE_WORDS[care] ?? [])].map((word): [string, Care] => [keyOf(word), care]),
  ),
)

export function readCare(cell: string): Told<Care> {
  const care = careByWord.get(keyOf(cell))
  if (care) return { value: care }
  const why = AMBIGUOUS[keyOf(cell)]
  return {
    says: why
      ? `${show(cell)} does not say which care it was: ${why}.`
      : `${show(cell)} is not a care. The cares are: ${CARES.map(plain).join(', ')}.`,
  }
}

const GOOD = new Set(listed('serviceable, pass, passed, ok, okay, good, satisfactory, acceptable, p'))
const BAD = new Set(
  listed(
    'unserviceable, not serviceable, fail, failed, out of service, oos, rejected, condemned, unsatisfactory, f',
  ),
)

/** Pass or fail, as the file says it; an empty cell says neither. */
export function readPassed(cell: string): Told<boolean> {
  const word = keyOf(cell)
  if (GOOD.has(word)) return { value: true }
  if (BAD.has(word)) return { value: false }
  return {
    says: cell
      ? `${show(cell)} is not a result. Write serviceable or unserviceable, or pass or fail.`
      : 'The row has no result. Write serviceable or unserviceable, or pass or fail.',
  }
}
