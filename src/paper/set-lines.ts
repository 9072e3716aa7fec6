// Breaks words into lines that a column holds; it must never drop a letter.
import type { Face, Press } from './press.ts'

/** Words set in one face, a paragraph of their own. */
export interface Paragraph extends Face {
  text: string
  /** Points that it stands in. */
  indent?: number
}

/** A line as it will be printed. */
export interface SetLine extends Face {
  text: string
  indent: number
  /** The last of its paragraph. */
  ends: boolean
}

const letters = new Intl.Segmenter('en', { granularity: 'grapheme' })

/** A word that no line can hold, cut into pieces that one can. */
function cut(press: Press, word: string, room: number, face: Face): string[] {
  if (press.widthOf(word, face) <= room) return [word]
  const pieces = ['']
  for (const { segment } of letters.segment(word)) {
    if (pieces.at(-1) !== '' && press.widthOf(pieces.at(-1)! + segment, face) > room) pieces.push('')
    pieces[pieces.length - 1] += segment
  }
  return pieces
}

/** The lines of a paragraph, none wider than `width` points. */
export function setLines(press: Press, paragraph: Paragraph, width: number): SetLine[] {
  const { text, indent = 0, ...face } = paragraph
  const room = width - indent
  const lines: string[] = []
  let line = ''
  for (const word of press
    .printable(text)
    .split(' ')
    .flatMap((each) => cut(press, each, room, face))) {
    const longer = line === '' ? word : `${line} ${word}`
    if (line === '' || press.widthOf(longer, face) <= room) line = longer
    else {
      lines.push(line)
      line = word
    }
  }
  return [...lines, line].map((each, at) => ({ text: each, indent, ends: at === lines.length, ...face }))
}
