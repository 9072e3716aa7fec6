// Deadlines ahead: a plot by month that reads without colour, the list beneath, and the one in hand in full. It records nothing.
import { capital } from '../../domain/decide/decision.ts'
import { groupsOf, sayHolder, type Group } from '../../domain/forecast/groups.ts'
import { plain } from '../../domain/kinds.ts'
import { sayDate } from '../../domain/time.ts'
import { sayElement } from '../../exports/forecast/forecast-shape.ts'
import { wrap } from '../../exports/wrap.ts'
import { clip, cutTo, fit, windowStart } from '../cells.ts'
import { deadlinesOf, MONTHS_AHEAD, type DeadlineEntry } from '../deadlines.ts'
import { plainLine, type Line } from '../theme.ts'
import type { Ui } from '../ui-state.ts'
import type { View } from '../view.ts'
import { bodyHeight, foot, head, rule, screen, type Size } from './frame.ts'

const KEYS = 'up, down, PgUp, PgDn move   Enter shows its card   Esc goes back'
const FILL = { unicode: { life: '█', other: '▒' }, ascii: { life: '#', other: '=' } }
const LEAST_BARS = 4
/** Beyond this a column says no more, and the list has the room. */
const MOST_BARS = 12
const WIDEST = 10
const DETAIL = 3

export function deadlinesScreen(view: View, ui: Ui, size: Size): Line[] {
  const { unicode } = view
  const { forecast, entries } = deadlinesOf(view)
  const { past, ahead, undated } = forecast
  const room = bodyHeight(view, size)
  // Counts, month and year stand round the bars.
  const bars = Math.min(MOST_BARS, Math.max(LEAST_BARS, Math.floor(room / 4)))
  const counts = `${past.length} past, ${ahead.length} in ${MONTHS_AHEAD} months`
  const unknown = undated.length ? `, ${undated.length} without a day` : ''
  const at = Math.min(ui.deadline, Math.max(0, entries.length - 1))
  const plot = [
    plainLine(rule(`Deadlines ahead: ${counts}${unknown}`, size.columns, unicode)),
    ...plotLines(groupsOf(forecast, 'month'), bars, size.columns, unicode),
  ]
  const fill = FILL[unicode ? 'unicode' : 'ascii']
  const legend = `${fill.life} end of life   ${fill.other} care or fit test`
  const rows = room - plot.length - DETAIL - 2
  return screen(
    head(view, size),
    [
      ...plot,
      plainLine(rule(`What is past first, then by day   ${legend}`, size.columns, unicode)),
      ...listLines(entries, at, rows, size.columns, unicode),
      ...detailLines(entries[at], size.columns, unicode),
    ],
    foot(ui, size, KEYS, unicode),
    size,
  )
}

/** A column a month: its count on its bar, with the ends of life at the bottom, its name. */
function plotLines(months: readonly Group[], height: number, columns: number, unicode: boolean): Line[] {
  const width = Math.min(WIDEST, Math.floor((columns - 1) / MONTHS_AHEAD))
  const most = Math.max(1, ...months.map((each) => each.ahead.length))
  const fill = FILL[unicode ? 'unicode' : 'ascii']
  // What there is of anything is never drawn as nothing.
  const cells = (count: number): number =>
    count === 0 ? 0 : Math.max(1, Math.round((count / most) * height))
  const across = (cell: (month: Group) => string): string =>
    ` ${months.map((each) => fit(cell(each), width, unicode)).join('')}`.trimEnd()
  const row = (level: number) => (month: Group) => {
    const all = cells(month.ahead.length)
    if (level === all) return String(month.ahead.length)
    if (level > all) return ''
    const isMixed = month.replacements > 0 && month.replacements < month.ahead.length
    // A bar too short for both shows both side by side: one end of life must not colour a whole month.
    if (isMixed && all === 1) return fill.life + fill.other.repeat(width - 3)
    const life = isMixed ? Math.min(cells(month.replacements), all - 1) : cells(month.replacements)
    return (level < life ? fill.life : fill.other).repeat(width - 2)
  }
  const year = ({ key }: Group): string =>
    key === months[0]?.key || key.endsWith('-01') ? key.slice(0, 4) : ''
  return [
    ...Array.from({ length: height + 1 }, (_, index) => across(row(height - index))),
    across((each) => each.label.slice(0, 3)),
    across(year),
  ].map((text) => plainLine(text))
}

const sayNeed = ({ need }: DeadlineEntry): string => (need === 'replacement' ? 'end of life' : plain(need))

function listLines(
  entries: readonly DeadlineEntry[],
  at: number,
  rows: number,
  columns: number,
  unicode: boolean,
): Line[] {
  if (!entries.length) return [plainLine(' Nothing comes due in this time.')]
  const start = windowStart(at, entries.length, rows)
  const shown = entries.slice(start, start + rows).map((entry, index): Line => {
    const isInHand = start + index === at
    const when = entry.deadline ? sayDate(entry.deadline.on) : ''
    const word = entry.when === 'ahead' ? '' : entry.when
    const words = `${sayElement(entry)}, ${sayHolder(entry)}: ${sayNeed(entry)}`
    const text = `${word.padEnd(6)} ${when.padStart(11)}  ${words}`
    const tone = entry.when === 'past' ? 'bad' : entry.when === 'no day' ? 'warn' : undefined
    return [
      { text: isInHand ? '> ' : '  ', bold: true },
      { text: clip(text, columns - 2, unicode), tone, bold: isInHand },
    ]
  })
  return [...shown, ...Array.from({ length: Math.max(0, rows - shown.length) }, (): Line => [])]
}

function detailLines(entry: DeadlineEntry | undefined, columns: number, unicode: boolean): Line[] {
  if (!entry) return []
  const looser = entry.looser ? ', by a looser rule' : ''
  const says = `${capital(entry.says)} (${entry.matter}${looser}).`
  return [
    plainLine(rule('in hand', columns, unicode)),
    ...cutTo(wrap(says, columns - 4), DETAIL, columns - 4, unicode).map((text) => plainLine(`  ${text}`)),
  ]
}
