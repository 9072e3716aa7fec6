// Which records of an element's years the books keep: only the newest of each sort, so that their size follows the gear.
import { oneText } from '../kinds.ts'
import { isNewer, type CareRecord, type ExposureRecord } from '../state.ts'
import { inOrder } from './crew.ts'

/**
 * The newest records of each kind that the books hold, so that their size follows the gear and not the years.
 * Should amendments withdraw all of them, the element is unproven: the safe side.
 */
export const KEPT = 8

/**
 * Of each list of kept records what sort each is, beside it, and whether each is newer than the one before: to look at all
 * of them for every new one would fetch years of records from all over the memory.
 */
type Beside = { sorts: string[]; isInOrder: boolean }
const besides = new WeakMap<object[], Beside>()

function besideOf<T>(kept: (T & object)[], sortOf: (record: T) => string, follows: Follows<T>): Beside {
  const known = besides.get(kept)
  if (known?.sorts.length === kept.length) return known
  const isInOrder = kept.every((each, at) => at === 0 || follows(each, kept[at - 1]!))
  const made = { sorts: kept.map((each) => oneText(sortOf(each))), isInOrder }
  besides.set(kept, made)
  return made
}
type Follows<T> = (one: T, before: T) => boolean

/** Takes the first of a sort out of a list in order that holds more of it than are kept. */
function dropOldest(kept: object[], sorts: string[], sort: string): void {
  let same = 0
  for (const each of sorts) if (each === sort) same++
  if (same <= KEPT) return
  const oldest = sorts.indexOf(sort)
  kept.splice(oldest, 1)
  sorts.splice(oldest, 1)
}

const exposureOf = ({ exposure }: ExposureRecord): string => exposure

/**
 * Puts one more among exposures that are kept already, in place: the newest of each sort stay, by when they happened.
 * Neither a smoke exposure nor an old one entered late pushes an open one off the books.
 */
export function addExposure(kept: ExposureRecord[], record: ExposureRecord): void {
  const { sorts, isInOrder } = besideOf(kept, exposureOf, isNewer)
  const last = kept.at(-1)
  if (!isInOrder || (last && !isNewer(record, last))) return addAmong(kept, record)
  kept.push(record)
  sorts.push(record.exposure)
  dropOldest(kept, sorts, record.exposure)
}

/** The same, where one of them was entered later than it happened. */
function addAmong(kept: ExposureRecord[], record: ExposureRecord): void {
  besides.delete(kept)
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

const careOf = ({ care }: CareRecord): string => care

/** Puts one more among cares that are kept already, in place: the same as `keepCares` of all of them. */
export function addCare(kept: CareRecord[], record: CareRecord): void {
  const { sorts } = besideOf(kept, careOf, isLater)
  let at = kept.length
  while (at > 0 && isLater(kept[at - 1]!, record)) at--
  if (at === kept.length) {
    kept.push(record)
    sorts.push(record.care)
  } else {
    kept.splice(at, 0, record)
    sorts.splice(at, 0, record.care)
  }
  dropOldest(kept, sorts, record.care)
}

const isLater = (one: CareRecord, other: CareRecord): boolean =>
  one.on > other.on || (one.on === other.on && one.seq > other.seq)
