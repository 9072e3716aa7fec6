// Compares screens with the ones kept as text under golden/, exactly; with UPDATE_GOLDEN=1 it rewrites them, so read the difference before it is kept.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createElement } from 'react'
import { linesFor } from '../../src/tui/screens.ts'
import { composeLine } from '../../src/tui/compose.ts'
import { Lines } from '../../src/tui/lines.tsx'
import type { Size } from '../../src/tui/panels/frame.ts'
import { renderStatic } from './terminal/render-static.ts'
import type { Bench } from './bench.ts'

const FOLDER = new URL('golden/', import.meta.url)

/** The screen as Ink lays it out and the glass would show it. */
export const drawn = ({ view, ui }: Bench, size: Size): string[] =>
  renderStatic(createElement(Lines, { lines: linesFor(view, ui, size).map(composeLine) }), size).map((line) =>
    line.trimEnd(),
  )

/** What is kept under this name; with UPDATE_GOLDEN=1 that is what is on the glass now. */
export function kept(name: string, lines: readonly string[], size: Size): string[] {
  const file = new URL(`${name}.${size.columns}x${size.rows}.txt`, FOLDER)
  if (process.env['UPDATE_GOLDEN'] === '1') {
    mkdirSync(FOLDER, { recursive: true })
    writeFileSync(file, `${lines.join('\n')}\n`)
  }
  return readFileSync(file, 'utf8').replace(/\n$/, '').split('\n')
}
