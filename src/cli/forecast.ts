// `bayboard forecast`: what comes due or ends its life, and when; it must never change the station.
import { readFileSync } from 'node:fs'
import { assessNow } from '../domain/assess.ts'
import { arrange } from '../domain/board.ts'
import { sayShapeError } from '../domain/shape-error.ts'
import { pricesShape, type Prices } from '../domain/forecast/budget.ts'
import { forecast as forecastOf } from '../domain/forecast/deadlines.ts'
import { GROUPINGS, type Grouping } from '../domain/forecast/groups.ts'
import { policyOf } from '../domain/policy/in-force.ts'
import { forecastCalendar } from '../exports/forecast/forecast-calendar.ts'
import { budgetCsv, forecastCsv } from '../exports/forecast/forecast-csv.ts'
import { reportOf, type ForecastReport } from '../exports/forecast/forecast-shape.ts'
import { forecastText } from '../exports/forecast/forecast-text.ts'
import type { Session } from '../session.ts'
import { whyOf } from '../store/trouble.ts'
import { hasUnicode } from '../tui/terminal/abilities.ts'
import { withStation } from './opened.ts'
import { complain, type ExitStatus, type World } from './world.ts'
import { putOut, type OutOptions } from './write-file.ts'

const FORECAST_FORMATS = ['text', 'csv', 'json', 'ics'] as const
type Format = (typeof FORECAST_FORMATS)[number]
const FORECAST_BY = [...GROUPINGS, 'year'] as const
type By = Grouping | 'year'

interface ForecastOptions extends OutOptions {
  station?: string
  days?: string
  by: string
  format: string
  prices?: string
}

/** A year of work, or as many years of money as gear lasts. */
const DAYS_AHEAD = { year: 3_653, other: 365 }
const MOST_DAYS = 36_525

export async function forecast(world: World, options: ForecastOptions): Promise<ExitStatus> {
  const asked = readOptions(options)
  if (typeof asked === 'string') return complain(world, asked, 2)
  const prices = options.prices === undefined ? undefined : readPrices(options.prices)
  if (prices && 'sentence' in prices) return complain(world, prices.sentence, prices.status)
  return withStation(world, options.station, async (session) => {
    const { by, format, days } = asked
    const report = reportIn(session, days, by === 'year' ? 'month' : by, prices)
    return putOut(world, await write(report, session, by, format, hasUnicode(world.env)), options)
  })
}

function readOptions(options: ForecastOptions): { by: By; format: Format; days: number } | string {
  const by = FORECAST_BY.find((each) => each === options.by)
  if (!by) return `The forecast is not grouped by ${options.by}. Choose one of: ${FORECAST_BY.join(', ')}.`
  const format = FORECAST_FORMATS.find((each) => each === options.format)
  if (!format) {
    return `The forecast is not made as ${options.format}. Choose one of: ${FORECAST_FORMATS.join(', ')}.`
  }
  const days = options.days ?? String(by === 'year' ? DAYS_AHEAD.year : DAYS_AHEAD.other)
  if (!/^\d{1,5}$/.test(days) || Number(days) > MOST_DAYS) {
    return `--days ${days} is not a number of days from 0 to ${MOST_DAYS}.`
  }
  return { by, format, days: Number(days) }
}

function readPrices(path: string): Prices | { sentence: string; status: 1 | 3 } {
  const example = '{"currency":"USD","prices":{"coat-shell":1500}}'
  let text: string
  try {
    text = readFileSync(path, 'utf8')
  } catch (error) {
    return { sentence: `${path} cannot be read: ${whyOf(error)}. Nothing was made.`, status: 3 }
  }
  try {
    const parsed = pricesShape.safeParse(JSON.parse(text))
    if (parsed.success) return parsed.data
    const sentence = `${path} is not a price list: ${sayShapeError(parsed.error)} It is written as ${example}.`
    return { sentence, status: 1 }
  } catch {
    return { sentence: `${path} is not JSON. A price list is written as ${example}.`, status: 1 }
  }
}

function reportIn(session: Session, days: number, by: Grouping, prices?: Prices): ForecastReport {
  const { state } = session
  const at = session.now()
  const { name, timeZone, invented = false } = state.station!
  const { policy } = arrange(assessNow(state, at), state)
  return reportOf(
    forecastOf(state, policyOf(state), at, days),
    { name, timeZone, invented },
    policy,
    by,
    prices,
  )
}

async function write(report: ForecastReport, session: Session, by: By, format: Format, unicode: boolean) {
  switch (format) {
    case 'text':
      return forecastText(report, by, unicode)
    case 'csv':
      return by === 'year' ? budgetCsv(report) : forecastCsv(report)
    case 'json':
      return `${JSON.stringify(report, null, 2)}\n`
    case 'ics': {
      const { calendarFile } = await import('../exports/calendar.ts')
      return calendarFile(forecastCalendar(report, session.state.station!.madeAt, session.state.seq))
    }
  }
}
