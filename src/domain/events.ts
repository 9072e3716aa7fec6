// Every event the journal can hold; one command makes one event, so no crash can leave half a command behind.
import type { CommandName } from './commands.ts'
import type { Care, Exposure, Kind } from './kinds.ts'
import type {
  Cover,
  ElementFacts,
  FacepieceFacts,
  Finding,
  Id,
  Matter,
  MemberFacts,
  RigFacts,
} from './gear.ts'
import type { AsksPin, KeptPin } from './pin.ts'
import type { Overlay } from './policy/shape.ts'
import type { Instant, LocalDate } from './time.ts'

/** An element as an import brings it: with whom it is issued to, where the file says so. */
export type ImportedElement = ElementFacts & { issuedTo?: Id | undefined; issuedOn?: LocalDate | undefined }

/** A care as whoever did it says it was done. */
export interface DoneCare {
  element: Id
  care: Care
  on: LocalDate
  result: 'serviceable' | 'unserviceable'
  who?: string
  note?: string
}

export interface DoneFitTest {
  member: Id
  facepiece: FacepieceFacts
  on: LocalDate
  result: 'pass' | 'fail'
}

/** What a file changed of an element or a member, with what the books had said: both stay visible. */
export interface ImportedChange {
  id: Id
  was: Record<string, unknown>
  with: Record<string, unknown>
}

export interface EventData {
  'station-made': {
    format: 1
    name: string
    timeZone: string
    rotation: string
    starts: string
    /** The id of the published base policy. */
    policy: string
    /** True for a demonstration: every screen and paper then says the data are invented. */
    invented?: boolean
  }
  'rig-added': { rig: RigFacts }
  'member-added': { member: MemberFacts }
  'element-added': { element: ElementFacts }
  'gear-imported': { file: string; members: MemberFacts[]; elements: ImportedElement[] }
  /** A file that also changes what is known, or brings the past of it along. */
  'records-imported': {
    file: string
    members: MemberFacts[]
    elements: ImportedElement[]
    cares: DoneCare[]
    fitTests: DoneFitTest[]
    changes: ImportedChange[]
  }
  /** Since when; null where nobody has told. */
  'element-issued': { element: Id; to: Id; on: LocalDate | null }
  'element-returned': { element: Id }
  'tour-opened': {
    tour: Id
    platoon: string
    officer: Id
    on: LocalDate
    /** Who is not of this platoon leaves their seat: opening the tour relieves them. */
    relieved: { seat: Id; member: Id }[]
  }
  'member-seated': { seat: Id; member: Id; relieves?: Id; as?: Cover }
  'seat-cleared': { seat: Id; member: Id }
  /** Each finding tags its element. */
  'seat-answered': { seat: Id; member: Id; tour: Id; findings: Finding[] }
  'pressure-read': { element: Id; psi: number; celsius?: number; tour?: Id }
  'element-tagged': { element: Id; reason: string; matter: Matter }
  'tag-lifted': { element: Id; basis: string; reasons: string[] }
  'element-swapped': {
    seat: Id
    kind: Kind
    /** Whose gear it is: the member in the seat, or the seat itself for an air pack or cylinder. */
    holder: Id
    in: Id
    out?: Id
    reason?: string
    tour: Id
  }
  'swap-reversed': { seat: Id; kind: Kind; holder: Id; in: Id; out: Id; tour: Id }
  'exposure-recorded': { exposure: Exposure; seats: Id[]; elements: Id[]; incident?: string }
  /** An unserviceable result tags its element. */
  'care-recorded': DoneCare
  'fit-test-recorded': DoneFitTest
  'elements-sent-away': { elements: Id[]; to: string; for: Care }
  'elements-received-back': { elements: Id[]; byMistake?: true }
  /** What came back together with the cares done to it, as a filled-in care slip says; `file` is its name. */
  'batch-received': { elements: Id[]; cares: DoneCare[]; file?: string }
  'element-held': { element: Id; reason: string }
  'element-retired': { element: Id; reason: string; disposal: string }
  'note-made': { text: string }
  /** `was` is what the amended event said of the fields that `with` changes: both stay visible. */
  'event-amended': {
    seq: number
    type: AmendableType
    subject: Id
    /** Which of several cares that one event records of its subject. */
    care?: Care
    /** Which of several by the day it was done, where one event records the same more than once. */
    on?: LocalDate
    why: string
    was: Record<string, unknown>
    with: Record<string, unknown>
  }
  'item-acknowledged': { item: string; about: Id[]; words: string; tour: Id }
  /** `readBack`: whoever took over read back what was open and took it on. The first one brings the public key of the seals. */
  'tour-handed-over': {
    tour: Id
    from: Id
    to: Id
    readBack?: true
    readBackByPin?: true
    sealKey?: string
    byPin?: true
  }
  /** A key for the seals; `vouched` is what the key it replaces signed to say so. */
  'key-made': { key: string; replaces: string | null; vouched: string | null; why: string }
  /** `byPin`: whoever did it gave their PIN. */
  'policy-adopted': { overlay: Overlay; byPin?: true }
  /** `witness`: the tour's officer, who gave theirs for a first one. */
  'pin-set': { member: Id; pin: KeptPin; byPin?: true; witness?: Id }
  'pin-cleared': { member: Id; why: string; byPin?: true }
  /** A wrong PIN was given, for the `tries`th time since the last right one; which one is not kept. */
  'pin-refused': { member: Id; for: AsksPin; tries: number }
  /** Bytes of an unfinished last line were set aside when the journal was opened. */
  'journal-recovered': { file: string; bytes: number }
}

/** Records of fact can be amended; an act is undone by its opposite. */
export const AMENDABLE = [
  'member-added',
  'element-added',
  'gear-imported',
  'records-imported',
  'element-tagged',
  'exposure-recorded',
  'care-recorded',
  'batch-received',
  'pressure-read',
  'fit-test-recorded',
  'note-made',
  'seat-answered',
] as const
export type AmendableType = (typeof AMENDABLE)[number]

export type EventType = keyof EventData

/** Each event and the command that makes it; the store makes the others. A missing one is a compile error. */
export const EVENT_MAKERS = {
  'station-made': null,
  'rig-added': 'add-rig',
  'member-added': 'add-member',
  'element-added': 'add-element',
  'gear-imported': 'import-gear',
  'records-imported': 'import-records',
  'element-issued': 'issue',
  'element-returned': 'return-to-rack',
  'tour-opened': 'open-tour',
  'member-seated': 'seat-member',
  'seat-cleared': 'clear-seat',
  'seat-answered': 'answer',
  'pressure-read': 'read-pressure',
  'element-tagged': 'tag',
  'tag-lifted': 'lift-tag',
  'element-swapped': 'swap',
  'swap-reversed': 'swap-back',
  'exposure-recorded': 'record-exposure',
  'care-recorded': 'record-care',
  'fit-test-recorded': 'record-fit-test',
  'elements-sent-away': 'send-away',
  'elements-received-back': 'receive-back',
  'batch-received': 'receive-batch',
  'element-held': 'hold',
  'element-retired': 'retire',
  'note-made': 'note',
  'event-amended': 'amend',
  'item-acknowledged': 'acknowledge',
  'tour-handed-over': 'hand-over',
  'policy-adopted': 'adopt-policy',
  'pin-set': 'set-pin',
  'pin-cleared': 'clear-pin',
  'pin-refused': null,
  'key-made': null,
  'journal-recovered': null,
} as const satisfies Record<EventType, CommandName | null>
export const EVENT_TYPES = Object.keys(EVENT_MAKERS) as [EventType, ...EventType[]]

/** An event as `decide` makes it: the session adds when and by whom. */
export type Draft = { [T in EventType]: { type: T; data: EventData[T] } }[EventType]

/** An event as the journal keeps it. `recordedAt` is there only when it was recorded later than it happened. */
export type Event = {
  [T in EventType]: {
    seq: number
    at: Instant
    by: Id
    type: T
    data: EventData[T] & { recordedAt?: Instant }
  }
}[EventType]

export type EventOf<T extends EventType> = Extract<Event, { type: T }>
