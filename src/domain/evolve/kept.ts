// Which records of an element's years the books keep: only the newest of each sort, so that their size follows the gear.
import { oneText, type Care } from '../kinds.ts'
import { isNewer, type CareRecord, type ExposureRecord } from '../state.ts'
import { inOrder } from './crew.ts'

/**
 * The newest records of each kind that the books hold, so that their size follows the gear and not the years.
 * Should amendments withdraw all of them, the element is unproven: the safe side.
 */
export const KEPT = 8

/**
 * Puts one more among exposures that are kept already, in place: the newest of each sort stay, by when they happened.
 * Neither a smoke exposure nor an old one entered late pushes an open one off the books.
 */
export function addExposure(kept: ExposureRecord[], record: ExposureRecord): void {
  kept.push(record)
  let same = kept.filter((each) => each.exposure === record.exposure)
  while (same.length > KEPT) {
    const oldest = same.reduce((one, other) => (isNewer(one, other) ? other : one))
    const newer = same.filter((each) => isNewer(each, oldest))
    // Of what one event says twice, none is the older: both stay or neither.
    if (newer.length < KEPT) return
    for (const each of same) if (!newer.includes(each)) kept.splice(kept.indexOf(each), 1)
    same = newer
  }
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

/** What each of the kept cares is, beside their list: counting them must not fetch years of records from all over the memory. */
const sorts = new WeakMap<CareRecord[], Care[]>()

function sortsOf(kept: CareRecord[]): Care[] {
  const known = sorts.get(kept)
  if (known?.length === kept.length) return known
  const made = kept.map((each) => oneText(each.care))
  sorts.set(kept, made)
  return made
}

/** Puts one more among cares that are kept already, in place: the same as `keepCares` of all of them. */
export function addCare(kept: CareRecord[], record: CareRecord): void {
  const sort = sortsOf(kept)
  const care = oneText(record.care)
  let at = kept.length
  while (at > 0 && isLater(kept[at - 1]!, record)) at--
  kept.splice(at, 0, record)
  sort.splice(at, 0, care)
  let same = 0
  for (const each of sort) if (each === care) same++
  if (same <= KEPT) return
  const oldest = sort.indexOf(care)
  kept.splice(oldest, 1)
  sort.splice(oldest, 1)
}

const isLater = (one: CareRecord, other: CareRecord): boolean =>
  one.on > other.on || (one.on === other.on && one.seq > other.seq)
