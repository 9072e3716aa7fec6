// Makes events of the journal's entries; it must never take one that this program does not understand.
import { cleanText } from '../domain/clean.ts'
import { EVENT_TYPES, type Event } from '../domain/events.ts'
import type { Entry } from './line.ts'

/** An event with the hash of its line. */
export type Logged = Event & { hash: string }

/** The hash already vouches for the line, so its parts are taken as this program wrote them. */
export const asEvent = ({ seq, at, by, type, data, hash }: Entry): Logged =>
  ({ seq, at, by, type: KNOWN.get(type) ?? type, data, hash }) as unknown as Logged

/** Each by the one text that the program has of it: telling texts apart that are read anew from every line takes time. */
export const KNOWN: ReadonlyMap<string, string> = new Map(EVENT_TYPES.map((type) => [type, type]))

/** Why an entry that checks is still not taken: what it says may be that a piece of gear must not be worn. */
const sayStrange = ({ seq, type }: Entry, what: string): string =>
  `Line ${seq} of the journal holds ${what} (${cleanText(type).slice(0, 40)}). What stands before it is shown; it is open for reading only and nothing was changed. Use the newer program, or ask for "bayboard verify".`

/** Delivers what this program understands; from the first entry that it does not, nothing more is taken. */
export function readerOf() {
  let strange: string | undefined
  return {
    strange: () => strange,
    take(entry: Entry, deliver: (event: Logged) => void): void {
      if (strange !== undefined) return
      if (!KNOWN.has(entry.type)) strange = sayStrange(entry, 'an event that this program does not know')
      else {
        try {
          deliver(asEvent(entry))
        } catch {
          strange = sayStrange(entry, 'an event that this program cannot read')
        }
      }
    },
  }
}
