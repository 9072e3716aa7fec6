// The screen as a React component, laid out by Ink and drawn again when what is on the glass changes. Built as a part of its own.
import { useSyncExternalStore, type ReactElement } from 'react'
import { Lines } from './lines.tsx'
import type { Size } from './panels/frame.ts'
import { drawWithInk } from './terminal/ink-stream.tsx'
import type { Draw } from './terminal/mount-board.ts'

/** What is drawn: a value that is another one after every change, and the lines it has at a size. */
export interface Drawn {
  read: () => unknown
  watch: (changed: () => void) => () => void
  lines: (size: Size) => readonly string[]
}

export function App({ drawn, size }: { drawn: Drawn; size: Size }): ReactElement {
  useSyncExternalStore(drawn.watch, drawn.read)
  return <Lines lines={drawn.lines(size)} />
}

export const drawApp =
  (drawn: Drawn): Draw =>
  (options) =>
    drawWithInk({ ...options, node: (size) => <App drawn={drawn} size={size} /> })
