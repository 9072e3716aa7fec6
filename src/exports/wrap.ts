// Breaks lines for paper and mail; it must never drop a letter.

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' })
const WIDE =
  /\p{Script=Han}|\p{Script=Hiragana}|\p{Script=Katakana}|\p{Script=Hangul}|\p{Emoji_Presentation}|[\u3000-\u303f\uff01-\uff60\uffe0-\uffe6]/u

const lettersOf = (text: string): string[] => Array.from(graphemes.segment(text), (each) => each.segment)

const PLAIN = /^[ -~]*$/

/** Columns a text takes: a wide letter takes two. Plain ASCII, which most lines are, needs no look at its letters. */
export const columnsOf = (text: string): number =>
  PLAIN.test(text)
    ? text.length
    : lettersOf(text).reduce((sum, letter) => sum + (WIDE.test(letter) ? 2 : 1), 0)

/** A word that no line can hold, cut into pieces that one can. */
function cut(word: string, width: number): string[] {
  if (columnsOf(word) <= width) return [word]
  const pieces = ['']
  for (const letter of lettersOf(word)) {
    if (columnsOf(pieces.at(-1)! + letter) > width && pieces.at(-1) !== '') pieces.push('')
    pieces[pieces.length - 1] += letter
  }
  return pieces
}

/**
 * The lines of a text at most `width` columns wide: the first begins after `indent` spaces, the others after `hang`.
 * @example wrap('Torn seam.', 8, 2, 4) // ['  Torn', '    seam', '    .']
 */
export function wrap(text: string, width: number, indent = 0, hang = indent): string[] {
  const room = Math.max(width - Math.max(indent, hang), 8)
  const lines: string[] = []
  let line = ''
  for (const word of text.split(' ').flatMap((each) => cut(each, room))) {
    const start = ' '.repeat(lines.length ? hang : indent)
    const longer = line === '' ? start + word : `${line} ${word}`
    if (line.trim() === '' || columnsOf(longer) <= width) {
      line = longer
    } else {
      lines.push(line.trimEnd())
      line = ' '.repeat(hang) + word
    }
  }
  return [...lines, line.trimEnd()]
}
