// The end of a readiness log on paper: the rules it was judged by, the cautions, the journal it was taken from, and room to sign.
import { journalLines, policyLines } from '../../exports/log-frame-lines.ts'
import type { ReadinessLog } from '../../exports/readiness-log.ts'
import { sayBy } from '../../exports/said.ts'
import type { Flow } from '../flow.ts'
import { printSignatures } from '../signatures.ts'

const BODY = { size: 7.5 }

export function printClosing(flow: Flow, log: ReadinessLog): void {
  flow.heading('Policy in force', 50)
  for (const { words } of policyLines(log)) flow.paragraph({ text: words, ...BODY })
  flow.heading('Cautions', 50)
  flow.paragraph({ text: log.cautions.join(' '), ...BODY })
  const inCode = log.journal.seal === null ? 'its length and last hash' : 'its seal'
  flow.heading(`Journal (the square code on the first page holds ${inCode})`, 50)
  for (const { words } of journalLines(log)) flow.paragraph({ text: words, ...BODY })
  const { tour } = log
  const incoming =
    tour.handedOverTo === null
      ? 'not yet handed over'
      : sayBy({ by: tour.handedOverTo, byName: tour.handedOverToName ?? '' })
  printSignatures(flow, [
    ['Outgoing officer', sayBy({ by: tour.officer, byName: tour.officerName })],
    ['Incoming officer', incoming],
  ])
}
