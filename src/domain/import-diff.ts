// What a file says that the books do not: what is new, what differs and what is there already. It must never decide whether it may be taken.
import type { DoneCare, DoneFitTest, ImportedChange, ImportedElement } from './events.ts'
import type { Id, MemberFacts } from './gear.ts'
import type { Element, Member, State } from './state.ts'
import type { LocalDate } from './time.ts'

/** The rows of a file; an empty cell says nothing, so a field that is not there never differs. */
export interface ImportedRows {
  members: MemberFacts[]
  elements: ImportedElement[]
  cares: DoneCare[]
  fitTests: DoneFitTest[]
}
export interface Difference extends ImportedRows {
  changes: ImportedChange[]
  /** How many rows say what the books say already. */
  known: number
  /** Rows with a day of issue after the first that is known, which stays: what counts from it must not begin anew. */
  laterIssues: { id: Id; on: LocalDate; first: LocalDate }[]
}

const ELEMENT_FIELDS = [
  'maker',
  'model',
  'serial',
  'size',
  'made',
  'edition',
  'assembly',
  'inService',
  'ratedPsi',
  'construction',
  'issuedTo',
] as const satisfies readonly (keyof ImportedElement)[]

/** Which fields of what is on the books a row changes, from what to what. */
function changed(
  id: string,
  now: object,
  row: object,
  fields: readonly string[],
): ImportedChange | undefined {
  const was: Record<string, unknown> = {}
  const next: Record<string, unknown> = {}
  for (const field of fields) {
    const [before, after] = [Reflect.get(now, field) as unknown, Reflect.get(row, field) as unknown]
    if (after === undefined || after === (before ?? undefined)) continue
    was[field] = before ?? null
    next[field] = after
  }
  return Object.keys(next).length ? { id, was, with: next } : undefined
}

function changeOfElement(now: Element, row: ImportedElement): ImportedChange | undefined {
  const change = changed(row.id, now, row, ELEMENT_FIELDS)
  // The books hold the first day of issue there was: only an earlier one takes its place.
  if (row.issuedOn === undefined || (now.issuedOn !== null && row.issuedOn >= now.issuedOn)) return change
  const { was = {}, with: next = {} } = change ?? {}
  return { id: row.id, was: { ...was, issuedOn: now.issuedOn }, with: { ...next, issuedOn: row.issuedOn } }
}

function changeOfMember(now: Member, row: MemberFacts): ImportedChange | undefined {
  const change = changed(row.id, now, row, ['name', 'rank', 'platoon'])
  // One measure told leaves the others as they were.
  const sizes = { ...now.sizes, ...row.sizes }
  const hasOther = Object.entries(row.sizes ?? {}).some(
    ([measure, size]) => Reflect.get(now.sizes ?? {}, measure) !== size,
  )
  if (!hasOther) return change
  const { was = {}, with: next = {} } = change ?? {}
  return { id: row.id, was: { ...was, sizes: now.sizes ?? null }, with: { ...next, sizes } }
}

const isSameCare = (one: Omit<DoneCare, 'element'>, other: Omit<DoneCare, 'element'>): boolean =>
  one.care === other.care && one.on === other.on && one.result === other.result

const isSameTest = (one: Omit<DoneFitTest, 'member'>, other: Omit<DoneFitTest, 'member'>): boolean =>
  one.on === other.on &&
  one.result === other.result &&
  one.facepiece.model === other.facepiece.model &&
  one.facepiece.size === other.facepiece.size

/** Sorts the rows of a file by what the books know of them. A row about something of another kind stays new, and is refused. */
export function differenceOf(rows: ImportedRows, state: State): Difference {
  const none = { members: [], elements: [], cares: [], fitTests: [], changes: [], laterIssues: [] }
  const found: Difference = { ...none, known: 0 }
  const take = (change: ImportedChange | undefined): void => {
    if (change) found.changes.push(change)
    else found.known += 1
  }
  for (const row of rows.members) {
    const now = state.members.get(row.id)
    if (now) take(changeOfMember(now, row))
    else found.members.push(row)
  }
  for (const row of rows.elements) {
    const now = state.elements.get(row.id)
    if (!now || now.kind !== row.kind) {
      found.elements.push(row)
      continue
    }
    take(changeOfElement(now, row))
    const { id, issuedOn: on } = row
    if (on !== undefined && now.issuedOn !== null && on > now.issuedOn)
      found.laterIssues.push({ id, on, first: now.issuedOn })
  }
  for (const row of rows.cares) {
    if (state.elements.get(row.element)?.cares.some((each) => isSameCare(each, row))) found.known += 1
    else found.cares.push(row)
  }
  for (const row of rows.fitTests) {
    if (state.members.get(row.member)?.fitTests.some((each) => isSameTest(each, row))) found.known += 1
    else found.fitTests.push(row)
  }
  return found
}

/** Does it only add members and gear, as they are told for the first time? */
export const isAddition = ({
  cares,
  fitTests,
  changes,
  elements,
}: Pick<Difference, 'cares' | 'fitTests' | 'changes' | 'elements'>): boolean =>
  !cares.length &&
  !fitTests.length &&
  !changes.length &&
  elements.every((each) => each.issuedOn === undefined || each.issuedTo !== undefined)
