// Says in one sentence who may not ride, and in another how far the roll call is; it never judges who is fit.
import { listed } from './count.ts'
import type { Shown, Tone } from './signs.ts'
import type { State } from './state.ts'
import { clockOf, dateOf, sayDate, type Instant } from './time.ts'

/** What the sentences look at of a rig and its riding positions. */
interface Rig {
  name: string
  canRide: boolean
  rows: readonly {
    seat: string
    name: string
    state: Shown
    fit: boolean
    answered: boolean
    changed: boolean
  }[]
}

export interface RollCall {
  answered: number
  filled: number
  complete: boolean
  last: Instant | null
  words: string
  /** Once it is complete: whose gear has changed since they answered. */
  again: string
}

/** How far the roll call is, and whose gear it did not speak of as it is now. */
export const sayRollCall = ({ words, again }: Pick<RollCall, 'words' | 'again'>): string =>
  again ? `${words} ${again}` : words

/** Who may not ride, as one sentence, and how pressing that is. */
export function sayHeadline(rigs: readonly Rig[]): { headline: string; tone: Tone } {
  const rows = rigs.flatMap((rig) => rig.rows)
  if (!rows.length) return { headline: 'This station has no rig yet.', tone: 'warn' }
  const filled = rows.filter((row) => row.state !== 'unfilled')
  if (!filled.length) return { headline: 'Nobody is seated yet.', tone: 'warn' }
  const unfit = filled.filter((row) => !row.fit)
  const kept = rigs.filter((rig) => !rig.canRide)
  const empty = rows.length - filled.length
  // A crew that lost its officer has fewer who may not ride: it must not look the better for it.
  const unfilled = empty ? `; ${empty} unfilled` : ''
  const rides = kept.length ? ` ${listed(kept.map((rig) => rig.name))} cannot ride.` : ''
  const due = filled.filter((row) => row.state === 'due').length
  if (unfit.length) {
    // Many names would be cut short on a narrow screen; the rows beneath name everybody.
    const names = unfit.length <= 2 ? `: ${unfit.map((row) => row.name).join(', ')}` : ''
    return { headline: `${unfit.length} may not ride${names}${unfilled}.${rides}`, tone: 'bad' }
  }
  if (rides) return { headline: `Everybody seated may ride${unfilled}.${rides}`, tone: 'bad' }
  const soon = due ? ` ${due} with something due.` : ''
  return { headline: `Everybody seated may ride and every rig can.${soon}`, tone: due ? 'warn' : 'good' }
}

export function rollCallOf(state: State, rigs: readonly Rig[], at: Instant): RollCall {
  const filled = rigs.flatMap((rig) => rig.rows).filter((row) => row.state !== 'unfilled')
  const answered = filled.filter((row) => row.answered).length
  const times = [...(state.tour?.answers.values() ?? [])].toSorted((a, b) => a.seq - b.seq)
  const last = times.at(-1)?.at ?? null
  const complete = state.tour !== null && filled.length > 0 && answered === filled.length
  const day = last && dateOf(last) !== dateOf(at) ? ` on ${sayDate(dateOf(last))}` : ''
  const when = last ? `, last ${clockOf(last)}${day}` : ''
  const words = !state.tour
    ? 'No tour is open.'
    : !filled.length
      ? 'Roll call: nobody is seated.'
      : `Roll call ${complete ? 'complete' : 'not complete'}: ${answered} of ${filled.length} answered${when}.`
  const again = complete ? sayChanged(filled.filter((row) => row.changed)) : ''
  return { answered, filled: filled.length, complete, last, words, again }
}

function sayChanged(rows: Rig['rows']): string {
  const names = rows.map(({ seat, name }) => name || seat)
  const more = names.length > 2 ? ` and ${names.length - 2} more` : ''
  return names.length ? `Gear has changed since they answered: ${names.slice(0, 2).join(', ')}${more}.` : ''
}
