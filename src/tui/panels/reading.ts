// Screens that are read: the card of one element, member or record, and the help. They record nothing.
import { CAUTIONS, SIGNS, type Shown } from '../../domain/signs.ts'
import { KINDS, factsOf } from '../../domain/kinds.ts'
import { keepLast } from '../keep-last.ts'
import { ACTION_GROUPS, EVERYWHERE, LOG_ACTIONS, LOOKING, PLAN_ACTIONS, WITHOUT_KEY } from '../keymap.ts'
import { capital } from '../../domain/decide/decision.ts'
import { wrap } from '../../exports/wrap.ts'
import { fit } from '../cells.ts'
import { sayPlace, sayReason } from '../say.ts'
import { plainLine, type Line } from '../theme.ts'
import type { Ui } from '../ui-state.ts'
import type { View } from '../view.ts'
import { bodyHeight, foot, head, mark, rule, screen, type Size } from './frame.ts'
import { ANSWERED, CHANGED } from './seat-list.ts'

const KEYS = 'up, down, PgUp, PgDn move   Tab next part   Esc goes back'

/** A heading of keys or names in its own column, two spaces before what is said of it. */
const COLUMN = /^ *\S.{0,12}? {2,}(?=\S)/

/** What follows a column stays in its column; other long lines are indented where they go on. */
const wrapped = (lines: readonly string[], { columns }: Size): string[] =>
  lines.flatMap((line) => {
    const column = COLUMN.exec(line)?.[0] ?? /^ */.exec(line)![0]
    const hang = COLUMN.test(line) ? column.length : column.length + 2
    const [first = '', ...rest] = wrap(line.slice(column.length), columns - 2 - hang)
    return [` ${column}${first}`, ...rest.map((part) => ` ${' '.repeat(hang)}${part}`)]
  })
const roomFor = (view: View, size: Size): number => bodyHeight(view, size) - 1
const keptPage = keepLast<string[]>()

/** The whole page at this width: a card may be of years. */
function pageLines(view: View, ui: Ui, size: Size): string[] {
  const card = ui.screen === 'card' ? ui.card : null
  return keptPage([card, view.board, view.unicode, size.columns], () =>
    wrapped(card ? [...ensembleLines(view, card.id), ...card.lines] : helpLines(view), size),
  )
}

/** Of a riding position everything that the board has no room for: every reason, then every element. */
function ensembleLines({ rows, unicode }: View, id: string): string[] {
  const row = rows.find((each) => each.seat === id)
  if (!row?.places.length) return []
  return [
    `${row.position} ${row.name} ${row.fit ? 'may ride.' : 'may not ride.'}`,
    ...row.reasons.map((each) => `  ${mark(each.state, unicode)} ${sayReason(each)}`),
    ...row.loosened.map((each) => `  Only by a looser rule: ${each}`),
    '',
    ...row.places.map(
      (each) =>
        `  ${fit(capital(each.word), 20, unicode)}${fit(each.element ?? '-', 12, unicode)} ${mark(each.state, unicode)} ${sayPlace(each)}`,
    ),
    '',
  ]
}

/** The first line of the last page of a card or the help. */
export const lastTop = (view: View, ui: Ui, size: Size): number =>
  Math.max(0, pageLines(view, ui, size).length - roomFor(view, size))

/** How far a page of reading goes on: a line of the last page stays in sight. */
export const pageOf = ({ rows }: Size): number => Math.max(1, rows - 6)

/** The line at which the next part of a card or the help begins, or the one before. */
export function partFrom(view: View, ui: Ui, size: Size, isBack: boolean): number {
  const lines = pageLines(view, ui, size)
  const last = lastTop(view, ui, size)
  const top = Math.min(ui.top, last)
  const starts = lines.flatMap((_, at) => (at === 0 || lines[at - 1]?.trim() === '' ? at : []))
  return isBack
    ? (starts.findLast((at) => at < top) ?? 0)
    : Math.min(last, starts.find((at) => at > top) ?? last)
}

/** Lines wrapped to the width and cut to the height, from `top` on. */
function scrolled(view: View, ui: Ui, size: Size, title: string): Line[] {
  const lines = pageLines(view, ui, size)
  const room = roomFor(view, size)
  const top = Math.min(ui.top, lastTop(view, ui, size))
  const last = Math.min(top + room, lines.length)
  const more = lines.length > room ? ` (lines ${top + 1} to ${last} of ${lines.length})` : ''
  const body = [
    plainLine(rule(`${title}${more}`, size.columns, view.unicode)),
    ...lines.slice(top, top + room).map((text) => plainLine(text)),
  ]
  return screen(head(view, size), body, foot(ui, size, KEYS, view.unicode), size)
}

export const cardScreen = (view: View, ui: Ui, size: Size): Line[] =>
  scrolled(view, ui, size, ui.card?.id ?? '')

export function helpScreen(view: View, ui: Ui, size: Size): Line[] {
  return scrolled(view, ui, size, 'All keys, the signs, the policy and the cautions')
}

const key = (keys: string, help: string): string => `  ${fit(keys, 12)} ${help}`

/** The keys as text, in the order of the table; the README is made from the same. */
export function keyLines(): string[] {
  return [
    'Looking',
    ...LOOKING.map((each) => key(each.key, each.help)),
    ...EVERYWHERE.map((each) => key(each.keys, each.help)),
    ...ACTION_GROUPS.flatMap((group) => [
      '',
      group.title,
      ...group.actions.map((each) => key(each.key, each.help)),
    ]),
    '',
    'In the log',
    ...LOG_ACTIONS.map((each) => key(each.key, each.help)),
    '',
    'On the plan',
    ...PLAN_ACTIONS.map((each) => key(each.key, each.help)),
  ]
}

function helpLines(view: View): string[] {
  const { policy } = view.board
  const signs = (Object.keys(SIGNS) as Shown[]).map(
    (shown) => `${mark(shown, view.unicode)} ${SIGNS[shown].word}`,
  )
  const heads = KINDS.map((kind) => `${factsOf(kind).mark} ${factsOf(kind).word}`)
  return [
    ...keyLines(),
    '',
    'Signs',
    `  ${signs.slice(0, 4).join('   ')}`,
    `  ${signs.slice(4).join('   ')}`,
    `  * a critical position: the rig cannot ride without it.   ${ANSWERED[view.unicode ? 'unicode' : 'ascii']} answered at roll call.`,
    `  ${CHANGED} answered, and gear has changed since: r calls it again.`,
    `  Columns: ${heads.join(', ')}.`,
    '',
    'Policy in force',
    `  ${policy.name}${policy.overlay ? `, with ${policy.overlay}` : ''}.`,
    ...(policy.provisional ? [`  Not confirmed: ${policy.provisional}`] : []),
    ...policy.looser.map((each) => `  Looser than the base: ${each}.`),
    '',
    'Cautions',
    ...CAUTIONS.map((each) => `  ${each}`),
    '',
    'Without a key',
    ...Object.entries(WITHOUT_KEY).map(([name, why]) => `  ${name}: ${why}`),
  ]
}
