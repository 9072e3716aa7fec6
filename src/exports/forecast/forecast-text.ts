// The forecast as text with a plot that reads without colour; it must never leave a deadline out.
import { groupsOf, sayHolder, type Grouping } from '../../domain/forecast/groups.ts'
import { wordOf } from '../../domain/kinds.ts'
import { sayDate } from '../../domain/time.ts'
import { widthOf, wrap } from '../wrap.ts'
import { sayElement, type ForecastReport } from './forecast-shape.ts'

const WIDTH = 78
type Entry = ForecastReport['undated'][0] & { on?: string }

/** Replacements stand first in a bar: they cost money, the others time. */
const FILL = { unicode: { replacement: '█', other: '▒' }, ascii: { replacement: '#', other: '=' } }

export function forecastText(report: ForecastReport, by: Grouping | 'year', unicode: boolean): string {
  const { past, ahead, undated, from, until, station, mark, policy, cautions } = report
  const sections =
    by === 'year'
      ? [
          part('To be replaced, by year', budgetLines(report, unicode)),
          part('Past already', past.filter(endsLife).flatMap(entryLines)),
          part('Ahead', ahead.filter(endsLife).flatMap(entryLines)),
          part('No end of life can be given', undated.filter(endsLife).flatMap(entryLines)),
        ]
      : [
          part('Past already', past.flatMap(entryLines)),
          part(`Ahead, by ${by}`, plotLines(report, by, unicode)),
          aheadLines(report, by),
          part('No day can be given', undated.flatMap(entryLines)),
        ]
  const rules = [
    `${policy.name}${policy.overlay ? `, with overlay "${policy.overlay}"` : ''}.`,
    ...(policy.provisional ? [`Provisional: ${policy.provisional}`] : []),
    ...policy.looser.map((each) => `Looser than the published base: ${each}.`),
    'Each limit is shown once: a care that is done starts its next one. Gear that is retired or held as evidence is left out.',
    ...cautions,
  ]
  const lines = [
    `Forecast for ${station.name}, ${sayDate(from)} to ${sayDate(until)}`,
    ...(mark === null ? [] : [mark]),
    ...wrap(sayCounts(report), WIDTH),
    ...sections.flat(),
    ...part(
      'Rules and cautions',
      rules.flatMap((each) => wrap(each, WIDTH, 2, 4)),
    ),
  ]
  return `${lines.join('\n')}\n`
}

const endsLife = (each: Entry): boolean => each.need === 'replacement'

const part = (heading: string, lines: readonly string[]): string[] =>
  lines.length ? ['', heading, '-'.repeat(heading.length), ...lines] : []

function sayCounts({ past, ahead, undated, beyond, from, until }: ForecastReport): string {
  const replaced = ahead.filter((each) => each.need === 'replacement').length
  const days = `${from} to ${until}`
  if (past.length + ahead.length + undated.length + beyond === 0)
    return 'Nothing comes due: there is nothing on the books with a limit.'
  return (
    `${past.length} past already. ${ahead.length} fall from ${days}, ${replaced} of them ends of life; ` +
    `${beyond} later. ${undated.length ? `${undated.length} have no day, because something is not known.` : 'Every one has its day.'}`
  )
}

const LOOSER = ' [by a looser rule]'

function entryLines(entry: Entry): string[] {
  const when = entry.on === undefined ? '' : `${entry.on}  `
  const where = entry.where === 'away' ? ', away' : ''
  const words = `${sayElement(entry)}, ${sayHolder(entry)}${where}: ${entry.says} (${entry.matter})${entry.looser ? LOOSER : ''}`
  return wrap(`${when}${words}`, WIDTH, 2, 2 + (when.length || 2))
}

/** The whole length of the plot is the largest group; one unit is drawn for every one that there is, where there is room. */
function bar(replacements: number, others: number, most: number, room: number, unicode: boolean): string {
  const fill = FILL[unicode ? 'unicode' : 'ascii']
  const per = Math.max(1, most / room)
  // A group that holds anything is never drawn as nothing.
  const length = (count: number): number => (count === 0 ? 0 : Math.max(1, Math.round(count / per)))
  return fill.replacement.repeat(length(replacements)) + fill.other.repeat(length(others))
}

const legend = (unicode: boolean): string => {
  const fill = FILL[unicode ? 'unicode' : 'ascii']
  return `  ${fill.replacement} end of life   ${fill.other} care or fit test`
}

function plotLines({ groups }: ForecastReport, by: Grouping, unicode: boolean): string[] {
  if (!groups.length) return ['  Nothing falls in this time.']
  const most = Math.max(...groups.map((each) => each.ahead))
  const label = Math.min(34, Math.max(...groups.map((each) => widthOf(each.label))))
  const room = WIDTH - label - 24
  const hasPast = by === 'kind' || by === 'member'
  const lines = groups.map(({ label: words, ahead, past, replacements }) => {
    const drawn = bar(replacements, ahead - replacements, most, room, unicode)
    const late = hasPast && past ? `  ${past} past` : ''
    const [first = '', ...rest] = wrap(words, label)
    const pad = ' '.repeat(Math.max(0, label - widthOf(first)))
    return [
      `  ${first}${pad}  ${String(ahead).padStart(4)} ${drawn}${late}`,
      ...rest.map((each) => `    ${each}`),
    ]
  })
  return [legend(unicode), ...lines.flat().map((each) => each.trimEnd())]
}

/** The deadlines themselves, under the group that each is in. */
function aheadLines(report: ForecastReport, by: Grouping): string[] {
  return groupsOf({ ...report, at: report.at }, by)
    .filter((group) => group.ahead.length)
    .flatMap((group) => part(group.label, group.ahead.flatMap(entryLines)))
}

/** A count is never parted from what it counts. */
const UNBROKEN = '\u00a0'

function budgetLines({ budget }: ForecastReport, unicode: boolean): string[] {
  const { years, count, cost, currency, unpriced, undated } = budget
  const most = Math.max(1, ...years.map((each) => each.count))
  const money = (sum: number | undefined): string =>
    sum === undefined
      ? ''
      : `  ${currency} ${sum.toLocaleString('en-US', { minimumFractionDigits: sum % 1 ? 2 : 0 })}`
  const lines = years.flatMap((each) => {
    const drawn = bar(each.count, 0, most, 30, unicode)
    const kinds = each.lines.map(
      (line) => `${wordOf(line.kind)}:${UNBROKEN}${line.count}${money(line.cost).replace('  ', ' at ')}`,
    )
    const head = `  ${each.year.padEnd(6)}${String(each.count).padStart(4)} ${drawn}${each.count ? money(each.cost) : ''}`
    return [
      head.trimEnd(),
      ...(kinds.length
        ? wrap(kinds.join('; '), WIDTH, 13, 13).map((line) => line.replaceAll(UNBROKEN, ' '))
        : []),
    ]
  })
  const notes = [
    `${count} in all${money(cost).replace('  ', ', ')}.`,
    ...(undated
      ? [`${undated} more have no known month of manufacture: no year can be given for them.`]
      : []),
    ...(unpriced.length ? [`No price is listed for: ${unpriced.map(wordOf).join(', ')}.`] : []),
  ]
  return [...lines, ...notes.flatMap((each) => wrap(each, WIDTH, 2, 4))]
}
