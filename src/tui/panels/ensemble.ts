// The ensemble of the riding position in hand: every reason in words, then what is ready; or a table where there is room.
import { COVER_WORDS } from '../../domain/gear.ts'
import { factsOf, wordOf, type Kind } from '../../domain/kinds.ts'
import type { ReasonLine, Row } from '../../domain/board.ts'
import { capital } from '../../domain/decide/decision.ts'
import { SIGNS } from '../../domain/signs.ts'
import { clockOf } from '../../domain/time.ts'
import { wrap } from '../../exports/wrap.ts'
import { clip, fit } from '../cells.ts'
import { sayNames, sayPlace, sayReason } from '../say.ts'
import { plainLine, type Line } from '../theme.ts'
import type { View } from '../view.ts'
import { mark, rule } from './frame.ts'

/** Twelve kinds and their heading. */
const TABLE_HEIGHT = 13
/** From here on a reason has room beside its element. */
const WIDE = 110

/** Is there room for a table whatever is wrong? */
export const hasTable = (height: number, width: number): boolean => height > TABLE_HEIGHT && width >= WIDE

export function ensemblePanel(view: View, kind: Kind | null, width: number, height: number): Line[] {
  const { row, unicode, state } = view
  if (!row) return []
  const answer = state.tour?.answers.get(row.seat)
  const since = row.changed ? ', gear changed since' : ''
  const answered = answer
    ? `, answered ${clockOf(answer.at)}${since}`
    : state.tour
      ? ', not answered yet'
      : ''
  const as = state.seats.get(row.seat)?.as
  const how = as ? `, ${COVER_WORDS[as]}` : ''
  const who = row.member ? `${row.name} (${row.member})${how}${answered}` : 'nobody'
  const title = plainLine(rule(`${row.seat} ${row.position}: ${who}`, width, unicode))
  // A reason that would be cut short in the table is told in words.
  const isRoomy =
    hasTable(height, width) || (height > TABLE_HEIGHT && !(row.reasons.length || row.loosened.length))
  if (isRoomy && row.places.length) return [title, ...table(row, kind, width, unicode)].slice(0, height)
  const column = kind ? columnLines(row, kind, width) : []
  return [title, ...column, ...inWords(row, width, height - 1 - column.length, unicode)].slice(0, height)
}

/** The column in hand: what its letter stands for, what is there and how it is. */
function columnLines(row: Row, kind: Kind, width: number): Line[] {
  const place = row.places.find((each) => each.kind === kind)
  const what = [`${wordOf(kind)} ${place?.element ?? ''}`.trim(), place?.label].filter(Boolean).join(', ')
  const how = place ? sayPlace(place) : 'none is needed here'
  return wrap(`Column ${factsOf(kind).mark}, ${what}: ${how}.`, width - 4).map((text, at) => [
    { text: `${at === 0 ? '>' : ' '} ${text}`, bold: true },
  ])
}

/** Reasons first and whole, worst first; then the rest named in one breath, as far as there is room. */
function inWords(row: Row, width: number, height: number, unicode: boolean): Line[] {
  if (!row.places.length) return [plainLine(` ${row.sentence} Press m to seat a member here.`)]
  const lines: Line[] = []
  for (const [index, reason] of row.reasons.entries()) {
    const whole = reasonLines(reason, width, unicode)
    const left = row.reasons.length - index
    if (lines.length + whole.length + (left > 1 ? 1 : 0) > height) {
      lines.push(plainLine(` and ${left} more; Enter shows each element`, 'warn'))
      return lines
    }
    lines.push(...whole)
  }
  for (const each of row.loosened) lines.push(...loosenedLines(each, width))
  return [...lines, ...readyLines(row, width, height - lines.length)].slice(0, height)
}

/** What is ready, by name; what there is no room to name is counted. */
function readyLines(row: Row, width: number, height: number): Line[] {
  const names = row.places
    .filter((each) => each.state === 'ready' && each.element)
    .map((each) => `${each.word} ${each.element}${each.standsIn ? ' (spare)' : ''}`)
  for (let count = names.length; count > 0; count -= 1) {
    const lines = wrap(`Ready: ${sayNames(names, count)}.`, width - 2)
    if (lines.length <= height) return lines.map((text) => plainLine(` ${text}`))
  }
  return []
}

/** What is better only by a rule of the department is never silent. */
const loosenedLines = (text: string, width: number): Line[] =>
  wrap(`Only by a looser rule: ${text}`, width - 4).map((part) => plainLine(`   ${part}`, 'warn'))

function reasonLines(reason: ReasonLine, width: number, unicode: boolean): Line[] {
  const { tone } = SIGNS[reason.state]
  const parts = wrap(sayReason(reason), width - 4)
  return parts.map((part, at) => [{ text: ` ${at === 0 ? mark(reason.state, unicode) : ' '} ${part}`, tone }])
}

function table(row: Row, kind: Kind | null, width: number, unicode: boolean): Line[] {
  return row.places.map((each): Line => {
    const sign = SIGNS[each.state]
    const label = `${each.element ?? ''}${each.standsIn ? ' spare' : ''}`
    const known = fit(each.label, 29, unicode)
    const text = `${fit(factsOf(each.kind).mark, 2)}${fit(capital(each.word), 19, unicode)}${fit(label, 14, unicode)}${known}`
    const state = `${mark(each.state, unicode)} ${sayPlace(each)}`
    const isInHand = each.kind === kind
    return [
      { text: `${isInHand ? '>' : ' '}${text}`, bold: isInHand },
      { text: clip(state, width - 65, unicode), tone: sign.tone, bold: sign.tone === 'bad' },
    ]
  })
}
