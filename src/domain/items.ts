// The open items one officer leaves to the next; derived from the books alone, never from the rules.
import { nameOf, capital, sayAbsence, sayMember } from './decide/decision.ts'
import type { Id } from './gear.ts'
import { plain, type Care, type Exposure, type Kind } from './kinds.ts'
import { isHere, type Element, type ExposureRecord, type Said, type StandIn, type State } from './state.ts'
import { clockOf, dateOf, sayDate } from './time.ts'

export interface OpenItem {
  /** `tag-C-1041`, `away-C-1041`, `held-C-1041`, `stand-in-C-1900`, `exposure-412`, `check-412`: what is open, and on what. */
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

const UNCHECKED =
  'If it is to be used again, its function is checked or its flow tested first, and that recorded.'

function sayStandInEnds(own: Element | undefined): string {
  if (!own) return 'If they are issued one of their own, the spare goes back to the rack.'
  const { id } = own
  const whenGood = !isHere(own)
    ? `If ${id} comes back and is good`
    : own.tags.length
      ? `If ${id} is put right and its tag lifted`
      : `${id} is here. If it is good`
  return `${whenGood}, swap it back; the spare returns to the rack.`
}

/** Where the spare is now: its wearer may ride elsewhere since, or nowhere. */
function sayWhere(state: State, { holder, seat }: StandIn): string {
  const member = state.members.get(holder)
  if (!member) return ` at ${seat}, with the riding position itself`
  const now = member.seat === null ? '' : ` at ${member.seat}`
  return `${now}, with ${sayMember(state, holder)}${now ? '' : ', who rides nowhere now'}`
}

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
    const words = `${capital(nameOf(spare))} stands in${own}${sayWhere(state, standIn)}.`
    const ifThen = sayStandInEnds(state.elements.get(standIn.own ?? ''))
    items.push({ id: `stand-in-${spare.id}`, about: [spare.id], words, ifThen, opened: standIn })
  }
  return [...items, ...TENDING.flatMap((each) => exposures(state, each))]
}

interface Tending {
  sort: string
  cares: readonly Care[]
  isMeant: (kind: Kind, exposure: Exposure) => boolean
  /** What nobody has done since. */
  lacks: string
  ifThen: string
}
/** What is done after an exposure; whether it was enough is for the rules. */
const TENDING: readonly Tending[] = [
  {
    sort: 'exposure',
    cares: ['routine-cleaning', 'advanced-cleaning', 'specialised-cleaning', 'drying'],
    isMeant: () => true,
    lacks: 'not cleaned or dried since',
    ifThen: EXPOSED,
  },
  {
    sort: 'check',
    cares: ['function-check', 'flow-test'],
    // Whoever met smoke breathed from it: cleaning it checks nothing.
    isMeant: (kind, exposure) => kind === 'air-pack' && exposure === 'products-of-combustion',
    lacks: 'function not checked since',
    ifThen: UNCHECKED,
  },
]

/** One item for each exposure of which some gear has not been tended since. What is held as evidence is left as it is. */
function exposures(state: State, { sort, cares: asked, isMeant, lacks, ifThen }: Tending): OpenItem[] {
  const open = new Map<number, { record: ExposureRecord; ids: Id[] }>()
  for (const { id, kind, cares, custody, exposures: records } of state.elements.values()) {
    if (custody.where === 'retired' || custody.where === 'held') continue
    for (const record of records) {
      const isTended = cares.some(
        ({ care, on, seq, result }) =>
          asked.includes(care) &&
          result === 'serviceable' &&
          (on > dateOf(record.at) || (on === dateOf(record.at) && seq > record.seq)),
      )
      if (isTended || !isMeant(kind, record.exposure)) continue
      const { ids } = open.get(record.seq) ?? { ids: [] }
      open.set(record.seq, { record, ids: [...ids, id] })
    }
  }
  return [...open.values()].map(({ record, ids }) => ({
    id: `${sort}-${record.seq}`,
    about: ids,
    words: sayExposure(record, lacks, ids),
    ifThen,
    opened: record,
  }))
}

const sayExposure = (
  { exposure, incident, at }: ExposureRecord,
  lacks: string,
  ids: readonly Id[],
): string => {
  const where = incident ? ` at ${incident}` : ''
  return `Exposed to ${plain(exposure)}${where} on ${sayDate(dateOf(at))}, ${lacks}: ${ids.join(', ')}.`
}

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
