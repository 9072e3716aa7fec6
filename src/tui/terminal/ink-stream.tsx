// The streams that Ink believes to be a terminal: they take its frames and give it no keys; they must never touch the real one.
import { PassThrough, Writable } from 'node:stream'
import { render } from 'ink'
import type { Instance } from 'ink'
import chalk from 'chalk'
import type { ReactNode } from 'react'
import { CatchErrors } from './catch-errors.ts'
import type { Size } from './frame.ts'

export type Drawing = {
  /** Lays it out again at this size and hands over the frame. */
  redraw: (size: Size) => void
  stop: () => void
}

export type DrawingOptions = {
  size: Size
  onFrame: (frame: string) => void
  /** Called once: after `stop`, or with the error that ended the drawing. */
  onEnd: (failure?: { error: unknown }) => void
}

/** What is laid out, at a size. */
type Node = { node: (size: Size) => ReactNode }

/** Starts Ink on streams of our own. `onFrame` gets every whole frame, with colours, without cursor moves. */
export function drawWithInk({ node, size, onFrame, onEnd }: DrawingOptions & Node): Drawing {
  // Ink colours through chalk, which guesses from the environment. Here colours pass as they are asked for;
  // the glass strips them where they are not wanted.
  chalk.level = 3
  let isFrameNext = false
  const screen = Object.assign(
    new Writable({
      decodeStrings: false,
      write(chunk: string, _encoding, next) {
        // Ink writes other things too (cursor codes, barriers, a last line under CI); a frame follows `onRender`.
        if (isFrameNext) onFrame(chunk)
        isFrameNext = false
        next()
      },
    }),
    { ...size, isTTY: true },
  )
  let isEnded = false
  const end = (failure?: { error: unknown }) => {
    if (isEnded) return
    isEnded = true
    onEnd(failure)
  }
  let ink: Instance | undefined
  const fail = (error: unknown) => {
    end({ error })
    // Ink must not be taken down from inside its own render.
    queueMicrotask(() => ink?.unmount())
  }
  const guarded = (inner: ReactNode) => <CatchErrors onError={fail}>{inner}</CatchErrors>
  ink = render(guarded(node(size)), {
    stdout: screen as unknown as NodeJS.WriteStream,
    stdin: silentKeyboard(),
    // Whole frames, no cursor moves, no throttle.
    debug: true,
    exitOnCtrlC: false,
    patchConsole: false,
    onRender: () => {
      isFrameNext = true
    },
  })
  void ink.waitUntilExit().then(
    () => end(),
    (error: unknown) => end({ error }),
  )

  return {
    redraw: (next) => {
      Object.assign(screen, next)
      ink?.rerender(guarded(node(next)))
    },
    stop: () => ink?.unmount(),
  }
}

/** A keyboard on which nobody types: the real one belongs to the tokenizer, and `useInput` must not crash. */
function silentKeyboard(): NodeJS.ReadStream {
  const keyboard = new PassThrough()
  const nothing = () => keyboard
  return Object.assign(keyboard, {
    isTTY: true,
    setRawMode: nothing,
    ref: nothing,
    unref: nothing,
  }) as unknown as NodeJS.ReadStream
}
