// The pressure of a cylinder: which one is read, what is a reading, and what is worth a second look; it must never record by itself.
import { count } from '../../domain/count.ts'
import type { Command } from '../../domain/commands.ts'
import { policyOf } from '../../domain/policy/in-force.ts'
import { byId } from '../../domain/fit/rack.ts'
import type { Id } from '../../domain/gear.ts'
import { isLow, isOver, OVER_PERCENT, psiWhenCooled } from '../../domain/rules/conditions.ts'
import { SIGNS } from '../../domain/signs.ts'
import { assigned, type Element } from '../../domain/state.ts'
import { dateOf, sayDate } from '../../domain/time.ts'
import type { View } from '../view.ts'
import {
  confirm,
  refusalOf,
  type Action,
  type Answers,
  type LookLine,
  type Option,
  type Step,
} from './action.ts'
import { noSeat } from './ask.ts'
import { unreadSpares } from './spare-options.ts'

/** The cylinder belongs to the riding position, whoever sits there or nobody; it may be away. */
export const cylinderAt = ({ state, row }: View): string | undefined =>
  row && assigned(state, row.seat, 'cylinder')?.id

/** Whole psi, and the temperature where somebody measured it: `4400`, `4100 14F`, `4100 -10C`. */
const READING = /^(\d{1,5})(?: +(-?\d{1,3}(?:\.\d)?) ?([CF]))?$/i
export const WHEN_COLD = 'if it is cold, add its temperature: 4100 14F is 4100 psi at 14 Fahrenheit'
const COLDEST = -60
const HOTTEST = 80

interface Reading {
  psi: number
  celsius?: number
}

export function readingIn(text: string): Reading {
  const [, psi, degrees, scale] = READING.exec(text.trim()) ?? []
  if (degrees === undefined) return { psi: Number(psi) }
  const isFahrenheit = scale!.toUpperCase() === 'F'
  const celsius = isFahrenheit ? ((Number(degrees) - 32) * 5) / 9 : Number(degrees)
  return { psi: Number(psi), celsius: Math.round(celsius * 10) / 10 }
}

export function psiFault(text: string): string | undefined {
  const what = text.trim() ? `${text} is not a pressure` : 'No pressure is typed yet'
  const written = `${what}. Write it in whole psi, as 4400; ${WHEN_COLD}.`
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

function sayReading(text: string): string {
  const { psi, celsius } = readingIn(text)
  if (celsius === undefined) return `${psi} psi`
  const [, , degrees, scale] = READING.exec(text.trim())!
  return /f/i.test(scale!) ? `${psi} psi at ${degrees} F (${celsius} C)` : `${psi} psi at ${celsius} C`
}

/** Why the cylinder cannot be read, or cannot read that much; in the words of the refusal. */
export const readingFault = (view: View, element: string, psi = 0): string | undefined =>
  refusalOf(view, { do: 'read-pressure', element, psi })

/** What makes a reading worth a second look, and what follows when it is recorded all the same. */
export function doubtOf(
  { state }: View,
  id: string,
  { psi, celsius }: Reading,
): { what: string; follows: string } | undefined {
  const ratedPsi = state.elements.get(id)?.ratedPsi
  if (ratedPsi === undefined) return undefined
  const rules = policyOf(state).rules.map(({ rule }) => rule)
  const lowAt = (read: number) =>
    rules.find(
      ({ kinds, watch }) =>
        kinds.includes('cylinder') && 'reading' in watch && isLow(read, ratedPsi, watch.atMost),
    )
  const low = lowAt(psi)
  if (low) {
    return { what: `${psi} psi of ${ratedPsi} is low`, follows: `the cylinder is ${SIGNS[low.past].word}` }
  }
  const follows = `the cylinder is ${SIGNS.unproven.word} until it is read again`
  const cooled = psiWhenCooled(psi, celsius)
  if (lowAt(cooled)) {
    const what = `${psi} psi at ${celsius} C is about ${cooled} once it has cooled, and that is low for ${ratedPsi}`
    return { what, follows }
  }
  return isOver(psi, celsius, ratedPsi)
    ? { what: `${psi} psi is more than ${OVER_PERCENT}% over the rated ${ratedPsi}`, follows }
    : undefined
}

/** What records the reading that was typed for a cylinder, and what is said of it. */
export function readingOf(
  view: View,
  element: Id,
  text: string,
): { command: Command; said: string; done: string; doubts: LookLine[] } {
  const reading = readingIn(text)
  const doubt = doubtOf(view, element, reading)
  return {
    command: { do: 'read-pressure', by: view.speaker!, element, ...reading },
    said: `Cylinder ${element} reads ${sayReading(text)}`,
    done: `Read ${sayReading(text)} on ${element}.`,
    doubts: doubt ? [{ text: `${doubt.what}: ${doubt.follows}.`, tone: 'bad' }] : [],
  }
}

/** Only what hangs there is asked about. */
const RACK = 'rack'

export const pressure: Action = {
  id: 'pressure',
  isOfStation: true,
  key: 'p',
  label: 'pressure',
  help: 'Record the pressure of a cylinder, in psi: at the riding position in hand or on the rack.',
  blocked(view) {
    if (onTheRack(view).length) return undefined
    const element = cylinderAt(view)
    const none = `${view.row?.seat} has no cylinder. i issues one from the rack.`
    return noSeat(view) ?? (element ? readingFault(view, element) : none)
  },
  next(view, answers) {
    const rack = onTheRack(view)
    if (rack.length && answers['element'] === undefined) return askCylinder(view, rack, answers)
    const element = answers['element'] ?? cylinderAt(view)!
    const isSpare = rack.some((each) => each.id === element)
    if (answers['psi'] === undefined) {
      const rated = view.state.elements.get(element)?.ratedPsi
      const where = isSpare ? ' on the rack' : ` at ${placeOf(view, element)}`
      const title = `Pressure of cylinder ${element}${where}${rated ? `, rated ${rated} psi` : ''}`
      return {
        ask: 'write',
        name: 'psi',
        title,
        hint: `psi as the gauge reads; ${WHEN_COLD}`,
        fault: psiFault,
      }
    }
    const { command, said, done, doubts } = readingOf(view, element, answers['psi'])
    // Whoever stands at the rack reads the next one too.
    const isNext = isSpare && unreadSpares(view).some((each) => each.id !== element)
    const follow = isNext ? { action: 'pressure', answers: { of: RACK } } : undefined
    return confirm(view, `${said}?`, [command], done, doubts, follow)
  },
}

/** What hangs there and can be read, what has to be read first. */
function onTheRack(view: View): Element[] {
  const unread = unreadSpares(view)
  const others = [...view.state.elements.values()].filter(
    (each) =>
      each.kind === 'cylinder' &&
      each.issuedTo === null &&
      each.custody.where === 'rack' &&
      !unread.includes(each),
  )
  return [...unread, ...others.toSorted(byId)]
}

const placeOf = ({ rows, state }: View, element: Id): string | undefined =>
  rows.find(({ seat }) => assigned(state, seat, 'cylinder')?.id === element)?.seat

/** The one at the riding position in hand first, then the rack, then all other riding positions: any of them can be scanned. */
function askCylinder(view: View, rack: readonly Element[], answers: Answers): Step {
  const { state, rows } = view
  const here = cylinderAt(view)
  const ids = rows.flatMap(({ seat }) => assigned(state, seat, 'cylinder')?.id ?? [])
  const option = (id: Id, where: string): Option => {
    const last = state.elements.get(id)?.readings.at(-1)
    const read = last ? `last read ${last.psi} psi on ${sayDate(dateOf(last.at))}` : 'never read'
    return {
      value: id,
      label: `Cylinder ${id}`,
      note: `${where}, ${read}`,
      // A pressure that is typed here names no cylinder, least of all the one that read so before.
      sought: where,
      blocked: readingFault(view, id),
    }
  }
  const unread = unreadSpares(view)
  const seated = (id: Id): Option => option(id, `at ${placeOf(view, id)}`)
  const spares = rack.map((each) =>
    option(each.id, `on the rack${unread.includes(each) ? ', to be read' : ''}`),
  )
  const options =
    answers['of'] === RACK
      ? spares
      : [
          ...(here === undefined ? [] : [seated(here)]),
          ...spares,
          ...ids.filter((id) => id !== here).map(seated),
        ]
  const left = unread.length ? ` ${count(unread.length, 'cylinder')} on the rack to be read.` : ''
  const title = `Which cylinder is read?${left}`
  return { ask: 'choose', name: 'element', title, options }
}
