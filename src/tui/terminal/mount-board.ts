// Puts drawn frames on a real terminal and hands back its keys as tokens; it must never know what they show.
import type { Token } from '../input/keys.ts'
import { listen } from '../input/listen.ts'
import type { Colour } from './abilities.ts'
import type { Size } from './frame.ts'
import { createGlass } from './glass.ts'
import type { Drawing, DrawingOptions } from './ink-stream.tsx'
import { holdTerminal } from './modes.ts'

type Mounted = {
  unmount: () => void
  /** Paints everything again, for a terminal that something else has written on. */
  repaint: () => void
  /** Resolves after `unmount`; rejects with an error thrown while drawing. The terminal is given back by then. */
  finished: Promise<void>
}

/** Whole frames as Ink would give them, and how to hear that there is a newer one. */
export type Ahead = { frame: (size: Size) => string; watch: (changed: () => void) => () => void }

export type Draw = (options: DrawingOptions) => Drawing

type BoardMount = {
  stdin: NodeJS.ReadStream
  stdout: NodeJS.WriteStream & { fd: number }
  /** Loads what draws: Ink and the node it lays out. */
  load: () => Promise<Draw>
  /** The frames to paint until Ink is there: loading it takes longer than the first frame. */
  ahead?: Ahead
  onToken: (token: Token) => void
  /** What the scanners put before a code. */
  scanPrefix?: string
  colour: Colour
}

export function mountBoard({
  stdin,
  stdout,
  load,
  ahead,
  onToken,
  scanPrefix = '',
  colour,
}: BoardMount): Mounted {
  const size = (): Size => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 })
  const glass = createGlass({ write: (text) => void stdout.write(text), size: size(), colour })
  // What is drawn while the program is stopped is not painted then, and is what has to be seen when it goes on.
  let newest: string | undefined
  const held = holdTerminal({ stdin, stdout, onBack: () => glass.repaint(newest) })
  const stopListening = listen({ stdin, onToken, prefix: scanPrefix, onGone: held.hangUp })
  let drawing: Drawing | undefined
  let isGone = false
  const show = (frame: string) => {
    newest = frame
    if (held.isUp()) glass.paint(frame)
  }
  const showAhead = () => {
    if (ahead) show(ahead.frame(size()))
  }
  let stopAhead = ahead?.watch(showAhead)
  const endAhead = () => {
    stopAhead?.()
    stopAhead = undefined
  }
  const giveBack = () => {
    isGone = true
    endAhead()
    stopListening()
    stdout.off('resize', resize)
    held.giveBack()
  }
  const resize = () => {
    glass.resize(size())
    if (drawing) drawing.redraw(size())
    else showAhead()
  }
  let settle: ((failure?: { error: unknown }) => void) | undefined
  const finished = new Promise<void>((resolve, reject) => {
    settle = (failure) => (failure ? reject(failure.error) : resolve())
  })
  const end = (failure?: { error: unknown }) => {
    giveBack()
    settle?.(failure)
  }
  async function draw(): Promise<void> {
    const start = await load()
    if (isGone) return
    endAhead()
    drawing = start({ size: size(), onFrame: show, onEnd: end })
  }
  stdout.on('resize', resize)
  try {
    showAhead()
  } catch (error) {
    giveBack()
    throw error
  }
  draw().catch((error: unknown) => end({ error }))

  const unmount = () => {
    giveBack()
    if (drawing) drawing.stop()
    else settle?.()
  }
  const repaint = () => {
    if (held.isUp()) glass.repaint(newest)
  }
  return { unmount, repaint, finished }
}
