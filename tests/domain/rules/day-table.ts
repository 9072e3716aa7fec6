// Makes the lines of a rule that counts days; it must never work out an outcome.
import type { Care, Kind } from '../../../src/domain/kinds.ts'
import type { Element } from '../../../src/domain/state.ts'
import { cared, gear, verdictOf, type Case } from './judging.ts'

type Row = [
  side: Case['side'],
  title: string,
  facts: Partial<Element>,
  today: string,
  state: Case['state'],
  on?: string,
]
export const dayTable = (rule: string, kind: Kind, rows: Row[]): Case[] =>
  rows.map(([side, title, facts, today, state, on]) => ({
    rule,
    side,
    title,
    state,
    ...(on !== undefined && { on }),
    judge: () => verdictOf(rule, gear(kind, facts), { today }),
  }))

/** One care on one day, and no other. */
export const done = (care: Care, on: string): Partial<Element> => ({ cares: [cared(care, on)] })
