// The forecast as data; it must never hold money that no price list gave.
import * as z from 'zod'
import { capital } from '../../domain/decide/decision.ts'
import { budgetOf, type Prices } from '../../domain/forecast/budget.ts'
import type { Forecast, Subject } from '../../domain/forecast/deadlines.ts'
import { groupsOf, type Grouping } from '../../domain/forecast/groups.ts'
import { kindShape, matterShape } from '../../domain/gear.ts'
import { CARES, wordOf } from '../../domain/kinds.ts'
import type { Board } from '../../domain/board.ts'
import { CAUTIONS, INVENTED } from '../../domain/signs.ts'
import { cleanAll } from '../clean-out.ts'

const count = z.number().int().min(0)
const day = z.string().describe("A calendar date, YYYY-MM-DD, of the station's time zone.")
const subjectShape = z.strictObject({
  element: z
    .string()
    .nullable()
    .describe('For a fit test the facepiece that it is with; null where its member has none of their own.'),
  kind: kindShape,
  rule: z.string(),
  matter: matterShape,
  need: z
    .enum(['replacement', 'fit-test', ...CARES])
    .describe('What the limit asks for as it falls: another element, a fit test, or a care.'),
  holder: z.string().nullable().describe('A member, or a riding position; null on the rack.'),
  holderName: z.string(),
  where: z.enum(['rack', 'issued', 'rig', 'away', 'held', 'retired']).nullable(),
  says: z.string(),
  looser: z.boolean().describe('The department gives this rule more room than the published base.'),
})
const deadlineShape = subjectShape.extend({
  on: day.describe('The day the limit falls.'),
  lastGood: day.describe('The last day on which it may still be worn.'),
})

export const forecastShape = z.strictObject({
  forecast: z.literal('deadlines').describe('What this file is.'),
  format: z.literal(1),
  at: z.string().describe('An instant with its offset, in the time zone of the station.'),
  station: z.strictObject({ name: z.string(), timeZone: z.string(), invented: z.boolean() }),
  /** The mark of a demonstration. */
  mark: z.string().nullable(),
  from: day,
  until: day.describe('The last day looked at.'),
  past: z.array(deadlineShape).describe('Limits that have fallen already, the oldest first.'),
  ahead: z.array(deadlineShape).describe('Limits that fall up to the last day, the nearest first.'),
  undated: z.array(subjectShape).describe('What has no day, because something is not known of it.'),
  beyond: count.describe('How many limits fall later.'),
  groups: z.array(
    z.strictObject({ key: z.string(), label: z.string(), past: count, ahead: count, replacements: count }),
  ),
  budget: z.strictObject({
    currency: z.string().optional(),
    years: z.array(
      z.strictObject({
        year: z.string().describe('A year, or "past" for what should have been replaced already.'),
        lines: z.array(z.strictObject({ kind: kindShape, count, cost: z.number().optional() })),
        count,
        cost: z.number().optional(),
      }),
    ),
    count,
    cost: z.number().optional().describe('Of the kinds that have a price in the list.'),
    unpriced: z.array(kindShape),
    undated: count.describe('Elements whose end of life cannot be told, so they are in no year.'),
  }),
  policy: z.strictObject({
    name: z.string(),
    overlay: z.string().nullable(),
    provisional: z.string().nullable(),
    looser: z.array(z.string()),
  }),
  cautions: z.array(z.string()),
})
export type ForecastReport = z.infer<typeof forecastShape>

/** @param by a year gives the same counts as a month: its money stands in the budget */
export function reportOf(
  forecast: Forecast,
  station: { name: string; timeZone: string; invented: boolean },
  { name, overlay, provisional, looser }: Board['policy'],
  by: Grouping,
  prices?: Prices,
): ForecastReport {
  const { at, from, until, past, ahead, undated, beyond } = forecast
  return cleanAll({
    forecast: 'deadlines',
    format: 1,
    at,
    station,
    mark: station.invented ? INVENTED : null,
    from,
    until,
    past,
    ahead,
    undated,
    beyond,
    groups: groupsOf(forecast, by).map((group) => ({ ...group, ahead: group.ahead.length })),
    budget: budgetOf(forecast, prices),
    policy: { name, overlay, provisional, looser },
    cautions: [...CAUTIONS],
  })
}

/** `Coat shell C-1041`; `Facepiece (none issued)` for a fit test without one. */
export const sayElement = ({ kind, element }: Pick<Subject, 'kind' | 'element'>): string =>
  `${capital(wordOf(kind))} ${element ?? '(none issued)'}`
