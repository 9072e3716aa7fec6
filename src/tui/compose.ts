// Turns lines into text with the codes of their style, exactly as Ink would write it, so that Ink has nothing left to style.
import { COLOURS, type Line, type Span } from './theme.ts'

interface Code {
  on: string
  off: string
}
const INVERSE: Code = { on: '\x1b[7m', off: '\x1b[27m' }
const BOLD: Code = { on: '\x1b[1m', off: '\x1b[22m' }
const DEFAULT_COLOUR = '\x1b[39m'

const colourCode = (hex: string): Code => {
  const parts = [1, 3, 5].map((from) => Number.parseInt(hex.slice(from, from + 2), 16))
  return { on: `\x1b[38;2;${parts.join(';')}m`, off: DEFAULT_COLOUR }
}
const TONES = new Map(
  Object.entries(COLOURS).flatMap(([tone, hex]) => (hex ? [[tone, colourCode(hex)]] : [])),
)

function codesOf({ tone, bold, inverse }: Span): Code[] {
  const colour = tone && TONES.get(tone)
  return [...(inverse ? [INVERSE] : []), ...(bold ? [BOLD] : []), ...(colour ? [colour] : [])]
}

/** One line of the glass; spaces at its end that show nothing are left out. */
export function composeLine(line: Line): string {
  let text = ''
  /** In the order they were turned on: the newest is turned off first. */
  let active: readonly Code[] = []
  const turnTo = (wanted: readonly Code[]): void => {
    const begun = wanted.filter((code) => !active.includes(code))
    // A colour is not turned off where another follows.
    const ended = active.filter(
      (code) =>
        !wanted.includes(code) &&
        !(code.off === DEFAULT_COLOUR && begun.some((each) => each.off === code.off)),
    )
    text +=
      ended
        .toReversed()
        .map((code) => code.off)
        .join('') + begun.map((code) => code.on).join('')
    active = [...active.filter((code) => wanted.includes(code)), ...begun]
  }
  for (const span of line) {
    if (span.text === '') continue
    turnTo(codesOf(span))
    text += span.text
  }
  turnTo([])
  return text.trimEnd()
}
