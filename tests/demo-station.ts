// Makes the demonstration station in memory at a given moment, through the real decide and evolve; it must never mend what is refused.
import { readFileSync } from 'node:fs'
import { readDemo, type Demo } from '../src/demo.ts'
import { assessNow } from '../src/domain/assess.ts'
import { arrange } from '../src/domain/board.ts'
import type { Dated } from '../src/domain/commands.ts'
import { decide } from '../src/domain/decide.ts'
import type { Event } from '../src/domain/events.ts'
import { apply, fork } from '../src/domain/evolve.ts'
import { emptyState, type State } from '../src/domain/state.ts'
import { instantIn, type Instant } from '../src/domain/time.ts'

export const TEXT = readFileSync(new URL('../data/demo/station.jsonl', import.meta.url), 'utf8')
export interface Standing {
  demo: Demo
  state: State
  at: Instant
  refused: string[]
}

/** Gives one command to the books; the refusal comes back where there is one. */
export function give(state: State, command: Dated): string | undefined {
  const decision = decide(command, state)
  if ('refused' in decision) return `${JSON.stringify(command)}: ${decision.refused}`
  apply(state, { seq: state.seq + 1, at: command.at, by: command.by, ...decision.draft } as Event)
  return undefined
}

export function make(now: string, zone: string): Standing {
  const nowMs = Date.parse(now)
  const demo = readDemo(TEXT, nowMs, zone)
  const state = fork(emptyState())
  apply(state, { seq: 1, at: demo.madeAt, by: 'setup', type: 'station-made', data: demo.station })
  const refused = demo.commands.flatMap((command) => give(state, command) ?? [])
  return { demo, state, at: instantIn(nowMs, zone), refused }
}

const made = new Map<string, Standing>()
export function standing(now: string, zone: string): Standing {
  const key = `${now} ${zone}`
  const kept = made.get(key) ?? make(now, zone)
  made.set(key, kept)
  return kept
}
/** A quarter to eight on a November morning in New York. */
export const usual = () => standing('2026-11-25T12:45:00Z', 'America/New_York')
export const boardOf = ({ state, at }: Standing) => arrange(assessNow(state, at), state)
