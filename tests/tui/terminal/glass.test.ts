// What the glass writes, read cell by cell through a terminal emulator and compared with the same frame on a new emulator.
import { Terminal } from '@xterm/headless'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Size } from '../../../src/tui/terminal/frame.ts'
import { createGlass } from '../../../src/tui/terminal/glass.ts'
import { line } from './random-line.ts'

function newScreen(size: Size) {
  const emulator = new Terminal({ cols: size.columns, rows: size.rows, allowProposedApi: true })
  emulator.write('\x1b[?1049h\x1b[?7l')
  return emulator
}

const settled = (emulator: Terminal) => new Promise<void>((resolve) => emulator.write('', resolve))

/** Every cell: its characters, its colours, bold and inverse. */
function cells(emulator: Terminal): string[] {
  const { active } = emulator.buffer
  const found: string[] = []
  for (let y = 0; y < emulator.rows; y++) {
    const line = active.getLine(active.baseY + y)
    for (let x = 0; x < emulator.cols; x++) {
      const cell = line?.getCell(x)
      if (!cell) throw new Error(`no cell at ${x}, ${y}`)
      const look = [cell.getFgColorMode(), cell.getFgColor(), cell.getBgColorMode(), cell.getBgColor()]
      found.push([y, x, cell.getChars() || ' ', ...look, cell.isBold(), cell.isInverse()].join('|'))
    }
  }
  return found
}

function open(size: Size, colour: 'none' | 'ansi' = 'ansi') {
  const emulator = newScreen(size)
  let written = ''
  const write = (text: string) => {
    written += text
    emulator.write(text)
  }
  const take = () => {
    const taken = written
    written = ''
    return taken
  }
  return { emulator, glass: createGlass({ write, size, colour }), take }
}

const size = fc.record({ columns: fc.integer({ min: 1, max: 60 }), rows: fc.integer({ min: 1, max: 14 }) })
const frame = fc.array(line, { minLength: 1, maxLength: 16 }).map((lines) => lines.join('\n'))
const step = fc.oneof(
  { weight: 4, arbitrary: fc.record({ frame }) },
  // One changed line, as most keys make it.
  { weight: 5, arbitrary: fc.record({ at: fc.nat(15), line }) },
  { weight: 1, arbitrary: fc.record({ size, frame }) },
)

describe('the glass', () => {
  it('after any frames and resizes shows, in every cell, what the last frame shows on a new terminal', async () => {
    let frames = 0
    await fc.assert(
      fc.asyncProperty(size, fc.array(step, { minLength: 5, maxLength: 30 }), async (first, steps) => {
        let now = first
        let shown = ''
        const { emulator, glass } = open(first)
        for (const each of steps) {
          if ('size' in each) {
            now = each.size
            emulator.resize(now.columns, now.rows)
            glass.resize(now)
          }
          if ('frame' in each) shown = each.frame
          else
            shown = shown
              .split('\n')
              .with(each.at % shown.split('\n').length, each.line)
              .join('\n')
          glass.paint(shown)
          await settled(emulator)
          const fresh = open(now)
          fresh.glass.paint(shown)
          await settled(fresh.emulator)
          expect(cells(emulator)).toEqual(cells(fresh.emulator))
          fresh.emulator.dispose()
          frames++
        }
        emulator.dispose()
      }),
      { numRuns: 175, seed: 7 },
    )
    expect(frames).toBeGreaterThan(1500)
  }, 60_000)

  it('shows plain lines exactly where the frame has them', async () => {
    const { emulator, glass } = open({ columns: 12, rows: 4 })
    glass.paint('first\nsecond\n\nlast')
    glass.paint('first\nchanged line')
    await settled(emulator)
    const rows = [0, 1, 2, 3].map((y) => emulator.buffer.active.getLine(y)?.translateToString(true))
    expect(rows).toEqual(['first', 'changed line', '', ''])
  })

  it('fills the last column of the last row without scrolling or losing a character', async () => {
    const { emulator, glass } = open({ columns: 5, rows: 2 })
    glass.paint('abcde\nfghij\nnever')
    await settled(emulator)
    const rows = [0, 1].map((y) => emulator.buffer.active.getLine(y)?.translateToString())
    expect(rows).toEqual(['abcde', 'fghij'])
  })

  it('writes nothing for an identical frame, and little for one changed line', () => {
    const lines = Array.from({ length: 40 }, (_, y) => `row ${y} `.padEnd(120, '.'))
    const { glass, take } = open({ columns: 120, rows: 40 })
    glass.paint(lines.join('\n'))
    const whole = take().length
    glass.paint(lines.join('\n'))
    expect(take()).toBe('')
    glass.paint(lines.with(20, 'changed').join('\n'))
    const change = take()
    expect(change).toBe('\x1b[?2026h\x1b[21;1H\x1b[0m\x1b[Kchanged\x1b[?2026l')
    expect(change.length * 50).toBeLessThan(whole)
  })

  it('writes nothing for lines that differ only in what is not shown', () => {
    const { glass, take } = open({ columns: 5, rows: 2 })
    glass.paint('abcdefg\nx')
    take()
    glass.paint('abcdeZZ\nx\x07\nbelow')
    expect(take()).toBe('')
  })

  it('repaints the frame that came while something else had the terminal, not the one before it', () => {
    let written = ''
    const glass = createGlass({
      write: (text) => (written += text),
      size: { columns: 20, rows: 4 },
      colour: 'none',
    })
    glass.paint('before')
    written = ''
    glass.repaint('after')
    expect(written).toContain('after')
    expect(written).not.toContain('before')
    written = ''
    glass.repaint()
    expect(written).toContain('after')
  })

  it('writes every change as one synchronised update, also on repaint', () => {
    const { glass, take } = open({ columns: 5, rows: 2 })
    glass.repaint()
    expect(take()).toBe('')
    for (const act of [() => glass.paint('a\nb'), () => glass.paint('c'), () => glass.repaint()]) {
      act()
      expect(take()).toMatch(/^\x1b\[\?2026h(?:(?!\x1b\[\?2026)[^])+\x1b\[\?2026l$/)
    }
  })

  it('without colour writes no SGR of the frame', () => {
    const { glass, take } = open({ columns: 20, rows: 1 }, 'none')
    glass.paint('\x1b[31mred\x1b[39m plain')
    expect(take()).toBe('\x1b[?2026h\x1b[1;1H\x1b[0m\x1b[Kred plain\x1b[?2026l')
  })
})
