// The formats a journal can have, and how an entry of an older one is read today; it must never rewrite a line.
import type { Entry } from './line.ts'

/** The format this program writes; the first event of a journal, `station-made`, names its own in `data.format`. */
export const JOURNAL_FORMAT = 1

export type Upcaster = (entry: Entry) => Entry

/**
 * The one at n makes an entry of format n one of format n + 1. With the number above, a fixture journal of the format left
 * behind belongs in tests/store/formats, and an event that says from which line on the newer one is written.
 */
const UPCASTERS: ReadonlyMap<number, Upcaster> = new Map()

export type Reading = { kind: 'as-it-is' } | { kind: 'through'; upcast: Upcaster } | { kind: 'unknown' }

/** Asked once a journal: entries of the present format then go by untouched. */
export const readingOf = (
  format: unknown,
  present: number = JOURNAL_FORMAT,
  upcasters: ReadonlyMap<number, Upcaster> = UPCASTERS,
): Reading => {
  if (format === present) return { kind: 'as-it-is' }
  if (typeof format !== 'number' || !Number.isInteger(format) || format > present) return { kind: 'unknown' }
  const steps: Upcaster[] = []
  for (let at = format; at < present; at++) {
    const step = upcasters.get(at)
    if (step === undefined) return { kind: 'unknown' }
    steps.push(step)
  }
  return { kind: 'through', upcast: (entry) => steps.reduce((made, step) => step(made), entry) }
}
