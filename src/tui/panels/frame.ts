// The parts that every screen shares: the head, the standing line, the foot. It must never be taller than it says.
import { SIGNS, type Shown } from '../../domain/signs.ts'
import { clockOf, sayDate, dateOf } from '../../domain/time.ts'
import { widthOf, wrap } from '../../exports/wrap.ts'
import { clip, cutTo, fit } from '../cells.ts'
import type { Line } from '../theme.ts'
import type { Ui } from '../ui-state.ts'
import type { View } from '../view.ts'

export interface Size {
  columns: number
  rows: number
}

export const LEAST: Size = { columns: 80, rows: 24 }
/** Then the glass holds one sentence, and no key does anything that could not be seen. */
export const isTooSmall = ({ columns, rows }: Size): boolean => columns < LEAST.columns || rows < LEAST.rows

/** Left and right on one line; the left gives way. */
export function spread(left: string, right: string, width: number, unicode: boolean): string {
  const room = width - widthOf(right) - 1
  return room < 10 ? clip(left, width, unicode) : `${fit(left, room, unicode)} ${right}`
}

export const rule = (words: string, width: number, unicode: boolean): string => {
  const bar = unicode ? '─' : '-'
  const said = clip(words, width - 6, unicode)
  return `${bar}${bar} ${said} ${bar.repeat(Math.max(0, width - widthOf(said) - 4))}`
}

/** What is left of a station's name beside the longest id of a tour. */
const SHORTEST_NAME = 8

/** Two lines, and more for a standing matter: a journal that cannot be written, said whole. Invented data are always marked. */
export function head(view: View, { columns }: Size): Line[] {
  const { board, unicode, at, stopped } = view
  const { tour } = board
  const when = `${board.invented ? 'INVENTED DATA  ' : ''}${sayDate(dateOf(at))} ${clockOf(at)}`
  const room = columns - widthOf(when) - 2
  const ofTour = tour ? `tour ${tour.id}` : 'no tour is open'
  const whole = ` ${board.station}: ${ofTour}${tour ? `, ${tour.officerName}` : ''}`
  // An officer's name is shown whole or not at all; of the station as much as leaves the tour whole.
  const name = clip(board.station, Math.max(SHORTEST_NAME, room - widthOf(ofTour) - 3), unicode)
  const left = widthOf(whole) > room ? ` ${name}: ${ofTour}` : whole
  const lines: Line[] = [
    [{ text: spread(left, `${when} `, columns, unicode), inverse: true }],
    [{ text: ` ${clip(board.headline, columns - 1, unicode)}`, tone: board.tone, bold: true }],
  ]
  if (stopped) {
    for (const text of wrap(`NOTHING CAN BE RECORDED. ${stopped}`, columns - 2)) {
      lines.push([{ text: ` ${text}`, tone: 'bad', bold: true }])
    }
  }
  return lines
}

const MOST_FOOT = 4

/** The message of the last key, whole, or else what can be pressed. */
export function foot(ui: Ui, { columns }: Size, keys: string, unicode: boolean): Line[] {
  if (!ui.message) return [[{ text: clip(` ${keys}`, columns, unicode), bold: true }]]
  const { text, tone } = ui.message
  return cutTo(wrap(text, columns - 2), MOST_FOOT, columns - 2, unicode).map((part) => [
    { text: ` ${part}`, tone, bold: true },
  ])
}

/** The same with the keys in sight beside the message: where the next key matters more than a line of the body. */
export const footWithKeys = (ui: Ui, size: Size, keys: string, unicode: boolean): Line[] => [
  ...(ui.message ? foot(ui, size, keys, unicode) : []),
  ...foot({ ...ui, message: null }, size, keys, unicode),
]

/** Head, body and foot as one screen of rows - 1 lines; the body is cut or filled. */
export function screen(top: Line[], body: Line[], bottom: Line[], { rows }: Size): Line[] {
  const room = rows - 1 - top.length - bottom.length
  const filled = [
    ...body.slice(0, room),
    ...Array.from({ length: Math.max(0, room - body.length) }, (): Line => []),
  ]
  return [...top, ...filled, ...bottom]
}

export const mark = (shown: Shown, unicode: boolean): string => SIGNS[shown][unicode ? 'symbol' : 'ascii']
export const bodyHeight = (view: View, size: Size): number => size.rows - 2 - head(view, size).length
