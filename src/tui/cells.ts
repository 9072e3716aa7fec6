// Fits text into a number of terminal cells; it must never split a wide character or let a line overflow.
import sliceAnsi from 'slice-ansi'
import { isNarrow, widthOf } from '../exports/wrap.ts'

/** Exactly `width` cells: cut with an ellipsis, or filled with spaces. */
export function fit(text: string, width: number, unicode = true): string {
  const cut = clip(text, width, unicode)
  return cut + ' '.repeat(Math.max(0, width - widthOf(cut)))
}

/** The first cells of a text; a wide character that would stand across the edge is left out. */
function start(text: string, width: number): string {
  if (isNarrow(text)) return text.slice(0, width)
  const part = sliceAnsi(text, 0, width)
  return width > 0 && widthOf(part) > width ? start(text, width - 1) : part
}

/** The last cells of a text, the same way. */
export function tail(text: string, width: number): string {
  const from = Math.max(0, widthOf(text) - width)
  if (isNarrow(text)) return text.slice(from)
  const part = sliceAnsi(text, from)
  return from > 0 && widthOf(part) > width ? sliceAnsi(text, from + 1) : part
}

/** At most `width` cells; what is cut off is marked. */
export function clip(text: string, width: number, unicode = true): string {
  if (width <= 0) return ''
  if (widthOf(text) <= width) return text
  const mark = unicode ? '…' : '..'
  return start(text, Math.max(0, width - widthOf(mark))) + mark.slice(0, width)
}

/** The first `height` lines; what is cut off after them is marked at the end of the last. */
export function cutTo(lines: readonly string[], height: number, width: number, unicode = true): string[] {
  if (lines.length <= height) return [...lines]
  return [
    ...lines.slice(0, height - 1),
    clip(
      lines
        .slice(height - 1)
        .join(' ')
        .padEnd(width + 1),
      width,
      unicode,
    ),
  ]
}

/** The first of `count` rows to show so that `cursor` is in sight and nothing jumps more than it must. */
export const windowStart = (cursor: number, count: number, height: number): number =>
  Math.max(0, Math.min(cursor - Math.floor(height / 2), count - height))
