// Matches a file's headings to the columns an import knows; it must never take one heading for two columns or guess between two.
import { COLUMN_NAMES, COLUMNS, UNUSED, type ColumnName, type ColumnWords } from './columns.ts'
import { faultOf, show, showAll, type Fault } from './fault.ts'
import type { RecordColumn } from './record-columns.ts'
import type { Row } from './table.ts'

export interface Column {
  index: number
  /** As the file writes it. */
  heading: string
}
/** A column of gear and members, of cares or of fit tests. */
export type AnyColumn = ColumnName | RecordColumn
export type Columns<Name extends AnyColumn = AnyColumn> = ReadonlyMap<Name, Column>

/** `Serial No.`, `SerialNumber` and `SERIAL #` are all `serial#`. */
export const keyOf = (heading: string): string =>
  heading
    .normalize('NFKD')
    .replaceAll(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replaceAll(/(?<=^|[^\p{L}])(?:no|num|nr|nbr|number)(?![\p{L}])/gu, '#')
    .replaceAll(/[^\p{L}\p{N}#]/gu, '')

/** What stands in brackets is mostly a unit or a format: `Pressure (psi)`, `Made [MM/YYYY]`. */
const withoutBrackets = (heading: string): string => heading.replaceAll(/\([^)]*\)|\[[^\]]*\]/g, '')

type List = keyof ColumnWords
const WORDS = new Map<List, Map<string, ColumnName[]>>()
for (const name of COLUMN_NAMES) {
  for (const [list, words] of Object.entries(COLUMNS[name]) as [List, readonly string[]][]) {
    const byKey = WORDS.get(list) ?? new Map<string, ColumnName[]>()
    WORDS.set(list, byKey)
    for (const word of words) byKey.set(keyOf(word), [...(byKey.get(keyOf(word)) ?? []), name])
  }
}

function namesFor(heading: string, ...lists: List[]): ColumnName[] {
  const find = (key: string) => lists.flatMap((list) => WORDS.get(list)?.get(key) ?? [])
  const whole = find(keyOf(heading))
  return whole.length > 0 ? whole : find(keyOf(withoutBrackets(heading)))
}

const isForbidden = (heading: string): boolean => heading in {} || heading === 'prototype'

/** Faults that leave the file without usable headings. */
export function headFaults(headings: readonly string[]): string[] {
  const faults: string[] = []
  const seen = new Map<string, number>()
  for (const [index, heading] of headings.entries()) {
    if (heading === '') continue
    if (isForbidden(heading)) faults.push(`A column cannot be called ${show(heading)}. Rename it.`)
    const key = heading.toLowerCase()
    const first = seen.get(key)
    if (first !== undefined) {
      faults.push(
        `The heading ${show(heading)} stands over columns ${first + 1} and ${index + 1}. Rename one.`,
      )
    } else {
      seen.set(key, index)
    }
  }
  return faults
}

/** What was asked for by name: each heading's target, or a fault that lists what is possible. */
export function readMap<Name extends AnyColumn>(
  map: Record<string, string>,
  headings: readonly string[],
  columns: readonly Name[],
) {
  const targets = new Map<number, Name | typeof UNUSED>()
  const faults: string[] = []
  const possible = [...columns, UNUSED] as const
  for (const [heading, wanted] of Object.entries(map)) {
    const exact = headings.findIndex((seen) => seen.toLowerCase() === heading.trim().toLowerCase())
    const index = exact >= 0 ? exact : headings.findIndex((seen) => keyOf(seen) === keyOf(heading))
    const target = possible.find((name) => keyOf(name) === keyOf(wanted))
    if (index < 0 || headings[index] === '') {
      faults.push(
        `There is no column ${show(heading)} to map. The file has: ${showAll(headings.filter(Boolean))}.`,
      )
    } else if (!target) {
      faults.push(`${show(wanted)} is not a column of ours. The columns are: ${possible.join(', ')}.`)
    } else if (target !== UNUSED && [...targets.values()].includes(target)) {
      faults.push(`Two headings are mapped to ${target}. Map one of them only.`)
    } else {
      targets.set(index, target)
    }
  }
  return { targets, faults }
}

export interface Matched<Name extends AnyColumn = ColumnName> {
  columns: Columns<Name>
  faults: Fault[]
  notes: string[]
  /** The user's own matches are to blame, and no heading. */
  isWrongMap?: boolean
}

/** @param map the user's own matches, heading to column; they outrank the synonyms */
export function matchHeadings(head: Row, map: Record<string, string>): Matched {
  const headings = head.cells
  const unusable = headFaults(headings)
  if (unusable.length > 0) {
    return { columns: new Map(), faults: unusable.map((says) => faultOf(head.line, says)), notes: [] }
  }
  const { targets, faults: wrong } = readMap(map, headings, COLUMN_NAMES)
  const isWrongMap = wrong.length > 0

  const columns = new Map<ColumnName, Column>()
  for (const [index, target] of targets) {
    if (target !== UNUSED) columns.set(target, { index, heading: headings[index]! })
  }
  const mapped = new Set(columns.keys())
  const isOpen = (index: number): boolean => headings[index] !== '' && !targets.has(index)
  const open = headings.flatMap((heading, index) => (isOpen(index) ? [{ index, heading }] : []))

  const isGear = mapped.has('kind') || holdsKind(open, mapped.has('name'))
  const taken = new Set<number>()
  for (const column of open) {
    const [name] = namesFor(column.heading, 'words', isGear ? 'ofGear' : 'ofMembers')
    if (!name || mapped.has(name)) continue
    taken.add(column.index)
    const rival = columns.get(name)
    if (rival) {
      wrong.push(
        `${show(rival.heading)} and ${show(column.heading)} can both be the column ${name}. ` +
          `Say which, as: --map ${show(`${rival.heading}=${name}`)}`,
      )
    } else {
      columns.set(name, column)
    }
  }
  for (const column of open) {
    if (taken.has(column.index)) continue
    const names = namesFor(column.heading, isGear ? 'ofGearPerhaps' : 'ofMembersPerhaps')
    const name = names.find((name) => !columns.has(name))
    if (!name) continue
    taken.add(column.index)
    columns.set(name, column)
  }
  if (wrong.length === 0) wrong.push(...lacking(columns, headings))
  return {
    columns,
    faults: wrong.map((says) => faultOf(head.line, says)),
    isWrongMap,
    notes: open
      .filter(({ index }) => !taken.has(index))
      .map(({ heading }) => `Column ${show(heading)} was not used.`),
  }
}

/** A file with a kind column holds gear; a mere perhaps gives way to a column of names. */
function holdsKind(open: readonly Column[], hasName: boolean): boolean {
  const any = (name: ColumnName, ...lists: List[]): boolean =>
    open.some(({ heading }) => namesFor(heading, ...lists).includes(name))
  if (any('kind', 'ofGear')) return true
  const isNamed = hasName || ['name', 'last-name'].some((name) => any(name as ColumnName, 'words'))
  return !isNamed && any('kind', 'ofGearPerhaps')
}

function lacking(columns: Columns<ColumnName>, headings: readonly string[]): string[] {
  const has = (name: ColumnName): boolean => columns.has(name)
  if (has('id') && (has('kind') || has('name') || has('last-name'))) return []
  const missing = [
    ...(has('id') ? [] : ['id (as "Asset #", "Barcode" or "Badge")']),
    ...(has('kind') || has('name') || has('last-name')
      ? []
      : ['kind (as "Type" or "Item") for gear, or name for members']),
  ]
  return [
    `The headings are ${showAll(headings.filter(Boolean))}. What is missing: ${missing.join('; and ')}. ` +
      'Rename the headings, or say which is which, as: --map "Their Heading=id"',
  ]
}
