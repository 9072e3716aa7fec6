// The text of a frame: each cell looks as its span asks, and Ink adds nothing to it and takes nothing away.
import { Terminal } from '@xterm/headless'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { composeLine } from '../../src/tui/compose.ts'
import { Lines } from '../../src/tui/lines.tsx'
import { drawWithInk } from '../../src/tui/terminal/ink-stream.tsx'
import { COLOURS, type Line, type Span } from '../../src/tui/theme.ts'

const SIZE = { columns: 60, rows: 8 }
const words = fc.constantFrom('', ' ', 'a', 'Hood H-7 ', '■ out', '  ready', '—', '中文', 'é', 'nobody  ')
const span: fc.Arbitrary<Span> = fc.record(
  {
    text: words,
    tone: fc.constantFrom('bad' as const, 'warn' as const, 'good' as const),
    bold: fc.boolean(),
    inverse: fc.boolean(),
  },
  { requiredKeys: ['text'] },
)
const lines: fc.Arbitrary<Line[]> = fc.array(fc.array(span, { maxLength: 5 }), { minLength: 1, maxLength: 6 })

function inkFrame(shown: readonly Line[]): string {
  let frame = ''
  const onFrame = (drawn: string): void => {
    frame = drawn
  }
  const lines = shown.map(composeLine)
  drawWithInk({ node: () => <Lines lines={lines} />, size: SIZE, onFrame, onEnd: () => undefined }).stop()
  return frame
}

test('Ink gives the composed text back to the byte, whatever the styles', () => {
  fc.assert(
    fc.property(lines, (shown) => {
      expect(inkFrame(shown)).toBe(shown.map(composeLine).join('\n'))
    }),
    { numRuns: 150 },
  )
})

/** A cell as the terminal has it, against what its span asks for. */
async function cellsOf(line: Line) {
  const terminal = new Terminal({ cols: SIZE.columns, rows: 1, allowProposedApi: true })
  await new Promise<void>((resolve) => terminal.write(composeLine(line), resolve))
  const row = terminal.buffer.active.getLine(0)!
  const asked = line.flatMap((each) => [...each.text].map((char) => ({ ...each, char })))
  let x = 0
  const cells = asked.map(({ char, tone, bold, inverse }) => {
    const cell = row.getCell(x)!
    x += Math.max(1, cell.getWidth())
    const hex = (tone && COLOURS[tone]) ?? null
    return {
      found: {
        char: cell.getChars() || ' ',
        bold: cell.isBold() !== 0,
        // A faint letter has less contrast than anybody measured.
        dim: cell.isDim() !== 0,
        inverse: cell.isInverse() !== 0,
        colour: cell.isFgRGB() ? `#${cell.getFgColor().toString(16).padStart(6, '0')}` : null,
      },
      asked: {
        char,
        bold: bold ?? false,
        dim: false,
        inverse: inverse ?? false,
        colour: hex,
      },
    }
  })
  terminal.dispose()
  // What shows nothing at the end of a line is left out.
  const last = cells.findLastIndex(({ asked }) => asked.char !== ' ' || asked.inverse)
  return cells.slice(0, last + 1)
}

test('every cell has the character, the weight and the colour that its span asks for', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(span, { maxLength: 6 }), async (line) => {
      for (const { found, asked } of await cellsOf(line)) expect(found).toEqual(asked)
    }),
    { numRuns: 300 },
  )
})

test('a bold red word between plain ones is turned on and off once', () => {
  const line: Line = [{ text: 'a ' }, { text: 'bad', tone: 'bad', bold: true }, { text: ' b ' }]
  expect(composeLine(line)).toBe('a \x1b[1m\x1b[38;2;226;43;18mbad\x1b[39m\x1b[22m b')
})
