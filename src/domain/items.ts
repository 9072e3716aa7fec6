// The open items one officer leaves to the next; derived from the books alone, never from the rules.
import { nameOf, capital, sayAbsence, sayMember } from './decide/decision.ts'
import type { Id } from './gear.ts'
import { plain, type Care } from './kinds.ts'
import type { ExposureRecord, Said, State } from './state.ts'
import { clockOf, dateOf, sayDate } from './time.ts'

export interface OpenItem {
  /** `tag-C-1041`, `away-C-1041`, `held-C-1041`, `stand-in-C-1900`, `exposure-412`: what is open, and on what. */
  id: string
  /** The elements it is about. */
  about: Id[]
  /** One sentence. */
  words: string
  /** What the next officer does, and when. */
  ifThen: string
  /** Who opened it, and when. */
  opened: Said
}

const TAGGED =
  'If it is mended, cleaned or inspected and found good, lift its tag on that basis; else retire it.'
const AWAY = 'If it comes back, receive it and record what was done to it before anybody wears it.'
const HELD = 'If somebody asks for it, only whoever had it held lets it go; it is not cleaned.'
const EXPOSED = 'If it is to be worn, it is cleaned or dried first, and the care recorded.'

const sayStandInEnds = (own: Id | null): string =>
  own === null
    ? 'If they are issued one of their own, the spare goes back to the rack.'
    : `If ${own} comes back and is good, swap it back; the spare returns to the rack.`

export function openItems(state: State): OpenItem[] {
  const items: OpenItem[] = []
  for (const element of state.elements.values()) {
    const { id, custody, tags } = element
    if (custody.where === 'retired') continue
    const tag = tags.at(-1)
    if (tag) {
      const reasons = tags.map((each) => each.reason).join('; ')
      items.push({
        id: `tag-${id}`,
        about: [id],
        words: `${capital(nameOf(element))} is out of service: ${reasons}.`,
        ifThen: TAGGED,
        opened: tag,
      })
    }
    if (custody.where === 'away' || custody.where === 'held') {
      const words = `${capital(nameOf(element))} is ${sayAbsence(element)}.`
      const ifThen = custody.where === 'away' ? AWAY : HELD
      items.push({ id: `${custody.where}-${id}`, about: [id], words, ifThen, opened: custody.since })
    }
  }
  for (const standIn of state.standIns.values()) {
    const spare = state.elements.get(standIn.element)!
    const own = standIn.own ? ` for ${standIn.own}` : ''
    const words = `${capital(nameOf(spare))} stands in${own} at ${standIn.seat}, with ${holderName(state, standIn.holder)}.`
    const ifThen = sayStandInEnds(standIn.own)
    items.push({ id: `stand-in-${spare.id}`, about: [spare.id], words, ifThen, opened: standIn })
  }
  return [...items, ...exposures(state)]
}

/** Any of these may have cleared an exposure; whether it did is for the rules. */
const CLEARING: readonly Care[] = ['routine-cleaning', 'advanced-cleaning', 'specialised-cleaning', 'drying']

/** One item for each exposure of which some gear has had no cleaning or drying since. */
function exposures(state: State): OpenItem[] {
  const open = new Map<number, OpenItem>()
  for (const { id, cares, custody, exposures: records } of state.elements.values()) {
    if (custody.where === 'retired') continue
    for (const record of records) {
      const isTended = cares.some(
        ({ care, on, seq, result }) =>
          CLEARING.includes(care) &&
          result === 'serviceable' &&
          (on > dateOf(record.at) || (on === dateOf(record.at) && seq > record.seq)),
      )
      if (isTended) continue
      const item = open.get(record.seq) ?? {
        id: `exposure-${record.seq}`,
        about: [],
        words: '',
        ifThen: EXPOSED,
        opened: record,
      }
      item.about.push(id)
      open.set(record.seq, { ...item, words: sayExposure(record, item.about) })
    }
  }
  return [...open.values()]
}

const sayExposure = ({ exposure, incident, at }: ExposureRecord, ids: readonly Id[]): string => {
  const where = incident ? ` at ${incident}` : ''
  return `Exposed to ${plain(exposure)}${where} on ${sayDate(dateOf(at))}, not cleaned or dried since: ${ids.join(', ')}.`
}

const holderName = (state: State, holder: string): string =>
  state.members.has(holder) ? sayMember(state, holder) : 'the riding position itself'

export const findItem = (state: State, id: string): OpenItem | undefined =>
  openItems(state).find((item) => item.id === id)

/** `A. Varga (M-104) has it since 07:10`, or who opened it while nobody has. */
export function sayOwner(state: State, item: OpenItem): string {
  const taken = acknowledgedBy(state, item)
  if (taken) return `${sayMember(state, taken.by)} has it since ${clockOf(taken.at)}`
  return `nobody has taken it on; opened by ${sayMember(state, item.opened.by)} on ${sayDate(dateOf(item.opened.at))}`
}

/** Who took the item on in this tour; what was opened anew since then has to be read again. */
export function acknowledgedBy(state: State, item: OpenItem): Said | undefined {
  const said = state.tour?.acknowledged.get(item.id)
  return said && said.seq > item.opened.seq ? said : undefined
}
