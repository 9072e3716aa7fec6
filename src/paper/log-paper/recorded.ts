// What was recorded in a tour, on paper: findings with what was done, open items, who rode where, and every entry in the order of the journal.
import type { LogEntry, LogFinding } from '../../exports/log-shape.ts'
import type { ReadinessLog } from '../../exports/readiness-log.ts'
import { sayBy, sayWhen } from '../../exports/said.ts'
import type { Cell, Column, Flow } from '../flow.ts'

const BODY = { size: 7.5 }
const SMALL = { size: 6.5 }

const FINDINGS: readonly Column[] = [
  { title: 'When and by whom', share: 20 },
  { title: 'Finding', share: 40 },
  { title: 'What was done about it in this tour', share: 50 },
]
const ITEMS: readonly Column[] = [
  { title: 'Open item', share: 70 },
  { title: 'Acknowledged in this tour', share: 30 },
]
const ENTRIES: readonly Column[] = [
  { title: 'When', share: 17 },
  { title: 'Event', share: 8 },
  { title: 'By', share: 22 },
  { title: 'What', share: 85 },
]

export function printRecorded(flow: Flow, log: ReadinessLog): void {
  const { findings, openItems, seatings, entries, laterAmendments } = log
  flow.heading('Findings and what was done about them')
  if (!findings.length) flow.paragraph({ text: 'No finding was recorded in this tour.', ...BODY })
  flow.table(FINDINGS, findings.map(findingRow))

  flow.heading(log.tour.closed ? 'Open items left' : 'Open items')
  if (!openItems.length) flow.paragraph({ text: 'Nothing is open.', ...BODY })
  flow.table(ITEMS, openItems.map(itemRow))

  flow.heading('Who rode where')
  if (!seatings.length) flow.paragraph({ text: 'Nobody was seated in this tour.', ...BODY })
  for (const { words } of seatings) flow.paragraph({ text: words, ...BODY })

  flow.heading('All that was recorded, in the order of the journal')
  flow.table(ENTRIES, entries.map(entryRow))

  if (!laterAmendments.length) return
  flow.heading('Amended after the close')
  flow.table(ENTRIES, laterAmendments.map(entryRow))
}

function findingRow({ seq, at, by, byName, words, done }: LogFinding): Cell[] {
  const doings = done.map((each) => `${sayWhen(each.at)} #${each.seq} by ${sayBy(each)}: ${each.words}`)
  return [
    [{ text: `${sayWhen(at)} #${seq} by ${sayBy({ by, byName })}`, ...SMALL }],
    [{ text: words, ...BODY, bold: true }],
    (doings.length ? doings : ['Nothing more was recorded about it in this tour.']).map((text) => ({
      text,
      ...BODY,
    })),
  ]
}

function itemRow({ words, at, by, byName, acknowledged }: ReadinessLog['openItems'][0]): Cell[] {
  const since = `Since ${sayWhen(at)}${by && `, by ${sayBy({ by, byName })}`}.`
  const taken = acknowledged ? `${sayWhen(acknowledged.at)} by ${sayBy(acknowledged)}` : 'not acknowledged'
  return [[{ text: `${words} ${since}`, ...BODY }], [{ text: taken, ...BODY }]]
}

function entryRow(entry: LogEntry): Cell[] {
  const { seq, at, words, details, amendedBy } = entry
  const more = [...details, ...(amendedBy.length ? [`Amended by event ${amendedBy.join(', ')}.`] : [])]
  return [
    [{ text: sayWhen(at), ...SMALL }],
    [{ text: `#${seq}`, ...SMALL }],
    [{ text: sayBy(entry), ...SMALL }],
    [{ text: words, ...BODY }, ...(more.length ? [{ text: more.join(' '), ...SMALL, indent: 6 }] : [])],
  ]
}
