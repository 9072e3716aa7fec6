// The pressure of a cylinder: which one is read, what is a reading, and what is worth a second look; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { policyOf } from '../../domain/policy/in-force.ts'
import { isLow } from '../../domain/rules/conditions.ts'
import { SIGNS } from '../../domain/signs.ts'
import { assigned } from '../../domain/state.ts'
import type { View } from '../view.ts'
import { confirm, refusalOf, type Action } from './action.ts'
import { noSeat } from './ask.ts'

/** The cylinder belongs to the riding position, whoever sits there or nobody; it may be away. */
export const cylinderAt = ({ state, row }: View): string | undefined =>
  row && assigned(state, row.seat, 'cylinder')?.id

/** Whole psi, and the temperature where somebody measured it: `4400`, `4100 14F`, `4100 -10C`. */
const READING = /^(\d{1,5})(?: +(-?\d{1,3}(?:\.\d)?) ?([CF]))?$/i
export const WHEN_COLD = 'if it is cold, add its temperature: 4100 14F is 4100 psi at 14 Fahrenheit'
const COLDEST = -60
const HOTTEST = 80

export function readingIn(text: string): { psi: number; celsius?: number } {
  const [, psi, degrees, scale] = READING.exec(text.trim()) ?? []
  if (degrees === undefined) return { psi: Number(psi) }
  const isFahrenheit = scale!.toUpperCase() === 'F'
  const celsius = isFahrenheit ? ((Number(degrees) - 32) * 5) / 9 : Number(degrees)
  return { psi: Number(psi), celsius: Math.round(celsius * 10) / 10 }
}

export function psiFault(text: string): string | undefined {
  const written = `${text || 'Nothing'} is not a pressure. Write it in whole psi, as 4400; ${WHEN_COLD}.`
  if (!READING.test(text.trim())) return written
  const { psi, celsius } = readingIn(text)
  if (psi > 20_000) return written
  return celsius !== undefined && (celsius < COLDEST || celsius > HOTTEST)
    ? `${celsius} C is no temperature of a cylinder at the station. Read it again.`
    : undefined
}

/** May this character stand next in a reading? Letters only once a temperature has begun. */
export const isOfReading = (text: string, char: string): boolean =>
  /\d/.test(char) || (text !== '' && char === ' ') || (text.includes(' ') && /[-.cf]/i.test(char))

export function sayReading(text: string): string {
  const { psi, celsius } = readingIn(text)
  if (celsius === undefined) return `${psi} psi`
  const [, , degrees, scale] = READING.exec(text.trim())!
  return /f/i.test(scale!) ? `${psi} psi at ${degrees} F (${celsius} C)` : `${psi} psi at ${celsius} C`
}

/** Why the cylinder cannot be read, or cannot read that much; in the words of the refusal. */
export const readingFault = (view: View, element: string, psi = 0): string | undefined =>
  refusalOf(view, { do: 'read-pressure', element, psi })

/** A gauge that says more than this part over the rated pressure was likely misread. */
const OVER_PERCENT = 10

/** What makes a reading worth a second look, and what follows when it is recorded all the same. */
export function doubtOf(
  { state }: View,
  id: string,
  psi: number,
): { what: string; follows: string } | undefined {
  const ratedPsi = state.elements.get(id)?.ratedPsi
  if (ratedPsi === undefined) return undefined
  const rules = policyOf(state).rules.map(({ rule }) => rule)
  const low = rules.find(
    ({ kinds, watch }) =>
      kinds.includes('cylinder') && 'reading' in watch && isLow(psi, ratedPsi, watch.atMost),
  )
  if (low) {
    return { what: `${psi} psi of ${ratedPsi} is low`, follows: `the cylinder is ${SIGNS[low.past].word}` }
  }
  return psi * 100 > ratedPsi * (100 + OVER_PERCENT)
    ? {
        what: `${psi} psi is more than ${OVER_PERCENT}% over the rated ${ratedPsi}`,
        follows: 'the gauge should be read once more',
      }
    : undefined
}

export const pressure: Action = {
  id: 'pressure',
  key: 'p',
  label: 'pressure',
  help: 'Record the cylinder pressure of the riding position, in psi.',
  blocked(view) {
    const element = cylinderAt(view)
    const none = `${view.row?.seat} has no cylinder. i issues one from the rack.`
    return noSeat(view) ?? (element ? readingFault(view, element) : none)
  },
  next(view, answers) {
    const element = cylinderAt(view)!
    const rated = view.state.elements.get(element)?.ratedPsi
    if (answers['psi'] === undefined) {
      const title = `Pressure of cylinder ${element}${rated ? `, rated ${rated} psi` : ''}`
      return {
        ask: 'write',
        name: 'psi',
        title,
        hint: `psi as the gauge reads; ${WHEN_COLD}`,
        fault: psiFault,
      }
    }
    const reading = readingIn(answers['psi'])
    const command: Command = { do: 'read-pressure', by: view.speaker!, element, ...reading }
    const doubt = doubtOf(view, element, reading.psi)
    const notes = doubt ? [{ text: `${doubt.what}: ${doubt.follows}.`, tone: 'bad' as const }] : []
    const said = sayReading(answers['psi'])
    return confirm(
      view,
      `Cylinder ${element} reads ${said}?`,
      [command],
      `Read ${said} on ${element}.`,
      notes,
    )
  },
}
