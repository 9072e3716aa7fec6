// A journal in memory: what a session asks of a station's folder, without the folder; it must never keep anything.
import type { Event } from '../../src/domain/events.ts'
import type { Keeper } from '../../src/session.ts'

export function keptInMemory(state: Keeper['kept'] & object, stopped?: string): Keeper {
  const head = { seq: state.seq, hash: '0'.repeat(64) }
  return {
    head,
    stopped,
    kept: state,
    alone: (work) => {
      const append = (event: object) => {
        head.seq += 1
        return { event: { ...event, seq: head.seq } as Event }
      }
      return Promise.resolve({ value: work({ append, recover: () => undefined }) })
    },
    catchUp: () => undefined,
    keep: () => Promise.resolve(),
    close: () => {},
  }
}
