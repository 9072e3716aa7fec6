// Turns a state into JSON text for the snapshot and back, in parts and record by record when each is first wanted; a state of another make is never taken.
import type { KeptVerdicts } from '../domain/assess/kept.ts'
import { emptyState, type State, type Tour } from '../domain/state.ts'
import { Table } from '../domain/table.ts'
import { FoundTable, NOWHERE, PackedValues, packTable, type Part } from './packed-table.ts'
import { BY_RECORD, wantedFirst, type ByRecord } from './wanted-first.ts'

/** Changes whenever the shape of State or the meaning of a record does: an older snapshot is then not used. */
export const STATE_VERSION = '16'

/** Where the records begin; no other member of a state has this name. */
const RECORDS = ',"records":['

/** The first part holds what the first frame needs; an array of their bytes is one. */
export type Parts = { length: number; at(part: number): Buffer | undefined }

declare const SUM_OF_RULES: string
/** Of all that judging is made of; only what is built has one, and only by the same rules is a verdict the same. */
const RULES_SUM = typeof SUM_OF_RULES === 'string' ? SUM_OF_RULES : undefined

type Tables<V> = Record<ByRecord, V>

/** What is far lies in so many parts that little is read besides the record that is wanted. */
const PART_BYTES = 64 * 1024
const MOST_PARTS = 512

/** Among `count` parts, which one a key's record is in that is not in the first. */
function partOf(key: string, count: number): number {
  let sum = 0
  for (let at = 0; at < key.length; at++) sum = (Math.imul(sum, 31) + key.charCodeAt(at)) >>> 0
  return 1 + (sum % (count - 1))
}

/** @param verdicts what is judged of it, for who takes it up again under the same rules */
export function pack(state: State, verdicts?: KeptVerdicts, rules = RULES_SUM): Buffer[] {
  const wanted = wantedFirst(state)
  const packed = byName((name) => packTable<unknown>(state[name]))
  const bytes = BY_RECORD.flatMap((name) => packed[name].values).reduce((sum, { length }) => sum + length, 0)
  const count = 1 + Math.min(MOST_PARTS, Math.ceil((1 + bytes) / PART_BYTES))
  const parts = Array.from({ length: count }, () => ({ tables: byName(emptyPart), records: [] as Buffer[] }))
  for (const name of BY_RECORD) {
    const { keys, values } = packed[name]
    const put = (part: number, key: string, slot: number, value?: Buffer): void => {
      const { tables, records } = parts[part]!
      tables[name].keys.push(key)
      tables[name].slots.push(slot)
      tables[name].sizes.push(value?.length ?? 0)
      if (value) records.push(value)
    }
    keys.forEach((key, slot) => put(wanted[name].has(key) ? 0 : partOf(key, count), key, slot, values[slot]))
    for (const key of wanted[name]) if (!state[name].has(key)) put(0, key, NOWHERE)
  }
  const rest = Object.fromEntries(Object.entries(state).filter(([name]) => !isByRecord(name)))
  const counts = byName((name) => packed[name].keys.length)
  return parts.map(({ tables, records }, at) =>
    bytesOf(
      at === 0 ? { ...rest, judged: rules && verdicts && { rules, verdicts }, counts, tables } : { tables },
      records,
    ),
  )
}

const emptyPart = (): Part => ({ keys: [], slots: [], sizes: [] })

function bytesOf(head: object, records: readonly Buffer[]): Buffer {
  const text = JSON.stringify(head, (_key, value: unknown) =>
    value instanceof Map ? [...(value as Map<string, unknown>)] : value,
  )
  const separated = records.flatMap((each, at) => (at === 0 ? [each] : [COMMA, each]))
  return Buffer.concat([Buffer.from(text.slice(0, -1) + RECORDS), ...separated, END])
}

const COMMA = Buffer.from(',')
const END = Buffer.from(']}')
const isByRecord = (name: string): name is ByRecord => (BY_RECORD as readonly string[]).includes(name)
const byName = <T>(make: (name: ByRecord) => T): Tables<T> =>
  Object.fromEntries(BY_RECORD.map((name) => [name, make(name)])) as Tables<T>

type Near = {
  [Key in Exclude<keyof State, ByRecord>]: State[Key] extends Map<infer K, infer V> ? [K, V][] : State[Key]
} & { counts: Tables<number>; tables: Tables<Part>; judged?: { rules: string; verdicts: KeptVerdicts } }
type PackedTour = Omit<Tour, 'answers' | 'acknowledged'> & {
  answers: [string, never][]
  acknowledged: [string, never][]
}

/**
 * The state, or undefined when the first part does not have its shape. Another part is fetched when something in it is
 * first wanted; where that is not to be had, `again` has to give the same state from the journal.
 */
export function unpack(
  parts: Parts,
  again: () => State,
  rules = RULES_SUM,
): { state: State; verdicts: KeptVerdicts | undefined } | undefined {
  const near = openPart<Near>(parts.at(0))
  if (!near || !isWhole(near.head)) return undefined
  const isOpen = new Set([0])
  let isAgain = false
  const fetch = (part: number): void => {
    if (isAgain || isOpen.has(part)) return
    const opened = openPart<{ tables: Tables<Part> }>(parts.at(part))
    isOpen.add(part)
    if (opened) return add(opened.head.tables, opened.values)
    const state = again()
    isAgain = true
    for (const name of BY_RECORD) found[name].addAgain(state[name])
  }
  const fetchFor = (key?: string): void => {
    if (key !== undefined && parts.length > 1) return fetch(partOf(key, parts.length))
    for (let part = 1; part < parts.length; part++) fetch(part)
  }
  const { counts, tables, judged, ...rest } = near.head
  const found = byName((name) => new FoundTable<unknown>(counts[name], fetchFor))
  const add = (tables: Tables<Part>, values: Tables<PackedValues<unknown>>): void =>
    BY_RECORD.forEach((name) => found[name].add(tables[name], values[name]))
  add(tables, near.values)
  const tour = rest.tour as unknown as PackedTour | null
  const state: State = {
    ...rest,
    ...(byName((name) => new Table(found[name])) as Pick<State, ByRecord>),
    rigs: new Table(rest.rigs),
    seats: new Table(rest.seats),
    standIns: new Map(rest.standIns),
    ridingLists: new Map(rest.ridingLists.map(([platoon, list]) => [platoon, new Map(list)])),
    tour: tour && { ...tour, answers: new Table(tour.answers), acknowledged: new Map(tour.acknowledged) },
  }
  return { state, verdicts: rules !== undefined && judged?.rules === rules ? judged.verdicts : undefined }
}

const isWhole = (state: Near): boolean =>
  Object.entries(emptyState()).every(([name, value]) => {
    if (isByRecord(name)) return Number.isSafeInteger(state.counts?.[name])
    const found: unknown = state[name as keyof Near]
    return found !== undefined && (!(value instanceof Map) || Array.isArray(found))
  })

type OpenPart<Head> = { head: Head; values: Tables<PackedValues<unknown>> }

/** Undefined when it is none, or its records are not where their sizes say. */
function openPart<Head extends { tables: Tables<Part> }>(
  bytes: Buffer | undefined,
): OpenPart<Head> | undefined {
  const from = bytes?.indexOf(RECORDS) ?? -1
  if (!bytes || from === -1) return undefined
  const head = objectOrNothing(`${bytes.toString('utf8', 0, from)}}`) as Head | undefined
  if (!head || !BY_RECORD.every((name) => isPart(head.tables?.[name]))) return undefined
  const start = from + RECORDS.length
  let at = start
  const values = byName((name) => {
    const packed = new PackedValues(bytes, at, head.tables[name].sizes)
    at = packed.end
    return packed
  })
  // No comma follows the last record.
  return bytes.subarray(at === start ? start : at - 1).equals(END) ? { head, values } : undefined
}

const isPart = (part: Part | undefined): boolean =>
  Array.isArray(part?.keys) &&
  [part.slots, part.sizes].every((each) => Array.isArray(each) && each.length === part.keys.length)

const objectOrNothing = (text: string): object | undefined => {
  try {
    const value: unknown = JSON.parse(text)
    return typeof value === 'object' && value !== null ? value : undefined
  } catch {
    return undefined
  }
}
