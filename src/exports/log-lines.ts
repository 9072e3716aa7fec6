// Lays a readiness log out in lines, the same for paper and for CSV, the worst first; it must never leave out an entry.
import { boardLines, unfitLines } from './log-board-lines.ts'
import { journalLines, policyLines, summaryLines } from './log-frame-lines.ts'
import type { Block, LogLine } from './log-line.ts'
import type { LogEntry, ReadinessLog, Section } from './log-shape.ts'
import { sayBy, sayWhen } from './said.ts'

/** The blocks that follow the Board, in order; those with nothing under them are named together. */
const HEADINGS: readonly (readonly [Section, string])[] = [
  ['tags', 'Tags made and lifted'],
  ['pressures', 'Pressures read'],
  ['swaps', 'Swaps'],
  ['exposures', 'Exposures'],
  ['care', 'Care and fit tests'],
  ['custody', 'Custody'],
  ['notes', 'Notes'],
  ['amendments', 'Amendments'],
  ['acknowledged', 'Items acknowledged'],
  ['books', 'Added to the books'],
]

export function blocksOf(log: ReadinessLog): Block[] {
  const { findings, seatings, openItems, rollCall } = log
  const entries = (section: Section): LogLine[] =>
    log.entries.filter((each) => each.section === section).flatMap(entryLines)
  const told: Block[] = [
    { heading: 'Who may not ride', lines: unfitLines(log) },
    { heading: 'Summary', lines: [...summaryLines(log), ...entries('tour')] },
    {
      heading: `Riding positions ${log.tour.closed ? 'at the close' : 'now'}`,
      lines: boardLines(log),
    },
    {
      heading: 'Findings and what was done about them',
      lines: findings.flatMap(({ words, done, from: _from, point: _point, byName, ...at }) => [
        { section: 'findings', level: 0, words, byName, ...at },
        ...(done.length ? done : [{ words: 'Nothing more was recorded about it in this tour.' }]).map(
          (each): LogLine => ({
            section: 'done',
            level: 1,
            element: at.element,
            kind: at.kind,
            ...each,
          }),
        ),
      ]),
    },
    {
      heading: 'Who rode where',
      lines: [
        ...seatings.map(({ words, seat, member, from }): LogLine => {
          return { section: 'riding', level: 0, words, seat, member, at: from, only: 'rows' }
        }),
        ...seatings.map(({ words }): LogLine => ({ section: 'riding', level: 0, words, only: 'paper' })),
        ...entries('crew'),
      ],
    },
    {
      heading: 'Roll call',
      lines: [{ section: 'roll-call', level: 0, words: rollCall.words }, ...entries('roll-call')],
    },
    ...HEADINGS.map(([section, heading]): Block => ({ heading, lines: entries(section) })),
    {
      heading: 'Amended after the close',
      lines: log.laterAmendments.flatMap(entryLines).map((each) => ({ ...each, section: 'amended-later' })),
    },
    {
      heading: log.tour.closed ? 'Open items left' : 'Open items',
      lines: openItems.flatMap(itemLines),
    },
  ]
  const empty = told.filter((each) => !each.lines.length).map((each) => each.heading)
  return [
    ...told.filter((each) => each.lines.length),
    ...(empty.length
      ? [
          {
            heading: 'Nothing was recorded under',
            lines: [{ section: 'nothing', level: 0, words: `${empty.join('; ')}.` } as const],
          },
        ]
      : []),
    { heading: 'Policy in force', lines: [...policyLines(log), ...entries('policy')] },
    {
      heading: 'Cautions',
      lines: log.cautions.map((words): LogLine => ({ section: 'cautions', level: 0, words })),
    },
    { heading: 'Journal', lines: journalLines(log) },
  ]
}

function itemLines(item: ReadinessLog['openItems'][0]): LogLine[] {
  const { words, by, byName, at, element, kind, acknowledged } = item
  const since = `Since ${sayWhen(at)}${by && `, by ${sayBy({ by, byName })}`}.`
  const about = { section: 'open-items', element, kind }
  return [
    { ...about, level: 0, words: `${words} ${since}`, at, by },
    acknowledged
      ? { ...about, level: 1, words: 'Acknowledged in this tour.', ...acknowledged }
      : { ...about, level: 1, words: 'Not acknowledged in this tour.' },
  ]
}

const one = (ids: readonly string[]): string | null => (ids.length === 1 ? ids[0]! : null)

function entryLines(entry: LogEntry): LogLine[] {
  const { section, seq, at, by, byName, words, details, seats, members, elements, amendedBy } = entry
  const line: LogLine = {
    section,
    level: 0,
    seq,
    at,
    by,
    byName,
    words,
    seat: one(seats),
    member: one(members),
  }
  const rows: LogLine[] = elements.length
    ? elements.map(({ id, kind }) => ({ ...line, element: id, kind, only: 'rows' }))
    : [{ ...line, only: 'rows' }]
  const more = [...details, ...(amendedBy.length ? [`Amended by event ${amendedBy.join(', ')}.`] : [])]
  return [
    { ...line, only: 'paper' },
    ...rows,
    ...more.map((words): LogLine => ({ section, level: 1, words, only: 'paper' })),
    ...more.map((words): LogLine => ({ ...line, level: 1, words, only: 'rows' })),
  ]
}
