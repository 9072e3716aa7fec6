// What comes due as the glass shows it: twelve months from this one on. It judges nothing and keeps what it worked out for the day.
import { forecast, type Deadline, type Forecast, type Subject } from '../domain/forecast/deadlines.ts'
import { policyOf } from '../domain/policy/in-force.ts'
import type { State } from '../domain/state.ts'
import { addDays, addDuration, dateOf, daysBetween, firstDay, type LocalDate } from '../domain/time.ts'
import type { View } from './view.ts'

export interface DeadlineEntry extends Subject {
  /** The word in the first column. */
  when: 'past' | 'ahead' | 'no day'
  deadline?: Deadline
}
interface Ahead {
  forecast: Forecast
  /** What is past first, then what comes, then what has no day. */
  entries: readonly DeadlineEntry[]
}

export const MONTHS_AHEAD = 12
const kept = new WeakMap<State, { on: LocalDate; ahead: Ahead }>()

export function deadlinesOf({ state, at }: Pick<View, 'state' | 'at'>): Ahead {
  const today = dateOf(at)
  const known = kept.get(state)
  if (known?.on === today) return known.ahead
  const end = addDays(addDuration(firstDay(today.slice(0, 7)), `P${MONTHS_AHEAD}M`), -1)
  const made = forecast(state, policyOf(state), at, daysBetween(today, end))
  const ahead: Ahead = {
    forecast: made,
    entries: [
      ...made.past.map((each): DeadlineEntry => ({ ...each, when: 'past', deadline: each })),
      ...made.ahead.map((each): DeadlineEntry => ({ ...each, when: 'ahead', deadline: each })),
      ...made.undated.map((each): DeadlineEntry => ({ ...each, when: 'no day' })),
    ],
  }
  kept.set(state, { on: today, ahead })
  return ahead
}
