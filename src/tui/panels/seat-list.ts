// The riding positions, grouped by rig: one mark for each kind, the worst reason in words, the state as symbol and word.
import type { RigLine, Row } from '../../domain/board.ts'
import { factsOf, KINDS, type Kind } from '../../domain/kinds.ts'
import { SIGNS } from '../../domain/signs.ts'
import { sayDate } from '../../domain/time.ts'
import { wrap } from '../../exports/wrap.ts'
import { clip, fit } from '../cells.ts'
import type { Line } from '../theme.ts'
import type { View } from '../view.ts'
import { mark } from './frame.ts'

/** From here on the riding position's id is shown. */
const ROOMY = 110
/** From here on the reason stands beside the row, not beneath it: narrower, its end would be cut off. */
const WIDE = 160

export const ANSWERED = { unicode: '✓', ascii: 'a' }
/** Answered, and the gear has changed since. */
export const CHANGED = '~'

interface Columns {
  seat: number
  position: number
  name: number
  state: number
}
const columnsFor = (width: number): Columns =>
  width >= ROOMY
    ? { seat: 8, position: 15, name: 24, state: 17 }
    : { seat: 0, position: 15, name: 22, state: 17 }

/** A rig's own line, or a riding position; its lines are made only when they are shown. */
interface Block {
  rig: RigLine
  row?: Row
  height: number
}

const blocksOf = (view: View, width: number): Block[] =>
  view.board.rigs.flatMap((rig): Block[] => [
    { rig, height: headWords(rig, width).length },
    ...rig.rows.map((row) => ({ rig, row, height: width < WIDE && isLoud(row) ? 2 : 1 })),
  ])

const isLoud = (row: Row): boolean => SIGNS[row.state].tone === 'bad'

const tall = (blocks: readonly Block[]): number => blocks.reduce((sum, block) => sum + block.height, 0)

/** How many lines the whole list would take. */
export const listHeight = (view: View, width: number): number => tall(blocksOf(view, width))

/** The list cut to `height` by whole riding positions, with the row in hand in sight and what is out of sight counted. */
export function seatList(view: View, kind: Kind | null, width: number, height: number): Line[] {
  const blocks = blocksOf(view, width)
  const draw = (some: readonly Block[]): Line[] =>
    some.flatMap(({ rig, row }) => (row ? rowLines(row, view, kind, width) : rigHead(rig, view, kind, width)))
  if (tall(blocks) <= height) return draw(blocks)
  const room = height - 1
  const inHand = blocks.findIndex((block) => block.row?.seat === view.row?.seat)
  /** A rig's own line stays in sight while any of its riding positions is. */
  const headed = (from: number, to: number): Block[] => {
    const { rig, row } = blocks[from]!
    const above = row ? blocks.filter((block) => block.rig === rig && !block.row) : []
    return [...above, ...blocks.slice(from, to)]
  }
  const holds = (from: number, to: number): boolean => tall(headed(from, to)) <= room
  let start = blocks.slice(0, inHand).findLastIndex((block) => !block.row)
  while (start < inHand && !holds(start, inHand + 1)) start += 1
  while (start > 0 && holds(start - 1, blocks.length)) start -= 1
  let end = inHand + 1
  while (end < blocks.length && holds(start, end + 1)) end += 1
  const shown = draw(headed(start, end))
  const left = Math.max(1, height - shown.length)
  const words = sayHidden(blocks.slice(0, start), blocks.slice(end), width - 2, left)
  const gap = Array.from({ length: left - words.length }, (): Line => [])
  return [
    ...shown.slice(0, room),
    ...gap,
    ...words.map((text): Line => [{ text: clip(` ${text}`, width, view.unicode), bold: true }]),
  ]
}

/** More names than this find no room on any glass, and are not even measured. */
const MOST_NAMES = 12

/** What is out of sight; whoever may not ride there is named where whole names find room, and counted in any case. */
function sayHidden(
  above: readonly Block[],
  below: readonly Block[],
  width: number,
  height: number,
): string[] {
  const said = (up: boolean, down: boolean): string[] =>
    wrap([sayPart(above, 'above', up), sayPart(below, 'below', down)].filter(Boolean).join('. '), width)
  for (const [up, down] of [
    [true, true],
    [false, true],
    [true, false],
  ] as const) {
    const words = said(up, down)
    if (words.length <= height) return words
  }
  return [said(false, false).join(' ')]
}

/** `6 more below; 2 of them may not ride: Priya Halvering, Osric Nantambry` */
function sayPart(blocks: readonly Block[], where: string, byName: boolean): string {
  const rows = blocks.flatMap((block) => block.row ?? [])
  const unfit = rows.filter((row) => !row.fit && row.member !== null).map((row) => row.name)
  if (!rows.length) return ''
  if (!unfit.length) return `${rows.length} more ${where}`
  const names = byName && unfit.length <= MOST_NAMES ? `: ${unfit.join(', ')}` : ''
  const who = rows.length === 1 ? ', who' : `; ${unfit.length} of them`
  return `${rows.length} more ${where}${who} may not ride${names}`
}

const headWidth = (width: number): number => {
  const { seat, position, name, state } = columnsFor(width)
  return 2 + seat + position + name + state + 2
}

/** Before the columns as far as there is room, the rest beneath: without whom a rig cannot ride is its end. */
function headWords({ name, words }: RigLine, width: number): string[] {
  const [first = '', ...rest] = wrap(`${name} ${words}`, headWidth(width) - 2)
  return rest.length ? [first, rest.join(' ')] : [first]
}

function rigHead(rig: RigLine, { unicode }: View, inHand: Kind | null, width: number): Line[] {
  const tone = rig.tone === 'bad' ? 'bad' : undefined
  const [first = '', ...rest] = headWords(rig, width)
  return [
    [
      { text: fit(` ${first}`, headWidth(width), unicode), bold: true, tone },
      ...KINDS.map((kind) => ({ text: factsOf(kind).mark, inverse: kind === inHand })),
    ],
    ...rest.map((text): Line => [{ text: clip(`   ${text}`, width, unicode), bold: true, tone }]),
  ]
}

function rowLines(row: Row, view: View, kind: Kind | null, width: number): Line[] {
  const { unicode } = view
  const widths = columnsFor(width)
  const isInHand = row.seat === view.row?.seat
  const sign = SIGNS[row.state]
  const { tone } = sign
  const seat = widths.seat ? fit(row.seat, widths.seat, unicode) : ''
  const position = fit(row.critical ? `${row.position}*` : row.position, widths.position, unicode)
  const line: Line = [
    { text: isInHand ? '> ' : '  ', bold: true },
    { text: seat + position + fit(row.name || 'nobody', widths.name - 1, unicode) + ' ', bold: isInHand },
    { text: fit(`${mark(row.state, unicode)} ${sign.word}`, widths.state, unicode), tone, bold: isLoud(row) },
    { text: `${answerMark(row, unicode)} ` },
    ...marks(row, view, isInHand ? kind : null),
  ]
  const used = 2 + widths.seat + widths.position + widths.name + widths.state + 2 + KINDS.length
  const more = row.reasons.length > 1 ? ` (+${row.reasons.length - 1})` : ''
  const sentence = (room: number): string =>
    row.sentence && `${clip(row.sentence, room - more.length, unicode)}${more}`
  if (width >= WIDE)
    return [[...line, { text: ` ${sentence(width - used - 1)}`, tone: isLoud(row) ? tone : undefined }]]
  if (!isLoud(row)) {
    // What falls due is told in the few cells that are left; the panel below has the whole sentence.
    const short = row.state === 'due' ? clip(` ${shortDue(row)}`, width - used, unicode) : ''
    return [[...line, { text: short }]]
  }
  return [line, [{ text: `     ${sentence(width - 5)}`, tone }]]
}

/** The answer at roll call as a sign: of gear that has changed since it is not an answer any more. */
function answerMark({ answered, changed }: Row, unicode: boolean): string {
  if (!answered) return ' '
  return changed ? CHANGED : ANSWERED[unicode ? 'unicode' : 'ascii']
}

/** The soonest day, without its year: a warning window is shorter than one. */
function shortDue(row: Row): string {
  const [on] = row.reasons.flatMap((each) => each.on ?? []).toSorted()
  return on ? `by ${sayDate(on).slice(0, -5)}` : ''
}

function marks(row: Row, { unicode }: View, inHand: Kind | null): Line {
  return KINDS.map((kind) => {
    const place = row.places.find((each) => each.kind === kind)
    const inverse = kind === inHand
    if (!place) return { text: ' ', inverse }
    return {
      text: mark(place.state, unicode),
      inverse,
      tone: SIGNS[place.state].tone,
      bold: SIGNS[place.state].tone === 'bad',
    }
  })
}
