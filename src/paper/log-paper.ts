// A tour's readiness log on paper: who may not ride first, signatures and the seal last; it must never leave out what the log holds.
import type { ReadinessLog } from '../exports/readiness-log.ts'
import { CONDITIONS } from '../domain/policy/shape.ts'
import { SIGNS } from '../domain/signs.ts'
import { summaryLines } from '../exports/log-frame-lines.ts'
import { sayWhen } from '../exports/said.ts'
import { sayRider } from '../exports/status.ts'
import { drawCode } from './codes.ts'
import { MARGIN, openFlow, type Flow } from './flow.ts'
import { printBoard } from './log-paper/board.ts'
import { printClosing } from './log-paper/closing.ts'
import { printRecorded } from './log-paper/recorded.ts'
import { MM, type Press } from './press.ts'

const CODE_MM = 30
const WORST_FIRST: readonly string[] = CONDITIONS

/** What the square code says: the seal where there is one, else the place in the journal that the log was taken from. */
const codeText = ({ tour, journal }: ReadinessLog): string =>
  journal.seal ?? `Bayboard readiness log, tour ${tour.id}\n${journal.length} ${journal.head}`

export function printLog(press: Press, log: ReadinessLog): Promise<Buffer> {
  const { tour, station, mark, exportedAt } = log
  const foot = `Readiness log of tour ${tour.id}, ${station.name}, exported ${sayWhen(exportedAt)}.`
  const flow = openFlow(press, { mark, foot })
  printTop(flow, log)
  printBoard(flow, log)
  printRecorded(flow, log)
  printClosing(flow, log)
  return flow.finish()
}

function printTop(flow: Flow, log: ReadinessLog): void {
  const { press, left, width } = flow
  const side = CODE_MM * MM
  const top = flow.y()
  drawCode(press, 'qr', codeText(log), { x: press.width - MARGIN - side, y: top, width: side, height: side })
  const room = width - side - 8
  flow.paragraph({ text: `Readiness log of tour ${log.tour.id}`, size: 16, bold: true }, room)
  flow.paragraph({ text: `${log.station.name}, time zone ${log.station.timeZone}`, size: 9 }, room)
  flow.space(3)
  for (const { words } of summaryLines(log)) flow.paragraph({ text: words, size: 8 }, room)
  flow.space(Math.max(0, top + side - flow.y()))
  flow.space(4)
  const [boxTop, boxPage] = [flow.y(), press.pages()]
  flow.space(4)
  flow.paragraph({ text: log.board.headline, size: 12, bold: true, indent: 5 })
  const unfit = log.board.rigs
    .flatMap(({ seats }) => seats.filter((each) => !each.fit && each.member !== null))
    .toSorted((one, other) => WORST_FIRST.indexOf(one.state) - WORST_FIRST.indexOf(other.state))
  for (const seat of unfit) {
    const { symbol, word } = SIGNS[seat.state]
    const [reason] = seat.reasons
    const why = reason ? `: ${reason.text} (${reason.matter})` : ''
    const text = `${symbol} ${word}: ${seat.id} ${seat.position}, ${sayRider(seat)}${why}`
    flow.paragraph({ text, size: 8, indent: 5 }, width - 5)
  }
  flow.paragraph({ text: `As it stood ${sayWhen(log.board.at)}. ${log.rollCall.words}`, size: 8, indent: 5 })
  flow.space(4)
  // A list that goes on overleaf has no box of its own.
  if (press.pages() === boxPage)
    press.doc
      .rect(left, boxTop, width, flow.y() - boxTop)
      .lineWidth(1)
      .stroke('#000000')
  flow.space(2)
}
