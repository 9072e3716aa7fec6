// The spares for one place as lines to choose from, each with what speaks for it, against it, and whom it leaves without.
import { capital, nameOf } from '../../domain/decide/decision.ts'
import { leftUncovered, othersFor } from '../../domain/fit/last-spare.ts'
import { rackAt, type Rack } from '../../domain/fit/rack.ts'
import { toBeRead } from '../../domain/fit/to-be-read.ts'
import type { Id } from '../../domain/gear.ts'
import { wordOf, type Kind } from '../../domain/kinds.ts'
import { policyOf } from '../../domain/policy/in-force.ts'
import { SIGNS } from '../../domain/signs.ts'
import { rankSpares, type Spare } from '../../domain/spares.ts'
import type { Element, State } from '../../domain/state.ts'
import { sayNames } from '../say.ts'
import { dateOf, type LocalDate } from '../../domain/time.ts'
import type { View } from '../view.ts'
import type { Option } from './action.ts'

type Others = ReturnType<typeof othersFor>
interface Known {
  on: LocalDate
  rack: Rack
  others: Map<string, Others>
  spares: Map<string, Spare[]>
  options: Map<string, Option[]>
  unread?: Element[]
}
const known = new WeakMap<State, Known>()

/** Worked out once for a state and a day, since no rule looks at the time of day: the same list is drawn at every key. */
function knownAt({ state, at }: View): Known {
  const today = dateOf(at)
  let kept = known.get(state)
  if (kept?.on !== today) {
    kept = {
      on: today,
      rack: rackAt(state, policyOf(state), at),
      others: new Map(),
      spares: new Map(),
      options: new Map(),
    }
    known.set(state, kept)
  }
  return kept
}

/** The cylinders on the rack that only have to be read. */
export function unreadSpares(view: View): Element[] {
  const known = knownAt(view)
  return (known.unread ??= toBeRead(known.rack))
}

function once<T>(known: Map<string, T>, key: string, make: () => T): T {
  const made = known.get(key) ?? make()
  known.set(key, made)
  return made
}

function othersAt(view: View, seat: Id, kind: Kind): Others {
  const { rack, others } = knownAt(view)
  return once(others, `${seat} ${kind}`, () => othersFor(rack, seat, kind))
}

/** What could take the place, best first. */
export const sparesAt = (view: View, seat: Id, kind: Kind): Spare[] =>
  once(knownAt(view).spares, `${seat} ${kind}`, () =>
    rankSpares(view.state, policyOf(view.state), view.at, seat, kind),
  )

export const spareOptions = (view: View, seat: Id, kind: Kind): Option[] =>
  once(knownAt(view).options, `${seat} ${kind}`, () =>
    sparesAt(view, seat, kind).map((spare) => spareOption(view, seat, spare)),
  )

/** `leaves no spare gloves for Bo Okoro`; empty while everybody else still has one. */
export function sayLast(view: View, seat: Id, kind: Kind, spare: Spare): string {
  const left = leftUncovered(othersAt(view, seat, kind), spare.elements)
  const names = left.map((each) => view.rows.find((row) => row.seat === each.seat)?.name ?? each.seat)
  return names.length ? `leaves no spare ${wordOf(kind)} for ${sayNames(names, 3)}` : ''
}

function spareOption(view: View, seat: Id, spare: Spare): Option {
  const [element] = spare.elements
  const last = spare.fits ? sayLast(view, seat, element.kind, spare) : ''
  const words = spare.fits ? [...(last ? [last] : []), ...spare.for] : [...spare.against, ...spare.for]
  const isDue = spare.fits && spare.state !== 'ready'
  // The reasons say whose they are only where that is another layer.
  const own = `${capital(nameOf(element))}: `
  return {
    value: element.id,
    label: `${spare.fits ? 'fits' : 'no'}${isDue ? `, ${SIGNS[spare.state].word}` : ''}: ${element.id}`,
    note: words.map((each) => each.replace(own, '').replace(/\.$/, '')).join('; '),
    tone: SIGNS[spare.state].tone,
  }
}
