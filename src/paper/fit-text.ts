// Puts words into a box of fixed size; what does not go in is said to be missing, never printed over the edge.
import { lineHeight, type Face, type Press } from './press.ts'
import { setLines, type Paragraph, type SetLine } from './set-lines.ts'

export interface Box {
  x: number
  y: number
  width: number
  height: number
}

const SMALLEST = 4.5

/** The largest face, up to the given one, in which the text takes one line of this width. */
export function faceFor(press: Press, text: string, width: number, face: Face): Face {
  let { size } = face
  while (size > SMALLEST && press.widthOf(press.printable(text), { ...face, size }) > width) size -= 0.5
  return { ...face, size }
}

export const heightOf = (lines: readonly SetLine[]): number =>
  lines.reduce((sum, each) => sum + lineHeight(each), 0)

const letters = new Intl.Segmenter('en', { granularity: 'grapheme' })

/** A text on one line of this width; what is longer is cut, and an ellipsis says so. For what stands whole elsewhere. */
export function cutTo(press: Press, text: string, width: number, face: Face): string {
  const whole = press.printable(text)
  if (press.widthOf(whole, face) <= width) return whole
  let kept = ''
  for (const { segment } of letters.segment(whole)) {
    if (press.widthOf(`${kept}${segment}…`, face) > width) break
    kept += segment
  }
  return `${kept}…`
}

/**
 * Prints as many lines as the box holds and gives the height they took. What does not go in is replaced by the line
 * `more`; without such a line the first paragraphs that go in whole are printed.
 */
export function printInBox(press: Press, paragraphs: readonly Paragraph[], box: Box, more?: string): number {
  const fits = (some: readonly SetLine[]): boolean => heightOf(some) <= box.height
  const lines = paragraphs.flatMap((each) => setLines(press, each, box.width))
  const note = more === undefined ? [] : setLines(press, { text: more, size: 6, bold: true }, box.width)
  let shown = lines
  for (let count = lines.length; count > 0 && !fits(shown); count--) {
    const isWhole = more !== undefined || lines[count - 2]?.ends === true
    if (isWhole) shown = [...lines.slice(0, count - 1), ...note]
  }
  let { y } = box
  for (const line of fits(shown) ? shown : []) {
    press.write(line.text, box.x + line.indent, y, line)
    y += lineHeight(line)
  }
  return y - box.y
}
