// Gear labels on a sheet, each with its id as a bar code and in letters; a code too fine for a hand scanner becomes a square one.
import type { GearLabel, Labels } from '../exports/gear-tags.ts'
import { drawCode, type CodeKind } from './codes.ts'
import { faceFor, printInBox, type Box } from './fit-text.ts'
import { lineHeight, MM, type Press } from './press.ts'

/** How a sheet is divided; `skip` labels of the first sheet are used up already. */
export interface Grid {
  columns: number
  rows: number
  skip: number
  code: CodeKind
}

/** Of our own; a sheet of self-adhesive labels has its own, and is met by trying plain paper against the light. */
const EDGE = 8 * MM
const GAP = 2 * MM
const PAD = 1.5 * MM
const MARK = { size: 5.5, bold: true }

export function printLabels(press: Press, { labels, mark }: Labels, grid: Grid): Promise<Buffer> {
  const { columns, rows, skip } = grid
  const width = (press.width - 2 * EDGE - (columns - 1) * GAP) / columns
  const height = (press.height - 2 * EDGE - (rows - 1) * GAP) / rows
  labels.forEach((label, at) => {
    const place = skip + at
    const onPage = place % (columns * rows)
    if (at > 0 && onPage === 0) press.newPage()
    const x = EDGE + (onPage % columns) * (width + GAP)
    const y = EDGE + Math.floor(onPage / columns) * (height + GAP)
    press.doc.rect(x, y, width, height).lineWidth(0.3).stroke('#999999')
    const inside = { x: x + PAD, y: y + PAD, width: width - 2 * PAD, height: height - 2 * PAD }
    const space = mark === null ? 0 : lineHeight(MARK)
    if (mark !== null) {
      const face = faceFor(press, INVENTED_LABEL, inside.width, MARK)
      press.write(INVENTED_LABEL, inside.x, inside.y + inside.height - lineHeight(face), face)
    }
    printLabel(press, label, { ...inside, height: inside.height - space }, grid.code)
  })
  return press.finish(() => undefined)
}

/** Labels are cut apart, so each carries the mark; the whole sentence has no room. */
const INVENTED_LABEL = 'DEMONSTRATION: invented'

const aboutOf = ({ word, size, maker, model, serial, made }: GearLabel): string[] =>
  [
    [word, size].filter(Boolean).join(', '),
    [maker, model].filter(Boolean).join(' '),
    [serial && `serial ${serial}`, made && `made ${made}`].filter(Boolean).join(', '),
  ].filter(Boolean)

/** Its id and kind always; of the rest what there is room for, since the code leads to all of it. */
function printLabel(press: Press, label: GearLabel, box: Box, code: CodeKind): void {
  const over = Math.min(box.height * 0.45, 20 * MM)
  if (code === 'code128' && drawCode(press, code, label.id, { ...box, height: over })) {
    printWords(press, label, { ...box, y: box.y + over + 1, height: box.height - over - 1 }, box.height)
    return
  }
  const side = Math.min(box.height, box.width * 0.42)
  drawCode(press, 'qr', label.id, { ...box, width: side, height: side })
  printWords(press, label, { ...box, x: box.x + side + 3, width: box.width - side - 3 }, box.height)
}

function printWords(press: Press, label: GearLabel, box: Box, height: number): void {
  const id = faceFor(press, label.id, box.width, { size: Math.min(12, height * 0.22), bold: true })
  const [kind, ...rest] = aboutOf(label)
  const lines = [
    { text: label.id, ...id },
    { text: kind!, ...faceFor(press, kind!, box.width, { size: Math.min(7, height * 0.18) }) },
    ...rest.map((text) => ({ text, ...faceFor(press, text, box.width, { size: 5.5 }) })),
  ]
  printInBox(press, lines, box)
}
