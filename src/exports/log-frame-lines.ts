// The lines that frame a readiness log: its summary, the policy it was judged by and the journal it was taken from; it must never hide a looser rule.
import { count } from '../domain/count.ts'
import { sayDate } from '../domain/time.ts'
import type { LogLine } from './log-line.ts'
import type { LogEntry, ReadinessLog } from './log-shape.ts'
import { sayBy, sayWhen } from './said.ts'

export function summaryLines({
  tour,
  rollCall,
  entries,
  findings,
  seatings,
  openItems,
  exportedAt,
}: ReadinessLog): LogLine[] {
  const sum = (type: LogEntry['type']): number => entries.filter((each) => each.type === type).length
  const officer = sayBy({ by: tour.officer, byName: tour.officerName })
  const opened = `Opened ${sayWhen(tour.opened.at)} by ${sayBy(tour.opened)}.`
  const to = sayBy({ by: tour.handedOverTo ?? '', byName: tour.handedOverToName ?? '' })
  const closed = tour.closed
    ? `Closed ${sayWhen(tour.closed.at)} by ${sayBy(tour.closed)}, handed over to ${to}.`
    : 'Still open: this log is not the last word on it.'
  const early = seatings.filter((each) => each.relievedEarly).length
  const counts = [
    `Findings ${findings.length}`,
    `tags lifted ${sum('tag-lifted')}`,
    `swaps ${sum('element-swapped')}`,
    `swaps back ${sum('swap-reversed') + sentBack(entries)}`,
    `exposures ${sum('exposure-recorded')}`,
    `relieved early ${early}`,
    `open items ${openItems.length}`,
  ]
  return [
    `Tour ${tour.id}, platoon ${tour.platoon}, of ${sayDate(tour.on)}, officer ${officer}.`,
    `${opened} ${closed}`,
    rollCall.words,
    `${counts.join(', ')}.`,
    `Exported ${sayWhen(exportedAt)}.`,
  ].map((words) => ({ section: 'summary', level: 0, words }))
}

/** A swap that is undone while the element that was there may not be worn sends its spare back to the rack. */
function sentBack(entries: readonly LogEntry[]): number {
  const swapped = new Set<string>()
  return entries.filter(({ type, elements }) => {
    if (type === 'element-swapped') for (const { id } of elements) swapped.add(id)
    return type === 'element-returned' && elements.some(({ id }) => swapped.has(id))
  }).length
}

export function policyLines({ policy }: ReadinessLog): LogLine[] {
  const { name, edition, overlay, provisional, looser, otherChanges } = policy
  return [
    `${name}, edition ${edition}${overlay === null ? ', without an overlay' : `, with the overlay "${overlay}"`}.`,
    ...(provisional === null ? [] : [`Provisional: ${provisional}`]),
    ...looser.map((each) => `Looser than the published base: ${each}.`),
    ...otherChanges.map((each) => `Changed or added by the overlay: ${each}.`),
  ].map((words) => ({ section: 'policy', level: 0, words }))
}

/** The length and hash that a log of ours was exported at, however its lines were broken since. */
export function headIn(text: string): { count: number; head: string } | undefined {
  const told =
    /The journal held (\d+) events when this was exported; the hash of its last line: ([0-9a-f]{64})\b/
  const [, count, head] = told.exec(text.replaceAll(/\s+/g, ' ')) ?? []
  return head === undefined ? undefined : { count: Number(count), head }
}

export function journalLines({ journal }: ReadinessLog): LogLine[] {
  const { length, head, tourEndsAt, tourHead, seal } = journal
  return [
    `The journal held ${count(length, 'event')} when this was exported; the hash of its last line: ${head}`,
    `The last event of the tour is ${tourEndsAt}; its hash: ${tourHead ?? 'not at hand'}`,
    'Check them with: bayboard verify',
    ...(seal === null
      ? []
      : [
          'The seal made when it was handed over. Kept elsewhere, it shows any later change: bayboard verify --against FILE',
          ...seal.split('\n').filter((line) => line !== ''),
        ]),
  ].map((words) => ({ section: 'journal', level: 0, words }))
}
