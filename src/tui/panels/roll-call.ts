// The roll call of one riding position: each element as it is called, the cylinder's reading, one key to answer.
import type { Row } from '../../domain/board.ts'
import { capital } from '../../domain/decide/decision.ts'
import { SIGNS } from '../../domain/signs.ts'
import { clip, fit, wrap } from '../cells.ts'
import { plainLine, type Line } from '../theme.ts'
import type { Ui } from '../ui-state.ts'
import { cylinderAt, readingFault } from '../actions/pressure.ts'
import { sayPlace } from '../say.ts'
import { needsReading, saysOnEnter } from '../update/roll-call.ts'
import type { View } from '../view.ts'
import { bodyHeight, foot, head, mark, rule, screen, spread, type Size } from './frame.ts'

/** Where the state or the label of an element begins. */
const KNOWN_FROM = 36

export function rollCallScreen(view: View, ui: Ui, size: Size): Line[] {
  const { row, board, unicode } = view
  const { answered, filled } = board.rollCall
  const { columns } = size
  if (!row) return screen(head(view, size), [], foot(ui, size, 'Esc leaves', unicode), size)
  const title = rule(`Roll call: ${row.seat} ${row.position}`, columns, unicode)
  const said = row.answered ? 'has answered' : 'is called: look at each one'
  const body: Line[] = [
    plainLine(title),
    [
      {
        text: spread(` ${row.name} ${said}.`, `${answered} of ${filled} answered `, columns, unicode),
        bold: true,
      },
    ],
    ...placeLines(row, columns, bodyHeight(view, size) - 4, unicode),
    [],
    reading(view, ui),
  ]
  return screen(head(view, size), body, foot(ui, size, keysFor(row, ui), unicode), size)
}

/** One line an element; what is wrong is told whole as far as there is room for more lines. */
function placeLines(row: Row, columns: number, height: number, unicode: boolean): Line[] {
  let spare = height - row.places.length
  return row.places.flatMap((each): Line[] => {
    const { tone } = SIGNS[each.state]
    const isReady = each.state === 'ready'
    const words = isReady ? each.label : `${mark(each.state, unicode)} ${sayPlace(each)}`
    const parts = wrap(words, columns - KNOWN_FROM)
    const isWhole = parts.length - 1 <= spare
    if (isWhole) spare -= parts.length - 1
    const shown = isWhole ? parts : [clip(words, columns - KNOWN_FROM, unicode)]
    const name = `   ${fit(capital(each.word), 20, unicode)}${fit(each.element ?? '-', 12, unicode)}`
    return shown.map((text, at) => [{ text: at === 0 ? name : ' '.repeat(KNOWN_FROM - 1) }, { text, tone }])
  })
}

function keysFor(row: Row, ui: Ui): string {
  if (needsReading(row) && !ui.text)
    return 'type the pressure, then Enter   f finding   up, down others   Esc leaves'
  const answers = row.answered ? 'f adds a finding' : `Enter ${saysOnEnter(row)}  f finding`
  return `${answers}  digits: psi  up, down others  Esc leaves`
}

function reading(view: View, ui: Ui): Line {
  const row = view.row!
  const id = cylinderAt(view)
  const cylinder = id ? view.state.elements.get(id) : undefined
  if (!cylinder) return plainLine('   No cylinder here to read.', 'bad')
  const fault = readingFault(view, cylinder.id)
  if (fault) return plainLine(`   ${fault}`, 'bad')
  const rated = cylinder.ratedPsi ? `rated ${cylinder.ratedPsi}` : 'rated pressure not known'
  const place = row.places.find((each) => each.kind === 'cylinder')
  const last = cylinder.readings.at(-1)
  const known = place?.state === 'ready' && last ? `read ${last.psi} psi` : 'to be read'
  return [
    { text: `   Cylinder ${cylinder.id}, ${rated}, ${known}: `, bold: needsReading(row) },
    { text: ui.text || '____', inverse: true },
    { text: ' psi' },
  ]
}
