// The forecast as CSV, one row a deadline, and the budget, one row a year and kind; no cell may act as a formula where it is opened.
import { csvOf } from '../csv.ts'
import type { ForecastReport } from './forecast-shape.ts'

export const FORECAST_COLUMNS = [
  'when',
  'on',
  'last-good',
  'need',
  'element',
  'kind',
  'holder',
  'holder-name',
  'where',
  'rule',
  'matter',
  'looser',
  'words',
] as const
export const BUDGET_COLUMNS = ['year', 'kind', 'count', 'cost', 'currency'] as const

export function forecastCsv({ past, ahead, undated, mark }: ForecastReport): string {
  const row =
    (when: string) =>
    (each: ForecastReport['undated'][0] & { on?: string; lastGood?: string }): Record<string, unknown> => ({
      ...each,
      when,
      'last-good': each.lastGood,
      'holder-name': each.holderName,
      looser: each.looser ? 'yes' : '',
      words: each.says,
    })
  const marked = mark === null ? [] : [{ when: 'mark', words: mark }]
  return csvOf(FORECAST_COLUMNS, [
    ...marked,
    ...past.map(row('past')),
    ...ahead.map(row('ahead')),
    ...undated.map(row('undated')),
  ])
}

export function budgetCsv({ budget }: ForecastReport): string {
  const { years, currency, undated } = budget
  return csvOf(BUDGET_COLUMNS, [
    ...years.flatMap(({ year, lines }) =>
      lines.map(({ kind, count, cost }) => ({
        year,
        kind,
        count,
        cost,
        currency: cost === undefined ? '' : currency,
      })),
    ),
    ...(undated ? [{ year: 'undated', kind: '', count: undated }] : []),
  ])
}
