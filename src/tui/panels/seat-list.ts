// The riding positions, grouped by rig: one mark for each kind, the worst reason in words, the state as symbol and word.
import type { RigLine, Row } from '../../domain/board.ts'
import { factsOf, KINDS, wordOf } from '../../domain/kinds.ts'
import { SIGNS } from '../../domain/signs.ts'
import { sayDate } from '../../domain/time.ts'
import { clip, fit, widthOf, wrap } from '../cells.ts'
import { plainLine, type Line } from '../theme.ts'
import type { View } from '../view.ts'
import { mark } from './frame.ts'

/** From here on the riding position's id is shown. */
const ROOMY = 110
/** From here on the reason stands beside the row, not beneath it: narrower, its end would be cut off. */
const WIDE = 160
const MARKS = KINDS.map((kind) => factsOf(kind).mark).join('')

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
    { rig, height: 1 },
    ...rig.rows.map((row) => ({ rig, row, height: width < WIDE && isLoud(row) ? 2 : 1 })),
  ])

const isLoud = (row: Row): boolean => SIGNS[row.state].tone === 'bad'

const tall = (blocks: readonly Block[], from: number, to: number): number =>
  blocks.slice(from, to).reduce((sum, block) => sum + block.height, 0)

const UNBROKEN = '\u00a0'

/** What each letter above the marks stands for; a letter is never parted from its word. */
export function legend(width: number): Line[] {
  const heads = KINDS.map((kind) => `${factsOf(kind).mark} ${wordOf(kind)}`.replaceAll(' ', UNBROKEN))
  return wrap(`Columns: ${heads.join(', ')}.`, width - 2).map((text) =>
    plainLine(` ${text.replaceAll(UNBROKEN, ' ')}`),
  )
}

/** How many lines the whole list would take. */
export function listHeight(view: View, width: number): number {
  const blocks = blocksOf(view, width)
  return tall(blocks, 0, blocks.length)
}

/** The list cut to `height` by whole riding positions, with the row in hand in sight and what is out of sight counted. */
export function seatList(view: View, width: number, height: number): Line[] {
  const blocks = blocksOf(view, width)
  const draw = (from: number, to: number): Line[] =>
    blocks
      .slice(from, to)
      .flatMap(({ rig, row }) => (row ? rowLines(row, view, width) : [rigHead(rig, view, width)]))
  if (tall(blocks, 0, blocks.length) <= height) return draw(0, blocks.length)
  const room = height - 1
  const inHand = blocks.findIndex((block) => block.row?.seat === view.row?.seat)
  // The rig's own line stays above its riding positions as long as there is room for it.
  let start = blocks.slice(0, inHand).findLastIndex((block) => !block.row)
  while (start < inHand && tall(blocks, start, inHand + 1) > room) start += 1
  while (start > 0 && tall(blocks, start - 1, blocks.length) <= room) start -= 1
  let end = inHand + 1
  while (end < blocks.length && tall(blocks, start, end + 1) <= room) end += 1
  const shown = draw(start, end)
  const gap = Array.from({ length: Math.max(0, room - shown.length) }, (): Line => [])
  const words = sayHidden(blocks.slice(0, start), blocks.slice(end), width)
  return [...shown.slice(0, room), ...gap, [{ text: clip(words, width, view.unicode), bold: true }]]
}

/** More names than this find no room on any glass, and are not even measured. */
const MOST_NAMES = 12

/** What is out of sight; whoever may not ride there is named where whole names find room, and counted in any case. */
function sayHidden(above: readonly Block[], below: readonly Block[], width: number): string {
  const said = (up: boolean, down: boolean): string =>
    [sayPart(above, 'above', up), sayPart(below, 'below', down)]
      .filter(Boolean)
      .map((part) => ` ${part}`)
      .join('.')
  for (const [up, down] of [
    [true, true],
    [false, true],
    [true, false],
  ] as const) {
    const words = said(up, down)
    if (widthOf(words) <= width) return words
  }
  return said(false, false)
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

function rigHead(rig: RigLine, { unicode }: View, width: number): Line {
  const { seat, position, name, state } = columnsFor(width)
  const left = 2 + seat + position + name + state + 2
  const words = `${rig.name} ${rig.words}`
  return [
    { text: fit(` ${words}`, left, unicode), bold: true, tone: rig.tone === 'bad' ? 'bad' : undefined },
    { text: MARKS },
  ]
}

function rowLines(row: Row, view: View, width: number): Line[] {
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
    { text: row.answered ? (unicode ? '✓ ' : 'a ') : '  ' },
    ...marks(row, view),
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

/** The soonest day, without its year: a warning window is shorter than one. */
function shortDue(row: Row): string {
  const [on] = row.reasons.flatMap((each) => each.on ?? []).toSorted()
  return on ? `by ${sayDate(on).slice(0, -5)}` : ''
}

function marks(row: Row, { unicode }: View): Line {
  return KINDS.map((kind) => {
    const place = row.places.find((each) => each.kind === kind)
    if (!place) return { text: ' ' }
    return {
      text: mark(place.state, unicode),
      tone: SIGNS[place.state].tone,
      bold: SIGNS[place.state].tone === 'bad',
    }
  })
}
