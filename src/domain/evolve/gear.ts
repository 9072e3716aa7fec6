// Folds what happens to elements into a draft; it changes records of the draft's own only, and no record within them.
import type { DoneCare, EventOf } from '../events.ts'
import type { ElementFacts, Id, Matter } from '../gear.ts'
import { onTheRack, RACK } from '../on-the-rack.ts'
import { isHeldBySeat, oneText } from '../kinds.ts'
import {
  place,
  standInOf,
  type CareRecord,
  type Custody,
  type Element,
  type ExposureRecord,
  type Said,
  type State,
} from '../state.ts'
import { ownOf } from '../table.ts'
import type { LocalDate } from '../time.ts'
import { said } from './crew.ts'
import { addCare, addExposure } from './kept.ts'

export function addElement(draft: State, element: ElementFacts, seq: number): void {
  draft.elements.set(element.id, onTheRack(element, seq))
}

const copyElement = (element: Element): Element => ({
  ...element,
  cares: element.cares.slice(),
  exposures: element.exposures.slice(),
  readings: element.readings.slice(),
})

/** The draft's own record of an element with its lists of cares, exposures and readings, to be changed in place. */
export const ownElement = (draft: State, id: Id): Element | undefined =>
  ownOf(draft.elements, id, copyElement)

export function changeElement(draft: State, id: Id, change: (element: Element) => Partial<Element>): void {
  const element = ownElement(draft, id)
  if (element) Object.assign(element, change(element))
}

const ISSUED: Custody = { where: 'issued' }
const RIG: Custody = { where: 'rig' }
const withHolder = (element: Element): Custody => (isHeldBySeat(element.kind) ? RIG : ISSUED)

/** The day it was taken into use; where it was issued before at a time nobody has told, no later day stands for that. */
const firstIssue = ({ issuedOn, issuedBefore }: Element, on: LocalDate): LocalDate | null =>
  issuedOn ?? (issuedBefore ? null : on)

/** @param on null where nobody has told since when */
export function issue(draft: State, id: Id, to: Id, on: LocalDate | null): void {
  changeElement(draft, id, (element) => {
    const key = place(to, element.kind)
    draft.issued.set(key, [...(draft.issued.get(key) ?? []), id])
    const since =
      on === null && element.issuedOn === null
        ? { issuedBefore: true as const }
        : { issuedOn: on === null ? element.issuedOn : firstIssue(element, on) }
    return { issuedTo: to, ...since, custody: withHolder(element) }
  })
}

/** Nobody's own element stands in, and nothing stands in for what is no longer its holder's own. */
function settle(draft: State, key: string): void {
  const standIn = draft.standIns.get(key)
  if (!standIn) return
  const mine = draft.issued.get(key) ?? []
  if (mine[0] === standIn.element) draft.standIns.delete(key)
  else if (standIn.own !== null && !mine.includes(standIn.own)) {
    draft.standIns.set(key, { ...standIn, own: null })
  }
}

/** Takes it off its holder's list and out of any place it stands in. */
function release(draft: State, element: Element): void {
  const standIn = standInOf(draft, element.id)
  if (standIn) draft.standIns.delete(place(standIn.holder, standIn.kind))
  if (element.issuedTo === null) return
  const key = place(element.issuedTo, element.kind)
  const left = (draft.issued.get(key) ?? []).filter((each) => each !== element.id)
  if (left.length) draft.issued.set(key, left)
  else draft.issued.delete(key)
  settle(draft, key)
}

export function unissue(draft: State, id: Id): void {
  changeElement(draft, id, (element) => {
    release(draft, element)
    const isAway = element.custody.where === 'away' || element.custody.where === 'held'
    return { issuedTo: null, custody: isAway ? element.custody : RACK }
  })
}

export const tag = (draft: State, id: Id, event: Said, reason: string, matter: Matter): void =>
  changeElement(draft, id, (element) => ({ tags: [...element.tags, { ...said(event), reason, matter }] }))

export const liftTags = (draft: State, id: Id): void => changeElement(draft, id, () => ({ tags: [] }))

/** A spare goes where it is needed; the element it relieves stays its holder's own, or goes back to the rack. */
export function swap(draft: State, event: EventOf<'element-swapped'>): void {
  const { seat, kind, holder, in: spare, out } = event.data
  const key = place(holder, kind)
  const before = draft.standIns.get(key)
  const own = before ? before.own : (out ?? null)
  if (before) toRack(draft, before.element)
  draft.standIns.set(key, { ...said(event), kind, holder, element: spare, own, seat })
  changeElement(draft, spare, (element) => ({
    custody: withHolder(element),
    issuedOn: firstIssue(element, event.at.slice(0, 10)),
  }))
  settle(draft, key)
}

export function swapBack(draft: State, { data }: EventOf<'swap-reversed'>): void {
  const key = place(data.holder, data.kind)
  draft.standIns.delete(key)
  const mine = draft.issued.get(key) ?? []
  if (mine.includes(data.in)) draft.issued.set(key, [data.in, ...mine.filter((each) => each !== data.in)])
  toRack(draft, data.out)
}

/** A spare that is nobody's own goes to the rack; a second set stays with its member; what is away stays away. */
const toRack = (draft: State, id: Id): void =>
  changeElement(draft, id, ({ issuedTo, custody }) =>
    issuedTo === null && (custody.where === 'issued' || custody.where === 'rig') ? { custody: RACK } : {},
  )

export function expose(draft: State, event: EventOf<'exposure-recorded'>): void {
  const { exposure, incident, elements } = event.data
  const record = { ...said(event), exposure: oneText(exposure), ...(incident !== undefined && { incident }) }
  for (const id of elements) exposeOne(draft, id, record)
}

export function exposeOne(draft: State, id: Id, record: ExposureRecord): void {
  const element = ownElement(draft, id)
  if (element) addExposure(element.exposures, record)
}

export function recordCare(draft: State, done: DoneCare, event: Said): void {
  const { element: id, on, who } = done
  const { seq, at, by } = event
  const [care, result] = [oneText(done.care), oneText(done.result)]
  // Written out, since years of journal are mostly this.
  const record: CareRecord =
    who === undefined ? { seq, at, by, care, on, result } : { seq, at, by, care, on, result, who }
  const element = ownElement(draft, id)
  if (element) addCare(element.cares, record)
  if (result === 'unserviceable') tag(draft, id, event, failed(care), 'safety')
}

export const failed = (care: string): string => `failed ${care.replaceAll('-', ' ')}`

export function sendAway(draft: State, event: EventOf<'elements-sent-away'>): void {
  const { elements, to, for: care } = event.data
  for (const id of elements) {
    changeElement(draft, id, () => ({ custody: { where: 'away', to, for: care, since: said(event) } }))
  }
}

const UNSEEN = 'back from being held, not looked over since'

/** Whoever sent it saw something wrong with it; whether that is mended only a record says. */
function repairOf({ custody }: Element, event: Said): Pick<Element, 'fromRepair'> | undefined {
  const sent = custody.where === 'held' ? custody.was : custody
  return sent?.where === 'away' && sent.for === 'repair'
    ? { fromRepair: { ...said(event), place: sent.to, sent: sent.since } }
    : undefined
}

/** Gear is held because its wearer was hurt, so nobody wears it before somebody has looked it over and lifts the tag. */
export function receiveBack(
  draft: State,
  event: EventOf<'elements-received-back'> | EventOf<'batch-received'>,
): void {
  const wasMistaken = 'byMistake' in event.data
  for (const id of event.data.elements) {
    const inPlace = standInOf(draft, id) !== undefined
    if (draft.elements.get(id)?.custody.where === 'held' && !wasMistaken)
      tag(draft, id, event, UNSEEN, 'safety')
    changeElement(draft, id, (element) => {
      if (wasMistaken && element.custody.where === 'held' && element.custody.was)
        return { custody: element.custody.was }
      return {
        ...(element.kind === 'cylinder' && { back: said(event) }),
        ...(!wasMistaken && repairOf(element, event)),
        custody: element.issuedTo !== null || inPlace ? withHolder(element) : RACK,
      }
    })
  }
}

export const hold = (draft: State, event: EventOf<'element-held'>): void =>
  changeElement(draft, event.data.element, ({ custody }) => ({
    custody: {
      where: 'held',
      reason: event.data.reason,
      since: said(event),
      ...(custody.where === 'away' && { was: custody }),
    },
  }))

export const retire = (draft: State, event: EventOf<'element-retired'>): void =>
  changeElement(draft, event.data.element, (element) => {
    release(draft, element)
    const { reason, disposal } = event.data
    return { issuedTo: null, custody: { where: 'retired', reason, disposal, since: said(event) } }
  })
