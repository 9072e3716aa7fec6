// The ensemble of the riding position in hand: every reason in words, then what is ready; or a table where there is room.
import { factsOf } from '../../domain/kinds.ts'
import type { ReasonLine, Row } from '../../domain/board.ts'
import { capital } from '../../domain/decide/decision.ts'
import { SIGNS } from '../../domain/signs.ts'
import { clockOf } from '../../domain/time.ts'
import { clip, fit, wrap } from '../cells.ts'
import { plainLine, type Line } from '../theme.ts'
import type { View } from '../view.ts'
import { mark, rule } from './frame.ts'

/** Twelve kinds, their heading, and two lines for reasons that belong to no single element. */
const TABLE_HEIGHT = 13

export function ensemblePanel(view: View, width: number, height: number): Line[] {
  const { row, unicode, state } = view
  if (!row) return []
  const answer = state.tour?.answers.get(row.seat)
  const answered = answer ? `, answered ${clockOf(answer.at)}` : state.tour ? ', not answered yet' : ''
  const who = row.member ? `${row.name} (${row.member})${answered}` : 'nobody'
  const title = plainLine(rule(`${row.seat} ${row.position}: ${who}`, width, unicode))
  const body = height > TABLE_HEIGHT ? table(row, width, unicode) : inWords(row, width, height - 1, unicode)
  return [title, ...body].slice(0, height)
}

/** Reasons first and whole, worst first; then the rest named in one breath, as far as there is room. */
function inWords(row: Row, width: number, height: number, unicode: boolean): Line[] {
  if (!row.places.length) return [plainLine(` ${row.sentence} Press m to seat a member here.`)]
  const ready = row.places.filter((each) => each.state === 'ready' && each.element)
  const names = ready
    .map((each) => `${each.word} ${each.element}${each.standsIn ? ' (spare)' : ''}`)
    .join(', ')
  const rest = ready.length ? wrap(`Ready: ${names}.`, width - 2).map((text) => plainLine(` ${text}`)) : []
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
  return [...lines, ...rest].slice(0, height)
}

function reasonLines(reason: ReasonLine, width: number, unicode: boolean): Line[] {
  const { word, tone } = SIGNS[reason.state]
  const looser = reason.looser ? ', by a looser rule' : ''
  const text = `${word}: ${reason.text} (${reason.matter}${looser})`
  const parts = wrap(text, width - 4)
  return parts.map((part, at) => [{ text: ` ${at === 0 ? mark(reason.state, unicode) : ' '} ${part}`, tone }])
}

function table(row: Row, width: number, unicode: boolean): Line[] {
  if (!row.places.length) return inWords(row, width, TABLE_HEIGHT, unicode)
  return row.places.map((each): Line => {
    const sign = SIGNS[each.state]
    const label = `${each.element ?? ''}${each.standsIn ? ' spare' : ''}`
    const known = fit(each.label, 26, unicode)
    const text = `${fit(factsOf(each.kind).mark, 2)}${fit(capital(each.word), 20, unicode)}${fit(label, 14, unicode)}${known}`
    const state = `${mark(each.state, unicode)} ${sign.word}${each.text ? `: ${each.text}` : ''}`
    return [
      { text: ` ${text}` },
      { text: clip(state, width - 63, unicode), tone: sign.tone, bold: sign.tone === 'bad' },
    ]
  })
}
