// Ink as it is built into the program lays out every frame as Ink itself does: what was taken from it was only work done twice.
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import { drawApp, type Drawn } from '../../../src/tui/app.tsx'
import type { Size } from '../../../src/tui/terminal/frame.ts'
import { builtProgram } from '../../built-program.ts'
import { line } from './random-line.ts'

const built = (await import(pathToFileURL(join(builtProgram(), 'dist/ink.js')).href)) as {
  drawApp: typeof drawApp
}

/** Each frame of lines, one after the other on the same glass. */
async function framesOf(draw: typeof drawApp, frames: readonly (readonly string[])[], size: Size) {
  const found: string[] = []
  let now = frames[0]!
  let changed = () => {}
  let drew = () => {}
  const drawn: Drawn = {
    read: () => now,
    watch: (listen) => {
      changed = listen
      return () => {}
    },
    lines: () => now,
  }
  const first = new Promise<void>((resolve) => (drew = resolve))
  const drawing = draw(drawn)({
    size,
    onFrame: (frame) => {
      found.push(frame)
      drew()
    },
    onEnd: (failure) => {
      if (failure) throw failure.error
    },
  })
  await first
  for (const frame of frames.slice(1)) {
    const next = new Promise<void>((resolve) => (drew = resolve))
    now = frame
    changed()
    await next
  }
  drawing.stop()
  return found
}

const frame = fc.array(line, { minLength: 1, maxLength: 12 })
/** Some lines come again, on another row as well as on their own. */
const frames = fc
  .array(frame, { minLength: 2, maxLength: 5 })
  .map((all) => [...all, ...all.map((lines) => lines.toReversed())])
const size = fc.record({ columns: fc.integer({ min: 10, max: 130 }), rows: fc.integer({ min: 3, max: 14 }) })

it('lays out any lines as Ink does, first seen or seen before, at any size', async () => {
  await fc.assert(
    fc.asyncProperty(frames, size, async (all, at) => {
      expect(await framesOf(built.drawApp, all, at)).toEqual(await framesOf(drawApp, all, at))
    }),
    { seed: 20261124, numRuns: 60 },
  )
})
