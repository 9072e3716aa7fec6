// What was found wrong in a tour and what was done about each; a finding with nothing done must say so, never vanish.
import { capital, nameOf } from '../domain/decide/decision.ts'
import type { Event } from '../domain/events.ts'
import { failed } from '../domain/evolve/gear.ts'
import type { Id, Matter } from '../domain/gear.ts'
import type { State } from '../domain/state.ts'
import type { LogEntry, LogFinding, Section } from './log-shape.ts'

/** Where the doing about a finding is recorded. */
const DOING: readonly Section[] = ['tags', 'swaps', 'care', 'custody']

interface Found {
  from: LogFinding['from']
  seat: Id | null
  member: Id | null
  element: Id
  point: string
  matter: Matter
}

function foundBy({ type, data }: Event): Found[] {
  if (type === 'seat-answered') {
    const { seat, member, findings } = data
    return findings.map((each) => ({ from: 'roll-call', seat, member, ...each }))
  }
  if (type === 'element-tagged') {
    const { element, reason, matter } = data
    return [{ from: 'tag', seat: null, member: null, element, point: reason, matter }]
  }
  const cares = type === 'care-recorded' ? [data] : type === 'batch-received' ? data.cares : []
  return cares
    .filter((each) => each.result === 'unserviceable')
    .map(({ element, care }) => {
      return { from: 'care', seat: null, member: null, element, point: failed(care), matter: 'safety' }
    })
}

export function findingsOf(
  events: readonly Event[],
  entries: readonly LogEntry[],
  state: State,
): LogFinding[] {
  return events.flatMap((event) =>
    foundBy(event).map(({ from, seat, member, element: id, point, matter }): LogFinding => {
      const { seq, at, by } = event
      const element = state.elements.get(id)
      const done = entries.filter(
        (each) =>
          each.seq > seq &&
          (each.amendment?.seq === seq ||
            (DOING.includes(each.section) && each.elements.some((one) => one.id === id))),
      )
      const name = element ? capital(nameOf(element)) : id
      return {
        seq,
        at,
        by,
        byName: state.members.get(by)?.name ?? '',
        from,
        seat,
        member,
        element: id,
        kind: element?.kind ?? null,
        point,
        matter,
        words: `${name}${seat ? ` at ${seat}` : ''}: ${point} (${matter}).`,
        done: done.map(({ seq, at, by, byName, words }) => ({ seq, at, by, byName, words })),
      }
    }),
  )
}
