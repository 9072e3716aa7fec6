// Draws bar codes as filled shapes, sharp at any size; it must never draw one too fine for a hand scanner.
import { code128, qrcode, type DrawingContext } from 'bwip-js/generic'
import type { Box } from './fit-text.ts'
import { MM, type Press } from './press.ts'

export type CodeKind = 'code128' | 'qr'

/** The thinnest bar or smallest square that is printed, in points: 0.19 mm, 7.5 mils, is what common hand scanners still read (from memory). */
const FINEST = 0.19 * MM

interface Shapes {
  width: number
  height: number
  bars: { x: number; width: number }[]
  polygons: [number, number][][]
}

/** Takes what the library draws, in its own units. */
function collecting(): DrawingContext<Shapes> {
  const shapes: Shapes = { width: 0, height: 0, bars: [], polygons: [] }
  return {
    scale: (x, y) => [x, y],
    measure: () => ({ width: 0, ascent: 0, descent: 0 }),
    init(width, height) {
      Object.assign(shapes, { width, height })
    },
    // A bar is a vertical line through its own middle, rounded up.
    line: (x, _y, _x, _end, width) => shapes.bars.push({ x: x - Math.ceil(width / 2), width }),
    polygon: (points) => shapes.polygons.push(points),
    hexagon: () => undefined,
    ellipse: () => undefined,
    fill: () => undefined,
    text: () => undefined,
    end: () => shapes,
  }
}

/** A QR code draws each square two units wide. */
const QR_UNITS = 2

function shapesOf(kind: CodeKind, text: string): Shapes {
  const asked = { bcid: kind, text, scale: 1, ...(kind === 'qr' && { eclevel: 'M' }) }
  return kind === 'qr' ? qrcode<Shapes>(asked, collecting()) : code128<Shapes>(asked, collecting())
}

/** Empty paper that a reader needs around it, in bars or squares. Source: ISO/IEC 15417 (10X) and 18004 (4X), from memory. */
const QUIET = { code128: 10, qr: 4 } as const

/** How wide the thinnest bar or square would be in a box, in points, its quiet paper counted in. */
const finenessIn = (kind: CodeKind, units: number, { width, height }: Box): number =>
  kind === 'qr'
    ? Math.min(width, height) / (units / QR_UNITS + 2 * QUIET.qr)
    : width / (units + 2 * QUIET.code128)

/** Draws it in the middle of the box, as large as the box allows; false, with nothing drawn, where that is too fine to be read. */
export function drawCode(press: Press, kind: CodeKind, text: string, box: Box): boolean {
  const { width, height, bars, polygons } = shapesOf(kind, text)
  const fineness = finenessIn(kind, width, box)
  if (fineness < FINEST) return false
  const { doc } = press
  if (kind === 'qr') {
    const unit = fineness / QR_UNITS
    const x = box.x + (box.width - width * unit) / 2
    const y = box.y + (box.height - height * unit) / 2
    for (const points of polygons) {
      doc.polygon(...points.map(([across, down]): [number, number] => [x + across * unit, y + down * unit]))
    }
    doc.fill('#000000', 'even-odd')
    return true
  }
  // Wider bars than these read no better.
  const unit = Math.min(fineness, 0.5 * MM)
  const x = box.x + (box.width - width * unit) / 2
  for (const bar of bars) doc.rect(x + bar.x * unit, box.y, bar.width * unit, box.height)
  doc.fill('#000000')
  return true
}
