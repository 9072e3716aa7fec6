// Which records of an element's years the books keep: only the newest of each sort, so that their size follows the gear.
import type { CareRecord, Said } from '../state.ts'
import { inOrder } from './crew.ts'

/**
 * The newest records of each kind that the books hold, so that their size follows the gear and not the years.
 * Should amendments withdraw all of them, the element is unproven: the safe side.
 */
export const KEPT = 8

/** The newest of each sort: a smoke exposure must never push a hazardous one off the books. */
export function keepEach<T extends Said>(records: T[], sortOf: (record: T) => string): T[] {
  return records.filter((record) => {
    const newer = records.filter((each) => sortOf(each) === sortOf(record) && each.seq > record.seq)
    return newer.length < KEPT
  })
}

export const keepCares = (cares: CareRecord[]): CareRecord[] => {
  const sorts = [...new Set(cares.map((each) => each.care))]
  return inOrder(
    sorts.flatMap((care) =>
      inOrder(
        cares.filter((each) => each.care === care),
        KEPT,
      ),
    ),
    Infinity,
  )
}

/** The same as `keepCares` with one more, for cares that are kept already: years of them are folded in one by one. */
export function addCare(kept: readonly CareRecord[], record: CareRecord): CareRecord[] {
  let at = kept.length
  while (
    at > 0 &&
    (kept[at - 1]!.on > record.on || (kept[at - 1]!.on === record.on && kept[at - 1]!.seq > record.seq))
  )
    at--
  const cares = kept.slice()
  cares.splice(at, 0, record)
  let same = 0
  for (const each of cares) if (each.care === record.care) same++
  if (same > KEPT)
    cares.splice(
      cares.findIndex((each) => each.care === record.care),
      1,
    )
  return cares
}
