// Measures text and breaks it into lines, for paper, mail and the glass alike; it must never drop a letter.
import stringWidth from 'string-width'

/** Made when a word is first cut, so that no start pays for it. */
const segmented = (text: string): Iterable<{ segment: string }> =>
  (graphemes ??= new Intl.Segmenter('en', { granularity: 'grapheme' })).segment(text)
let graphemes: Intl.Segmenter | undefined

/** Letters, frames and our own signs, these by their numbers as the build wants it: each is one column everywhere, so that the slow measuring can be left out. */
const NARROW = /^[\x20-\x7e\xa1-\xac\xae-\u02ff\u2013\u2014\u2018-\u201d\u2026\u2500-\u259f■□△▼✓]*$/

export const isNarrow = (text: string): boolean => NARROW.test(text)

/** How many columns of paper, or cells of the glass, a text takes: a wide letter takes two. */
export const widthOf = (text: string): number => (isNarrow(text) ? text.length : stringWidth(text))

type Measure = (part: string) => number

/** A word that no line can hold, cut into pieces that one can. */
function cut(word: string, width: number, measure: Measure): string[] {
  if (measure(word) <= width) return [word]
  const pieces = ['']
  for (const { segment } of segmented(word)) {
    if (measure(pieces.at(-1)! + segment) > width && pieces.at(-1) !== '') pieces.push('')
    pieces[pieces.length - 1] += segment
  }
  return pieces
}

/**
 * The lines of a text at most `width` wide: the first begins after `indent` spaces, the others after `hang`.
 * @example wrap('Torn seam.', 8, 2, 4) // ['  Torn', '    seam', '    .']
 */
export function wrap(text: string, width: number, indent = 0, hang = indent): string[] {
  const room = Math.max(width - Math.max(indent, hang), 8)
  // A text is looked through once, not with every word.
  const measure: Measure = isNarrow(text) ? (part) => part.length : widthOf
  const lines: string[] = []
  let line = ''
  for (const word of text.split(' ').flatMap((each) => cut(each, room, measure))) {
    const start = ' '.repeat(lines.length ? hang : indent)
    const longer = line === '' ? start + word : `${line} ${word}`
    if (line.trim() === '' || measure(longer) <= width) {
      line = longer
    } else {
      lines.push(line.trimEnd())
      line = ' '.repeat(hang) + word
    }
  }
  return [...lines, line.trimEnd()]
}
