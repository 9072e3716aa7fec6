// Counts deadlines by day, month, kind or holder; it must never lose one between two groups.
import { capital } from '../decide/decision.ts'
import { KINDS, wordOf } from '../kinds.ts'
import { addDuration, firstDay, sayDate, type LocalDate, type Month } from '../time.ts'
import type { Deadline, Forecast } from './deadlines.ts'

export const GROUPINGS = ['day', 'month', 'kind', 'member'] as const
export type Grouping = (typeof GROUPINGS)[number]

export interface Group {
  key: string
  /** `Mar 2027`, `Coat shell`, `A. Varga (M-104)` */
  label: string
  /** Limits that have fallen already; days and months ahead have none. */
  past: number
  /** Of those ahead, how many end a life. */
  replacements: number
  ahead: Deadline[]
}

const monthOf = (date: LocalDate): Month => date.slice(0, 7)
const sayMonth = (month: Month): string => sayDate(firstDay(month)).replace(/^1 /, '')

/** Every month from one day to another, with both its ends. */
export function monthsBetween(from: LocalDate, until: LocalDate): Month[] {
  const months: Month[] = []
  for (let day = firstDay(monthOf(from)); day <= until; day = addDuration(day, 'P1M')) {
    months.push(monthOf(day))
  }
  return months
}

export const RACK = 'rack'
export const sayHolder = ({ holder, holderName }: Pick<Deadline, 'holder' | 'holderName'>): string =>
  holder === null ? 'on the rack' : holderName ? `${holderName} (${holder})` : holder

/** The key of a deadline's group, and how the group is called. */
function keyOf(deadline: Deadline, by: Grouping): [key: string, label: string] {
  switch (by) {
    case 'day':
      return [deadline.on, sayDate(deadline.on)]
    case 'month':
      return [monthOf(deadline.on), sayMonth(monthOf(deadline.on))]
    case 'kind':
      return [deadline.kind, capital(wordOf(deadline.kind))]
    case 'member':
      return [deadline.holder ?? RACK, capital(sayHolder(deadline))]
  }
}

/** Months without a deadline are there too, and so is every kind that has any; days and holders only where there are some. */
export function groupsOf({ past, ahead, from, until }: Forecast, by: Grouping): Group[] {
  const groups = new Map<string, Group>()
  const groupOf = (key: string, label: string): Group => {
    const group = groups.get(key) ?? { key, label, past: 0, replacements: 0, ahead: [] }
    groups.set(key, group)
    return group
  }
  if (by === 'month') for (const month of monthsBetween(from, until)) groupOf(month, sayMonth(month))
  for (const deadline of ahead) {
    const group = groupOf(...keyOf(deadline, by))
    group.ahead.push(deadline)
    group.replacements += Number(deadline.need === 'replacement')
  }
  // Days and months that have gone by are not ahead; what fell on them is told apart.
  if (by === 'kind' || by === 'member') for (const each of past) groupOf(...keyOf(each, by)).past += 1
  return [...groups.values()].toSorted(orders[by])
}

const byKey = (a: Group, b: Group): number => a.key.localeCompare(b.key)
const orders: Record<Grouping, (a: Group, b: Group) => number> = {
  day: byKey,
  month: byKey,
  kind: (a, b) => KINDS.findIndex((kind) => kind === a.key) - KINDS.findIndex((kind) => kind === b.key),
  member: (a, b) => Number(a.key === RACK) - Number(b.key === RACK) || a.label.localeCompare(b.label),
}
