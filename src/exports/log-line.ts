// One line of a readiness log, as paper and rows both show it; it must never hold anything the log itself does not.
import type { Matter } from '../domain/gear.ts'
import type { Kind } from '../domain/kinds.ts'
import type { Shown } from '../domain/signs.ts'

export interface LogLine {
  section: string
  words: string
  /** How far it stands in, on paper: 0 is a line of its own, 1 and 2 belong to the line above. */
  level: 0 | 1 | 2
  /** Said on paper only, or in rows only, because the other says the same in another way. */
  only?: 'paper' | 'rows'
  seq?: number
  at?: string
  by?: string
  byName?: string
  rig?: string
  seat?: string | null
  position?: string
  member?: string | null
  element?: string | null
  kind?: Kind | null
  state?: Shown
  matter?: Matter
  rule?: string
  on?: string | null
}

/** Lines under one heading. */
export interface Block {
  heading: string
  lines: LogLine[]
}
