// Fills pages from the top with headings, paragraphs and tables, breaking where a page is full; it must never print outside the margins.
import { cutTo, heightOf } from './fit-text.ts'
import { lineHeight, MM, SAY_REPLACED, type Face, type Press } from './press.ts'
import { setLines, type Paragraph, type SetLine } from './set-lines.ts'

export const MARGIN = 12 * MM
const FOOT = 20
const GAP = 2
const FOOT_FACE: Face = { size: 6.5 }
const MARK_FACE: Face = { size: 8, bold: true }

export interface Column {
  title: string
  /** Its part of the width, in proportion to the others. */
  share: number
}
export type Cell = Paragraph[]

export interface Flow {
  readonly press: Press
  readonly left: number
  readonly width: number
  y(): number
  /** Goes on below; what does not fit any more goes to the next page. */
  space(points: number): void
  /** Begins a new page unless this much is left. */
  keep(points: number): void
  /** A heading is never the last line of a page: `kept` points stand under and with it. */
  heading(text: string, kept?: number): void
  paragraph(paragraph: Paragraph, width?: number): void
  /** Overleaf the titles are said again, under what the table is about; a row without a name says that of the row before. */
  table(columns: readonly Column[], rows: readonly Cell[][], about?: string): void
  finish(): Promise<Buffer>
}

interface Running {
  /** Said at the head of every page, where the data are invented. */
  mark: string | null
  /** Said at the foot of every page. */
  foot: string
}

/** A heading with the titles of a table and a row or two. */
const HEADED = 100

/** A row taller than this part of a page may be broken. */
const KEPT_WHOLE = 0.15

/** Takes off the first lines those that go into this height, whole paragraphs where one fits at all. */
function takeFitting(lines: SetLine[], height: number): SetLine[] {
  let taken = 0
  let room = height
  while (taken < lines.length && lineHeight(lines[taken]!) <= room) {
    room -= lineHeight(lines[taken]!)
    taken += 1
  }
  const whole = lines.slice(0, taken).findLastIndex((each) => each.ends) + 1
  return lines.splice(0, whole || taken)
}

export function openFlow(press: Press, { mark, foot }: Running): Flow {
  const left = MARGIN
  const width = press.width - 2 * MARGIN
  const top = MARGIN + (mark === null ? 0 : lineHeight(MARK_FACE) + 4)
  const bottom = press.height - MARGIN - FOOT
  let y = top

  const turn = (): void => {
    press.newPage()
    y = top
  }
  const keep = (points: number): void => {
    if (y + points > bottom && y > top) turn()
  }
  const print = (lines: readonly SetLine[], x: number): void => {
    let at = y
    for (const line of lines) {
      press.write(line.text, x + line.indent, at, line)
      at += lineHeight(line)
    }
  }

  /** Prints a row and gives its name, the first cell; one without goes by the name `before`. */
  function row(
    cells: readonly Cell[],
    widths: readonly number[],
    onTurn: () => void,
    before: readonly SetLine[],
  ): readonly SetLine[] {
    const rest = cells.map((cell, at) => cell.flatMap((each) => setLines(press, each, widths[at]! - 2 * GAP)))
    const isNameless = rest[0]!.every((each) => each.text === '')
    const name = isNameless ? before : [...rest[0]!]
    const page = press.pages()
    const whole = Math.max(...rest.map(heightOf)) + 2 * GAP
    const overleaf = (): void => {
      turn()
      onTurn()
    }
    if (y + whole > bottom && whole <= (bottom - top) * KEPT_WHOLE) overleaf()
    for (let isFirst = true; rest.some((lines) => lines.length); isFirst = false) {
      // Too little room for a start is left empty.
      if (!isFirst || bottom - y < 40) overleaf()
      // What goes on overleaf says again what it is about.
      if (isFirst ? isNameless && press.pages() > page : !rest[0]!.length) rest[0] = [...name]
      const now = rest.map((lines) => takeFitting(lines, bottom - y - 2 * GAP))
      y += GAP
      now.forEach((lines, at) => print(lines, left + widths.slice(0, at).reduce((a, b) => a + b, GAP)))
      y += Math.max(...now.map(heightOf)) + GAP
      press.doc
        .moveTo(left, y)
        .lineTo(left + width, y)
        .lineWidth(0.3)
        .stroke('#888888')
    }
    return name
  }

  const flow: Flow = {
    press,
    left,
    width,
    y: () => y,
    space(points) {
      y += points
    },
    keep,
    heading(text, kept = HEADED) {
      keep(kept)
      y += 7
      flow.paragraph({ text, size: 10, bold: true })
      press.doc
        .moveTo(left, y + 1)
        .lineTo(left + width, y + 1)
        .lineWidth(0.8)
        .stroke('#000000')
      y += 3
    },
    paragraph(paragraph, room = width) {
      for (const line of setLines(press, paragraph, room)) {
        keep(lineHeight(line))
        press.write(line.text, left + line.indent, y, line)
        y += lineHeight(line)
      }
    },
    table(columns, rows, about) {
      const shares = columns.reduce((sum, each) => sum + each.share, 0)
      const widths = columns.map(({ share }) => (share / shares) * width)
      const titles = columns.map(({ title }): Cell => [{ text: title, size: 6.5, bold: true }])
      const head = (): void => void row(titles, widths, () => undefined, [])
      const onTurn = (): void => {
        if (about !== undefined) flow.paragraph({ text: `${about}, continued`, size: 8, bold: true })
        head()
      }
      if (!rows.length) return
      keep(50)
      head()
      let name: readonly SetLine[] = []
      for (const cells of rows) name = row(cells, widths, onTurn, name)
    },
    finish: () =>
      press.finish((page, of) => {
        if (mark !== null) press.write(press.printable(mark), left, MARGIN, MARK_FACE)
        const lines = [`Page ${page} of ${of}.   ${foot}`, ...(press.replaced() ? [SAY_REPLACED] : [])]
        lines.forEach((text, at) => {
          const line = cutTo(press, text, width, FOOT_FACE)
          press.write(line, left, press.height - MARGIN - FOOT + 6 + at * 8, FOOT_FACE)
        })
      }),
  }
  return flow
}
