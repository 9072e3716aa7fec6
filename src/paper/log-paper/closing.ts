// The end of a readiness log on paper: the rules it was judged by, the cautions, the journal it was taken from, and room to sign.
import { journalLines, policyLines } from '../../exports/log-frame-lines.ts'
import type { ReadinessLog } from '../../exports/readiness-log.ts'
import { sayBy } from '../../exports/said.ts'
import type { Flow } from '../flow.ts'

const BODY = { size: 7.5 }
const SIGNATURE_HEIGHT = 46

export function printClosing(flow: Flow, log: ReadinessLog): void {
  flow.heading('Policy in force')
  for (const { words } of policyLines(log)) flow.paragraph({ text: words, ...BODY })
  flow.heading('Cautions')
  flow.paragraph({ text: log.cautions.join(' '), ...BODY })
  flow.heading('Journal')
  for (const { words } of journalLines(log)) flow.paragraph({ text: words, ...BODY })
  printSignatures(flow, log)
}

function printSignatures(flow: Flow, { tour }: ReadinessLog): void {
  flow.keep(SIGNATURE_HEIGHT + 30)
  flow.heading('Signatures')
  flow.space(SIGNATURE_HEIGHT - 22)
  const { press, left, width } = flow
  const incoming =
    tour.handedOverTo === null
      ? 'not yet handed over'
      : sayBy({ by: tour.handedOverTo, byName: tour.handedOverToName ?? '' })
  const half = (width - 20) / 2
  const y = flow.y()
  const lines = [
    ['Outgoing officer', sayBy({ by: tour.officer, byName: tour.officerName })],
    ['Incoming officer', incoming],
  ] as const
  lines.forEach(([role, name], at) => {
    const x = left + at * (half + 20)
    press.doc
      .moveTo(x, y)
      .lineTo(x + half, y)
      .lineWidth(0.8)
      .stroke('#000000')
    press.write(role, x, y + 3, { size: 7, bold: true })
    press.write('date and time', x + half - 60, y + 3, { size: 7 })
    press.write(fitting(flow, name, half), x, y + 12, { size: 7 })
  })
  flow.space(24)
}

/** A name longer than its line is set smaller and then cut, since it stands whole at the head of the log. */
function fitting({ press }: Flow, name: string, width: number): string {
  const text = press.printable(name)
  if (press.widthOf(text, { size: 7 }) <= width) return text
  let kept = text
  while (kept && press.widthOf(`${kept}…`, { size: 7 }) > width) kept = kept.slice(0, -1)
  return `${kept}…`
}
