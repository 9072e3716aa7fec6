// A readiness log as CSV, one row a line of the log; no cell may act as a formula where it is opened.
import { stringify } from 'csv-stringify/sync'
import { neutral } from './csv-cell.ts'
import type { LogLine } from './log-line.ts'
import { blocksOf } from './log-lines.ts'
import type { ReadinessLog } from './log-shape.ts'

export const CSV_COLUMNS = [
  'tour',
  'section',
  'at',
  'by',
  'rig',
  'seat',
  'position',
  'member',
  'element',
  'kind',
  'state',
  'matter',
  'rule',
  'on',
  'words',
  'seq',
] as const

export function asCsv(log: ReadinessLog): string {
  const positions = new Map(
    log.board.rigs.flatMap((rig) =>
      rig.seats.map(({ id, position }) => [id, { rig: rig.id, position }] as const),
    ),
  )
  const row = (line: LogLine) => ({
    tour: log.tour.id,
    ...(line.seat && positions.get(line.seat)),
    ...line,
  })
  const title: LogLine = {
    section: 'log',
    level: 0,
    at: log.exportedAt,
    words: `Readiness log of tour ${log.tour.id}, ${log.station.name}, time zone ${log.station.timeZone}`,
  }
  const mark: LogLine[] = log.mark === null ? [] : [{ section: 'mark', level: 0, words: log.mark }]
  const lines = [title, ...mark, ...blocksOf(log).flatMap((block) => block.lines)]
  return csvOf(CSV_COLUMNS, lines.filter((each) => each.only !== 'paper').map(row))
}

/** RFC 4180: one header row, CRLF; a cell that begins as a formula would is preceded by an apostrophe. */
export const csvOf = (columns: readonly string[], rows: readonly object[]): string =>
  stringify([...rows], {
    header: true,
    columns: [...columns],
    record_delimiter: 'windows',
    cast: { string: neutral },
  })
