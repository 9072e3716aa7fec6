// Paints whole frames on a terminal by writing only the lines that changed; it must never move text by scrolling or wrapping.
import type { Colour } from './abilities.ts'
import { safeLine } from './frame.ts'
import type { Size } from './frame.ts'

export type Glass = {
  /** Shows the frame. An identical frame writes nothing. */
  paint: (frame: string) => void
  /** Takes a new size; what the terminal shows is then unknown, and the next frame is painted whole. */
  resize: (size: Size) => void
  /** Paints the last frame whole, or one that came while something else had the terminal. */
  repaint: (frame?: string) => void
}

// Synchronised output (DEC private mode 2026): the terminal shows the whole change at once.
const BEGIN = '\x1b[?2026h'
const END = '\x1b[?2026l'
const PLAIN = '\x1b[0m'

type GlassOptions = { write: (text: string) => void; size: Size; colour: Colour }

export function createGlass({ write, size, colour }: GlassOptions): Glass {
  let wanted: string | undefined
  let given: readonly string[] = []
  let shown: readonly string[] | undefined

  const paint = (frame: string) => {
    wanted = frame
    const lines = frame.split('\n').slice(0, size.rows)
    const safe = lines.map((line, at) =>
      shown?.[at] !== undefined && given[at] === line ? shown[at] : safeLine(line, size.columns, colour),
    )
    const changes = safe.map((line, at) => (shown?.[at] === line ? '' : drawn(line, at)))
    const isRestStale = safe.length < size.rows && (shown === undefined || shown.length > safe.length)
    if (isRestStale) changes.push(`\x1b[${safe.length + 1};1H${PLAIN}\x1b[J`)
    given = lines
    shown = safe
    const change = changes.join('')
    if (change !== '') write(BEGIN + change + END)
  }

  return {
    paint,
    resize: (next) => {
      size = next
      shown = undefined
    },
    repaint: (frame = wanted) => {
      shown = undefined
      if (frame !== undefined) paint(frame)
    },
  }
}

// The line is erased before it is drawn, not after: erasing at the last column would take the last character,
// and half of an old wide character could stay behind a new narrow one.
function drawn(line: string, at: number): string {
  return `\x1b[${at + 1};1H${PLAIN}\x1b[K${line}${line.includes('\x1b') ? PLAIN : ''}`
}
