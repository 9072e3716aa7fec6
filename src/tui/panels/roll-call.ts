// The roll call of one riding position: its gear in the order it is put on, the cylinder's reading, one key to answer.
import type { PlaceLine, Row } from '../../domain/board.ts'
import { capital } from '../../domain/decide/decision.ts'
import { EVERYWHERE, factsOf } from '../../domain/kinds.ts'
import { CALLS, changedSince, inCallOrder } from '../../domain/roll-call.ts'
import { rankOf, SIGNS } from '../../domain/signs.ts'
import { clockOf } from '../../domain/time.ts'
import { widthOf, wrap } from '../../exports/wrap.ts'
import { clip, fit } from '../cells.ts'
import { plainLine, type Line } from '../theme.ts'
import type { Ui } from '../ui-state.ts'
import { cylinderAt, readingFault, WHEN_COLD } from '../actions/pressure.ts'
import { sayPlace } from '../say.ts'
import { isCalled, isDoubted, needsReading, saysOnEnter } from '../update/roll-call.ts'
import type { View } from '../view.ts'
import { foot, footWithKeys, head, mark, rule, screen, spread, type Size } from './frame.ts'

/** Where the state or the label of an element begins. */
const KNOWN_FROM = 36
/** From here on there is room for what to look at beside what is known. */
const WIDE = 100
const LABEL = 29

export function rollCallScreen(view: View, ui: Ui, size: Size): Line[] {
  const { row, board, unicode } = view
  const { answered, filled, last } = board.rollCall
  const { columns } = size
  if (!row) return screen(head(view, size), [], foot(ui, size, 'Esc leaves', unicode), size)
  const title = rule(`Roll call: ${row.seat} ${row.position}`, columns, unicode)
  const called = ` ${sayCalled(view, ui, row)}`
  const count = `${answered} of ${filled} answered`
  const timed = `${count}${last ? `, last ${clockOf(last)}` : ''}`
  // What is to be done now is told whole; when the last one answered gives way.
  const progress = widthOf(called) + widthOf(timed) + 2 > columns ? count : timed
  const top = head(view, size)
  const bottom = footWithKeys(ui, size, keysFor(view, row, ui), unicode)
  const asked = [...reading(view, ui), ...onEach(columns)]
  const height = size.rows - 3 - top.length - bottom.length - asked.length
  const lines = placeLines(view, row, columns, height)
  const body: Line[] = [
    plainLine(title),
    [
      {
        text: spread(called, `${progress} `, columns, unicode),
        bold: true,
      },
    ],
    ...lines,
    ...(lines.length < height ? [[]] : []),
    ...asked,
  ]
  return screen(top, body, bottom, size)
}

function sayCalled(view: View, ui: Ui, row: Row): string {
  if (!isCalled(view, ui, row)) return `${row.name} has answered.`
  return `${row.name} is called${row.answered ? ' again' : ''}: look at each one.`
}

/** What is looked at on every element, whatever it is. */
const onEach = (columns: number): Line[] =>
  wrap(`On each of them: ${EVERYWHERE.join(', ')}.`, columns - 6).map((text) => plainLine(`   ${text}`))

/** The number of its call, before the first of what is called as one. */
function callOf(place: PlaceLine, before: PlaceLine | undefined): string {
  const at = CALLS.findIndex((call) => call.includes(place.kind))
  return before && CALLS[at]!.includes(before.kind) ? '   ' : ` ${at + 1} `
}

/** One line an element; what is wrong is told whole as far as there is room for more lines, the worst before the rest. */
function placeLines({ state, unicode }: View, row: Row, columns: number, height: number): Line[] {
  const changed = new Set(changedSince(state, row.seat).map((each) => each.id))
  const told = inCallOrder(row.places).map((each, index, places) => {
    const since = each.element !== null && changed.has(each.element) ? 'not called yet; ' : ''
    const words = `${since}${wordsFor(each, columns, unicode)}`
    const name = `${callOf(each, places[index - 1])}${fit(capital(each.word), 20, unicode)}${fit(each.element ?? '-', 12, unicode)}`
    return { state: each.state, name, words, parts: wrap(words, columns - KNOWN_FROM) }
  })
  let spare = height - told.length
  const linesOf = new Map<object, number>()
  for (const each of told.toSorted((a, b) => rankOf(a.state) - rankOf(b.state))) {
    const more = Math.min(each.parts.length - 1, Math.max(0, spare))
    spare -= more
    linesOf.set(each, more + 1)
  }
  return told.flatMap((each): Line[] => {
    const { tone } = SIGNS[each.state]
    const { name, parts } = each
    const last = linesOf.get(each)! - 1
    const shown = [...parts.slice(0, last), clip(parts.slice(last).join(' '), columns - KNOWN_FROM, unicode)]
    return shown.map((text, at) => [{ text: at === 0 ? name : ' '.repeat(KNOWN_FROM - 1) }, { text, tone }])
  })
}

/** What is wrong; of what is not, its label, and where there is room what to look at. */
function wordsFor(each: PlaceLine, columns: number, unicode: boolean): string {
  if (each.state !== 'ready') return `${mark(each.state, unicode)} ${sayPlace(each)}`
  if (columns < WIDE) return each.label
  const points = factsOf(each.kind).points.join(', ')
  return `${fit(each.label, LABEL, unicode)} ${clip(points, columns - KNOWN_FROM - LABEL - 2, unicode)}`
}

function keysFor(view: View, row: Row, ui: Ui): string {
  const called = isCalled(view, ui, row)
  if (ui.gauge)
    return `Enter ${isDoubted(ui) ? 'records it all the same' : called ? saysOnEnter(row, ui) : 'records it'}  f finding  Esc takes the pressure away`
  if (needsReading(row)) return 'type the pressure, then Enter   f finding   up, down others   Esc leaves'
  const goesOn = view.rows.some((each) => isCalled(view, ui, each)) ? 'r next to answer' : 'a calls all again'
  const answers = called ? `Enter ${saysOnEnter(row, ui)}  f finding` : `${goesOn}  f adds a finding`
  return `${answers}  digits: psi  up, down others  Esc leaves`
}

/** What is to be read of the cylinder and how it is typed. */
function reading(view: View, ui: Ui): Line[] {
  const row = view.row!
  const id = cylinderAt(view)
  const cylinder = id ? view.state.elements.get(id) : undefined
  if (!cylinder) return [plainLine('   No cylinder here to read.', 'bad')]
  const fault = readingFault(view, cylinder.id)
  if (fault) return [plainLine(`   ${fault}`, 'bad')]
  const rated = cylinder.ratedPsi ? `rated ${cylinder.ratedPsi}` : 'rated pressure not known'
  const last = cylinder.readings.at(-1)
  const known = last && !needsReading(row) ? `read ${last.psi} psi` : 'to be read'
  return [
    [
      { text: `   Cylinder ${cylinder.id}, ${rated}, ${known}: `, bold: needsReading(row) },
      { text: ui.gauge || '____', inverse: true },
      { text: ui.gauge.includes(' ') ? '' : ' psi' },
    ],
    ...(ui.gauge ? [plainLine(`   ${capital(WHEN_COLD)}.`)] : []),
  ]
}
