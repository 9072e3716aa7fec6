// What each goal of a plan came to, in words with its proof; it must never call proven what is not.
import { count } from '../count.ts'
import { MORE_IS_BETTER } from './check.ts'
import type { Goal, PlanModel, Stage } from './model.ts'

export interface SaidGoal {
  goal: Goal
  value: number
  /** The best that could still be there; null when nothing is known. */
  bound: number | null
  isProven: boolean
  words: string
}

const WORDS: Readonly<Record<Exclude<Goal, 'order'>, (value: number, model: PlanModel) => string>> = {
  rigs: (value, { rigs }) =>
    `${count(value, 'more rig')} can ride, of ${rigs.length} that the rack could help`,
  critical: (value) => `${count(value, 'critical position')} made fit`,
  seats: (value, { seats }) =>
    `${count(value, 'riding position')} made fit, of ${seats.length} that spares could mend`,
  inexact: (value) => `${count(value, 'fit')} larger than measured`,
  swaps: (value) => `${count(value, 'piece')} swapped`,
  days: (value) => `${count(value, 'day')} in date in all, each spare counted up to a year`,
  rarity: (value) =>
    `rare sizes taken: ${value} (each spare counts from 0, common, to 19, the last of its size)`,
}

export const sayGoals = (model: PlanModel, stages: readonly Stage[]): SaidGoal[] =>
  stages.map(({ goal, value, bound, isProven }) => {
    const most = Number.isFinite(bound) ? bound : null
    if (goal === 'order') {
      const words = 'of equals, the rigs and riding positions that stand first in the station'
      return { goal, value, bound: most, isProven, words: isProven ? words : `${words}; not proven` }
    }
    const said = WORDS[goal](value, model)
    const gap =
      most === null ? 'not compared' : `at ${MORE_IS_BETTER.has(goal) ? 'most' : 'least'} ${most} is possible`
    return { goal, value, bound: most, isProven, words: isProven ? said : `${said}; not proven, ${gap}` }
  })
