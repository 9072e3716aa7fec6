// Every line of every rule's table, in one list; a rule of the base policy without its lines fails the tests.
import { BREATHING_CASES } from './breathing-cases.ts'
import { COMPOSITION_CASES } from './composition-cases.ts'
import { CONDITION_CASES } from './condition-cases.ts'
import { FIT_TEST_CASES } from './fit-test-cases.ts'
import { HYDROSTATIC_CASES } from './hydrostatic-cases.ts'
import { INTERVAL_CASES } from './interval-cases.ts'
import type { Case } from './judging.ts'
import { LIFE_CASES } from './life-cases.ts'
import { PRESSURE_CASES } from './pressure-cases.ts'
import { SIZE_CASES } from './size-cases.ts'

export const CASES: readonly Case[] = [
  ...LIFE_CASES,
  ...INTERVAL_CASES,
  ...HYDROSTATIC_CASES,
  ...BREATHING_CASES,
  ...FIT_TEST_CASES,
  ...CONDITION_CASES,
  ...PRESSURE_CASES,
  ...COMPOSITION_CASES,
  ...SIZE_CASES,
]

/** What each case says, as text: the same in every time zone of the machine. */
export const sayCases = (): string =>
  CASES.map(({ rule, title, judge }) => `${rule} | ${title} | ${JSON.stringify(judge() ?? null)}`).join('\n')
