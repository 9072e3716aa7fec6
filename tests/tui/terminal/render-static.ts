// Draws a node once at a chosen size and gives its lines, for screens kept as text; it must never need a terminal.
import type { ReactNode } from 'react'
import type { Colour } from '../../../src/tui/terminal/abilities.ts'
import { safeLines } from '../../../src/tui/terminal/frame.ts'
import type { Size } from '../../../src/tui/terminal/frame.ts'
import { drawWithInk } from '../../../src/tui/terminal/ink-stream.tsx'

/** The first frame's lines as the glass would show them; without colour codes unless `colour` is 'ansi'. */
export function renderStatic(node: ReactNode, size: Size, colour: Colour = 'none'): string[] {
  let frame = ''
  let failed: { error: unknown } | undefined
  const drawing = drawWithInk({
    node: () => node,
    size,
    onFrame: (drawn) => {
      frame = drawn
    },
    onEnd: (failure) => {
      failed = failure
    },
  })
  drawing.stop()
  if (failed) throw failed.error
  return safeLines(frame, size, colour)
}
