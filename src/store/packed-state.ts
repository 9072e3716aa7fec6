// Turns a state into JSON text for the snapshot and back, record by record when each is first wanted; a state of another make is never taken.
import { emptyState, type State, type Tour } from '../domain/state.ts'
import { Table } from '../domain/table.ts'
import { PackedValues, packTable } from './packed-table.ts'

/** Changes whenever the shape of State or the meaning of a record does: an older snapshot is then not used. */
export const STATE_VERSION = '9'

/** The tables that grow with the department: unpacking them whole would take longer than all the rest of a start. */
const BY_RECORD = ['members', 'elements', 'issued'] as const
type ByRecord = (typeof BY_RECORD)[number]

/** Where the records begin; no other member of a state has this name. */
const RECORDS = ',"records":['

export function pack(state: State): Buffer {
  const rest = Object.fromEntries(Object.entries(state).filter(([name]) => !isByRecord(name)))
  const tables: Record<string, { keys: string[]; sizes: number[] }> = {}
  const records: Buffer[] = []
  for (const name of BY_RECORD) {
    const { keys, values } = packTable<unknown>(state[name])
    tables[name] = { keys, sizes: values.map((each) => each.length) }
    for (const value of values) records.push(records.length ? COMMA : Buffer.from(''), value)
  }
  const head = JSON.stringify({ ...rest, tables }, (_key, value: unknown) =>
    value instanceof Map ? [...(value as Map<string, unknown>)] : value,
  )
  return Buffer.concat([Buffer.from(head.slice(0, -1) + RECORDS), ...records, END])
}

const COMMA = Buffer.from(',')
const END = Buffer.from(']}')
const isByRecord = (name: string): name is ByRecord => (BY_RECORD as readonly string[]).includes(name)

type Packed = {
  [Key in Exclude<keyof State, ByRecord>]: State[Key] extends Map<infer K, infer V> ? [K, V][] : State[Key]
} & { tables: Record<string, { keys: string[]; sizes: number[] }> }
type PackedTour = Omit<Tour, 'answers' | 'acknowledged'> & {
  answers: [string, never][]
  acknowledged: [string, never][]
}

/** The state, or undefined when the packed one does not have its shape. */
export function unpack(bytes: Buffer): State | undefined {
  const at = bytes.indexOf(RECORDS)
  const state =
    at === -1 ? undefined : (objectOrNothing(`${bytes.toString('utf8', 0, at)}}`) as Packed | undefined)
  if (!state || !isWhole(state)) return undefined
  const tables = tablesOf(state.tables, bytes, at + RECORDS.length)
  if (!tables) return undefined
  const { tables: _, ...rest } = state
  const tour = state.tour as unknown as PackedTour | null
  return {
    ...rest,
    ...tables,
    rigs: new Table(state.rigs),
    seats: new Table(state.seats),
    standIns: new Map(state.standIns),
    tours: new Table(state.tours),
    ridingLists: new Map(state.ridingLists.map(([platoon, list]) => [platoon, new Map(list)])),
    tour: tour && { ...tour, answers: new Table(tour.answers), acknowledged: new Map(tour.acknowledged) },
  }
}

const isWhole = (state: Packed): boolean =>
  Object.entries(emptyState()).every(([name, value]) => {
    if (isByRecord(name)) {
      const table = state.tables?.[name]
      return (
        Array.isArray(table?.keys) && Array.isArray(table.sizes) && table.keys.length === table.sizes.length
      )
    }
    const found: unknown = state[name as keyof Packed]
    return found !== undefined && (!(value instanceof Map) || Array.isArray(found))
  })

/** Undefined when the records are not where their sizes say. */
function tablesOf(tables: Packed['tables'], bytes: Buffer, from: number): Pick<State, ByRecord> | undefined {
  let at = from
  const taken = Object.fromEntries(
    BY_RECORD.map((name) => {
      const { keys, sizes } = tables[name]!
      const source = new PackedValues(bytes, at, sizes)
      at = source.end
      return [name, new Table({ keys, source })]
    }),
  ) as unknown as Pick<State, ByRecord>
  // No comma follows the last record.
  const end = at === from ? from : at - 1
  return bytes.subarray(end).equals(END) ? taken : undefined
}

const objectOrNothing = (text: string): object | undefined => {
  try {
    const value: unknown = JSON.parse(text)
    return typeof value === 'object' && value !== null ? value : undefined
  } catch {
    return undefined
  }
}
