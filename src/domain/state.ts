// Everything known of a station at one point of its journal; records are replaced, never changed in place.
import type { Care, Exposure, Kind } from './kinds.ts'
import { isHeldBySeat } from './kinds.ts'
import type { EventData } from './events.ts'
import type { Cover, ElementFacts, FacepieceFacts, Finding, Id, Matter, MemberFacts } from './gear.ts'
import type { KeptPin, PinTries } from './pin.ts'
import type { Overlay } from './policy/shape.ts'
import { newestOf, Table } from './table.ts'
import { isLater, type Instant, type LocalDate } from './time.ts'

/** Where a record stands: its event, when it happened and who said so. */
export interface Said {
  seq: number
  at: Instant
  by: Id
}
/** Which of two happened later; of one instant the journal's order decides. */
export const isNewer = (one: Said, other: Said): boolean =>
  isLater(one.at, other.at) || (one.seq > other.seq && !isLater(other.at, one.at))
export interface Tag extends Said {
  reason: string
  matter: Matter
}
export interface CareRecord extends Said {
  care: Care
  on: LocalDate
  result: 'serviceable' | 'unserviceable'
  who?: string
}
export interface ExposureRecord extends Said {
  exposure: Exposure
  incident?: string
}
export interface Reading extends Said {
  psi: number
  celsius?: number
}
export interface FitTest extends Said {
  facepiece: FacepieceFacts
  on: LocalDate
  result: 'pass' | 'fail'
}

type Away = { where: 'away'; to: string; for: Care; since: Said }
export type Custody =
  | { where: 'rack' | 'issued' | 'rig' }
  | Away
  /** `was`: it was away when it was held, and is again should the hold have been a mistake. */
  | { where: 'held'; reason: string; since: Said; was?: Away }
  | { where: 'retired'; reason: string; disposal: string; since: Said }

export interface FromRepair extends Said {
  place: string
  sent: Said
}

export interface Element extends ElementFacts {
  /** The event that added it. */
  seq: number
  /** A member, a seat for an air pack or cylinder, or nobody. */
  issuedTo: Id | null
  /** When it was first issued to anybody. */
  issuedOn: LocalDate | null
  /** It was issued at a time that nobody has told: a later issue is then not its first. */
  issuedBefore?: true
  custody: Custody
  /** The tags not yet lifted. */
  tags: Tag[]
  /** The newest records of each care, oldest first by date. */
  cares: CareRecord[]
  exposures: ExposureRecord[]
  /** When it was last looked at and found serviceable, at roll call or as its gauge was read: a routine inspection. */
  called?: Said
  /** The look before that one, should it be withdrawn. */
  calledBefore?: Said
  readings: Reading[]
  /** When a cylinder came back from other hands: what its gauge read before says nothing of what it holds now. */
  back?: Said
  /** When it last came back from where it was sent for repair, where that was, and when it was sent. */
  fromRepair?: FromRepair
}

export interface Member extends MemberFacts {
  seq: number
  seat: Id | null
  /** When last any of their gear came or went. */
  movedAt?: Instant
  fitTests: FitTest[]
  /** What is kept of their PIN, if they have one. */
  pin?: KeptPin
  /** Wrong PINs since the last right one. */
  pinTries?: PinTries
}

export interface Seat {
  id: Id
  rig: Id
  position: string
  critical: boolean
  member: Id | null
  /** Why the member rides there who is not of the platoon on duty. */
  as?: Cover
  /** When last its rider changed, or its own gear came or went. */
  movedAt?: Instant
}

export interface Rig {
  id: Id
  name: string
  minimum: number
  seats: Id[]
}

/** A spare worn in the place of the holder's own element, or where that is missing. */
export interface StandIn extends Said {
  kind: Kind
  holder: Id
  element: Id
  /** The holder's own element that was taken out. */
  own: Id | null
  seat: Id
}

export interface Answer extends Said {
  member: Id
  findings: Finding[]
}

/** What is kept of every tour: its id is used once, and the rotation is read off who worked when. */
interface WorkedTour {
  platoon: string
  on: LocalDate
  openedAt: Instant
  /** Who took over from it and when, once it is handed over. */
  to?: Id
  endedAt?: Instant
}

export interface Tour {
  id: Id
  platoon: string
  officer: Id
  on: LocalDate
  opened: Said
  answers: Map<Id, Answer>
  acknowledged: Map<string, Said>
}

export interface State {
  /** How many events it has seen. */
  seq: number
  station: (EventData['station-made'] & { madeAt: Instant }) | null
  rigs: Map<Id, Rig>
  seats: Map<Id, Seat>
  members: Map<Id, Member>
  elements: Map<Id, Element>
  /** Elements issued to each holder by kind, the one to be worn first. */
  issued: Map<string, Id[]>
  standIns: Map<string, StandIn>
  tour: Tour | null
  /** Every tour, the newest last. */
  tours: Map<Id, WorkedTour>
  /** Who last rode where, by platoon. */
  ridingLists: Map<string, Map<Id, Id>>
  notes: (Said & { text: string })[]
  overlay: Overlay | null
  /** The public key that seals are checked with, as text. */
  sealKey: string | null
}

export const emptyState = (): State => ({
  seq: 0,
  station: null,
  rigs: new Table(),
  seats: new Table(),
  members: new Table(),
  elements: new Table(),
  issued: new Table(),
  standIns: new Map(),
  tour: null,
  tours: new Table(),
  ridingLists: new Map(),
  notes: [],
  overlay: null,
  sealKey: null,
})

/** The key of a holder's place for one kind. A space cannot be part of an id. */
export const place = (holder: Id, kind: Kind): string => `${holder} ${kind}`

/** Whose gear a seat needs of a kind: the seat's own, or that of the member in it. */
export const holderOf = (seat: Seat, kind: Kind): Id | null => (isHeldBySeat(kind) ? seat.id : seat.member)

/** The element that is in a holder's place for a kind, wherever it may be just now. */
export function assigned(state: State, holder: Id | null, kind: Kind): Element | undefined {
  if (holder === null) return undefined
  const key = place(holder, kind)
  const id = state.standIns.get(key)?.element ?? state.issued.get(key)?.[0]
  return id === undefined ? undefined : state.elements.get(id)
}

/** Is it here to be worn? Gear that is away, held or retired is not. */
export const isHere = (element: Element): boolean =>
  element.custody.where === 'issued' || element.custody.where === 'rig' || element.custody.where === 'rack'

/** The spare's place, while it stands in for somebody's own element. */
export const standInOf = (state: State, element: Id): StandIn | undefined => {
  for (const standIn of state.standIns.values()) if (standIn.element === element) return standIn
  return undefined
}

export const lastTour = (state: State): Id | undefined => [...state.tours.keys()].at(-1)

/** The tour that was handed over last, while none is open. */
export const tourBefore = ({ tour, tours }: State): WorkedTour | undefined =>
  tour ? undefined : newestOf(tours, 1)[0]
