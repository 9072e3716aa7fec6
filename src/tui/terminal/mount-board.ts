// Puts a React node on a real terminal and hands back its keys as tokens; it must never know what the node shows.
import type { ReactNode } from 'react'
import type { Token } from '../input/keys.ts'
import { listen } from '../input/listen.ts'
import type { Colour } from './abilities.ts'
import type { Size } from './frame.ts'
import { createGlass } from './glass.ts'
import { drawWithInk } from './ink-stream.tsx'
import { holdTerminal } from './modes.ts'

export type Mounted = {
  unmount: () => void
  /** Paints everything again, for a terminal that something else has written on. */
  repaint: () => void
  /** Resolves after `unmount`; rejects with an error thrown while drawing. The terminal is given back by then. */
  finished: Promise<void>
}

export type BoardMount = {
  stdin: NodeJS.ReadStream
  stdout: NodeJS.WriteStream & { fd: number }
  /** Called again with the new size when the terminal's size changes. */
  node: (size: Size) => ReactNode
  onToken: (token: Token) => void
  colour: Colour
}

export function mountBoard({ stdin, stdout, node, onToken, colour }: BoardMount): Mounted {
  const size = (): Size => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 })
  const glass = createGlass({ write: (text) => void stdout.write(text), size: size(), colour })
  // What is drawn while the program is stopped is not painted then, and is what has to be seen when it goes on.
  let newest: string | undefined
  const held = holdTerminal({ stdin, stdout, onBack: () => glass.repaint(newest) })
  const stopListening = listen({ stdin, onToken, onGone: held.hangUp })
  const giveBack = () => {
    stopListening()
    stdout.off('resize', resize)
    held.giveBack()
  }
  const resize = () => {
    glass.resize(size())
    drawing.redraw(node(size()), size())
  }
  let settle: ((failure?: { error: unknown }) => void) | undefined
  const finished = new Promise<void>((resolve, reject) => {
    settle = (failure) => (failure ? reject(failure.error) : resolve())
  })
  stdout.on('resize', resize)
  const drawing = drawWithInk({
    node: node(size()),
    size: size(),
    onFrame: (frame) => {
      newest = frame
      if (held.isUp()) glass.paint(frame)
    },
    onEnd: (failure) => {
      giveBack()
      settle?.(failure)
    },
  })

  const unmount = () => {
    giveBack()
    drawing.stop()
  }
  const repaint = () => {
    if (held.isUp()) glass.repaint(newest)
  }
  return { unmount, repaint, finished }
}
