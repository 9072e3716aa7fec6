// Makes the lines of a frame safe to put on a terminal of a given width; it must never let through anything but text and SGR.
import { isNarrow, widthOf } from '../../exports/wrap.ts'
import type { Colour } from './abilities.ts'

export type Size = { readonly columns: number; readonly rows: number }

const SGR = /(\x1b\[[\d;:]*m)/
// Escape sequences (7-bit and 8-bit), then control characters, line separators and characters that turn text around.
// A string sequence counts only with its end: otherwise one stray ESC ] would swallow the rest of the line.
const UNSAFE = new RegExp(
  [
    '[\\x1b]\\[[0-?]*[ -/]*[@-~]',
    '(?:\\x1b[\\]PX^_]|[\\x90\\x98\\x9d-\\x9f])[^\\x07\\x1b\\x9c]*(?:\\x07|\\x1b\\\\|\\x9c)',
    '\\x1b[ -/]*[0-~]?',
    '\\x9b[0-?]*[ -/]*[@-~]?',
    '[\\0-\\x1f\\x7f-\\x9f\\u2028\\u2029\\u061c\\u200e\\u200f\\u202a-\\u202e\\u2066-\\u2069]',
  ].join('|'),
  'g',
)
/** Made when the first wide text comes: making one takes longer than all the rest of a frame. */
let segmenter: Intl.Segmenter | undefined

/** The line without what could move the cursor or change the terminal, at most `columns` wide. */
export function safeLine(line: string, columns: number, colour: Colour): string {
  const keep = (found: string) => (colour === 'ansi' && /^\x1b\[[\d;:]*m$/.test(found) ? found : '')
  const clean = line.replace(UNSAFE, keep).replace(/[\ud800-\udfff]/gu, '\ufffd')
  return cut(clean, columns)
}

/** The lines of a frame as the glass shows them: no more than its rows, none wider than its columns. */
export function safeLines(frame: string, size: Size, colour: Colour): string[] {
  return frame
    .split('\n')
    .slice(0, size.rows)
    .map((line) => safeLine(line, size.columns, colour))
}

function cut(line: string, columns: number): string {
  const parts = line.split(SGR)
  const text = parts.filter((part) => !SGR.test(part)).join('')
  if (text.length <= columns && isNarrow(text)) return line
  let width = 0
  let kept = ''
  for (const part of parts) {
    if (SGR.test(part)) {
      kept += part
      continue
    }
    for (const { segment } of (segmenter ??= new Intl.Segmenter()).segment(part)) {
      width += widthOf(segment)
      // A wide character that does not fit is left out: half of it would fall over the edge.
      if (width > columns) return kept
      kept += segment
    }
  }
  return kept
}
