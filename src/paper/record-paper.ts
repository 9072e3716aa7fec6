// Element records and inspection records on paper; an item without anything says so, and what was amended or withdrawn stays to be read.
import { count } from '../domain/count.ts'
import {
  NOT_ON_RECORD,
  type ElementRecord,
  type ElementRecords,
  type RecordLine,
} from '../exports/record-shape.ts'
import type { InspectionRecord } from '../exports/inspection-record.ts'
import { sayBy, sayWhen } from '../exports/said.ts'
import { sayDate } from '../domain/time.ts'
import { openFlow, type Cell, type Column, type Flow } from './flow.ts'
import type { Press } from './press.ts'
import { printSignatures } from './signatures.ts'

const BODY = { size: 7.5 }
const SMALL = { size: 6.5 }

const RECORD: readonly Column[] = [
  { title: 'Item', share: 30 },
  { title: 'On', share: 14 },
  { title: 'What is on record', share: 70 },
  { title: 'Said by', share: 34 },
]

export function printElementRecords(press: Press, records: ElementRecords): Promise<Buffer> {
  const { station, mark, at, elements, journal, cautions } = records
  const foot = `Element records, ${station}, made ${sayWhen(at)} from ${count(journal.length, 'event')}.`
  const flow = openFlow(press, { mark, foot })
  flow.paragraph({ text: 'Record of protective elements', size: 16, bold: true })
  flow.paragraph({ text: `${station}, as the whole journal tells it, ${sayWhen(at)}`, size: 9 })
  for (const each of elements) printRecord(flow, each)
  flow.heading('Journal and cautions')
  flow.paragraph({ text: sayJournal(journal), ...BODY })
  flow.paragraph({ text: cautions.join(' '), ...BODY })
  return flow.finish()
}

const sayJournal = ({ length, head }: ElementRecords['journal']): string =>
  `The journal held ${count(length, 'event')}; the hash of its last line: ${head}`

function printRecord(flow: Flow, { id, word, now, items, also }: ElementRecord): void {
  flow.heading(`${id}, ${word}`)
  flow.paragraph({ text: now, ...BODY })
  const rows = items.flatMap(({ item, title, lines }): Cell[][] => {
    const name = `${item}. ${title}`
    if (!lines.length)
      return [[[{ text: name, ...BODY, bold: true }], [], [{ text: NOT_ON_RECORD, ...BODY }], []]]
    return lines.map((line, at) => lineRow(at ? '' : name, line))
  })
  const others = also.map((line, at) => lineRow(at ? '' : 'All else in the journal', line))
  flow.table(RECORD, [...rows, ...others], `${id}, ${word}`)
}

function lineRow(name: string, { on, words, seq, withdrawn, amended, ...said }: RecordLine): Cell[] {
  return [
    [{ text: name, ...BODY, bold: true }],
    [{ text: sayDate(on), ...SMALL }],
    [
      { text: withdrawn ? `Withdrawn: ${words}` : words, ...BODY },
      ...amended.map((each) => ({
        text: `${sayWhen(each.at)} by ${sayBy(each)}: ${each.words}`,
        ...SMALL,
        indent: 6,
      })),
    ],
    [{ text: `${sayBy(said)}, ${sayWhen(said.at)}, event ${seq}`, ...SMALL }],
  ]
}

const INSPECTIONS: readonly Column[] = [
  { title: 'Serial number, or id', share: 30 },
  { title: 'Date', share: 14 },
  { title: 'Inspected by', share: 26 },
  { title: 'Findings', share: 40 },
  { title: 'Remedial action', share: 44 },
]

export function printInspections(press: Press, record: InspectionRecord): Promise<Buffer> {
  const { station, mark, at, elements, journal, cautions, since, regulation } = record
  const foot = `Inspection record, ${station}, made ${sayWhen(at)} from ${count(journal.length, 'event')}.`
  const flow = openFlow(press, { mark, foot })
  flow.paragraph({ text: 'Inspections of breathing apparatus', size: 16, bold: true })
  flow.paragraph({ text: `${station}, the five items of ${regulation}`, size: 9 })
  const which =
    since === null ? 'The last inspection on record of each.' : `Every inspection since ${sayDate(since)}.`
  flow.paragraph({ text: which, ...BODY })
  flow.space(4)
  const rows = elements.flatMap(({ id, word, serial, inspections }): Cell[][] => {
    const name: Cell = [
      { text: serial ?? id, ...BODY, bold: true },
      { text: `${word} ${id}${serial === null ? `, serial number ${NOT_ON_RECORD}` : ''}`, ...SMALL },
    ]
    const nothing: Cell = [{ text: NOT_ON_RECORD, ...BODY, bold: true }]
    if (!inspections.length) return [[name, nothing, nothing, nothing, nothing]]
    return inspections.map(({ date, inspector, how, findings, remedialAction, withdrawn, seq }) => [
      name,
      [{ text: sayDate(date), ...BODY }],
      [
        { text: inspector, ...BODY },
        { text: `${how}, event ${seq}`, ...SMALL },
      ],
      [{ text: withdrawn ? `Withdrawn: ${findings}` : findings, ...BODY, bold: findings !== 'none' }],
      [{ text: remedialAction, ...BODY }],
    ])
  })
  flow.table(INSPECTIONS, rows)
  flow.heading('Journal and cautions')
  flow.paragraph({ text: sayJournal(journal), ...BODY })
  flow.paragraph({ text: cautions.join(' '), ...BODY })
  printSignatures(flow, [
    ['Certified by', 'the officer or the technician who answers for it'],
    ['Seen by', ''],
  ])
  return flow.finish()
}
