// Matches the headings of a history of care or a list of fit tests, and tells such a file from a list of gear. It must never guess between two.
import { faultOf, show, showAll } from './fault.ts'
import { UNUSED } from './columns.ts'
import { headFaults, keyOf, readMap, type Column, type Matched } from './headings.ts'
import { RECORD_SORTS, type FileSort, type RecordColumn, type RecordSort } from './record-columns.ts'
import type { Row } from './table.ts'

type RecordFile = keyof typeof RECORD_SORTS
const SORTS = Object.keys(RECORD_SORTS) as RecordFile[]

export const recordColumns = (sort: RecordFile): RecordColumn[] =>
  Object.keys(RECORD_SORTS[sort].words) as RecordColumn[]

const namesFor = (heading: string, { words }: RecordSort): string[] =>
  Object.keys(words).filter((name) => [name, ...words[name]!].some((word) => keyOf(word) === keyOf(heading)))

/** Which sort of file its headings, and what the user matched by name, say it is. */
export function sortOf(head: Row, map: Record<string, string>): FileSort {
  const mapped = Object.values(map).map(keyOf)
  const isTold = (name: string, sort: RecordSort): boolean =>
    mapped.includes(keyOf(name)) || head.cells.some((heading) => namesFor(heading, sort).includes(name))
  // Gear has a kind, and a care has none.
  const hasKind = head.cells.some((heading) => ['type', 'kind', 'item'].includes(keyOf(heading)))
  if (hasKind) return 'gear'
  return (
    SORTS.find((sort) => RECORD_SORTS[sort].telling.every((name) => isTold(name, RECORD_SORTS[sort]))) ??
    'gear'
  )
}

export function matchRecordHeadings(
  head: Row,
  map: Record<string, string>,
  sort: RecordFile,
): Matched<RecordColumn> {
  const headings = head.cells
  const unusable = headFaults(headings)
  const columns = new Map<RecordColumn, Column>()
  if (unusable.length) {
    return { columns, faults: unusable.map((says) => faultOf(head.line, says)), notes: [] }
  }
  const { targets, faults } = readMap(map, headings, recordColumns(sort))
  const isWrongMap = faults.length > 0
  for (const [index, target] of targets) {
    if (target !== UNUSED) columns.set(target, { index, heading: headings[index]! })
  }
  const notes: string[] = []
  for (const [index, heading] of headings.entries()) {
    if (heading === '' || targets.has(index)) continue
    const [name] = namesFor(heading, RECORD_SORTS[sort]) as RecordColumn[]
    const rival = name && columns.get(name)
    if (!name) notes.push(`Column ${show(heading)} was not used.`)
    else if (!rival) columns.set(name, { index, heading })
    else if (!Object.values(map).some((target) => keyOf(target) === keyOf(name))) {
      faults.push(
        `${show(rival.heading)} and ${show(heading)} can both be the column ${name}. ` +
          `Say which, as: --map ${show(`${rival.heading}=${name}`)}`,
      )
    }
  }
  if (!faults.length) faults.push(...lacking(columns, headings, RECORD_SORTS[sort]))
  return { columns, faults: faults.map((says) => faultOf(head.line, says)), notes, isWrongMap }
}

function lacking(
  columns: ReadonlyMap<string, Column>,
  headings: readonly string[],
  sort: RecordSort,
): string[] {
  const missing = sort.required.filter((name) => !columns.has(name)).map((name) => sort.hints[name])
  if (!missing.length) return []
  return [
    `The headings are ${showAll(headings.filter(Boolean))}. What is missing: ${missing.join('; and ')}. ` +
      `Rename the headings, or say which is which, as: --map "Their Heading=${sort.required.find((name) => !columns.has(name))}"`,
  ]
}
