// What the board needs from beyond the session; files are read and written by whoever runs it, never by the board.
import type { Event } from '../domain/events.ts'
import type { Id } from '../domain/gear.ts'
import type { LogFilter } from '../domain/log-filter.ts'
import type { Planning } from './planning.ts'
import type { Exported } from './said-after.ts'

export interface Desk {
  /** The newest events, newest first; of those that are wanted where there is a filter. */
  newest(count: number, filter?: LogFilter | null): Event[]
  /** All that is known of one id, as lines. */
  card(id: Id): string[]
  exportLog(format: string): Promise<Exported>
  /** The best use of the rack as the books stand now, worked out apart. */
  plan(): Planning
}
