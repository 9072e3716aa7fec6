// Two lines to sign on, kept together at the end of a paper.
import { lineHeight } from './press.ts'
import { cutTo } from './fit-text.ts'
import type { Flow } from './flow.ts'

const HEIGHT = 66
const ROOM_TO_SIGN = 22
const BETWEEN = 20
const FACE = { size: 7 }

type Signature = readonly [role: string, name: string]

export function printSignatures(flow: Flow, signatures: readonly [Signature, Signature]): void {
  flow.heading('Signatures', HEIGHT)
  flow.space(ROOM_TO_SIGN)
  const { press, left, width } = flow
  const half = (width - BETWEEN) / 2
  const y = flow.y()
  signatures.forEach(([role, name], at) => {
    const x = left + at * (half + BETWEEN)
    press.doc
      .moveTo(x, y)
      .lineTo(x + half, y)
      .lineWidth(0.8)
      .stroke('#000000')
    press.write(role, x, y + 3, { ...FACE, bold: true })
    press.write('date and time', x + half - 60, y + 3, FACE)
    // It stands whole at the head of the paper.
    press.write(cutTo(press, name, half, FACE), x, y + 3 + lineHeight(FACE), FACE)
  })
  flow.space(20)
}
