// The riding positions of a readiness log on paper: every seat with its reasons, then every ensemble element by element.
import { KINDS, wordOf } from '../../domain/kinds.ts'
import { SIGNS, type Shown } from '../../domain/signs.ts'
import type { ReadinessLog } from '../../exports/readiness-log.ts'
import { BY_LOOSER } from '../../exports/status.ts'
import type { Cell, Column, Flow } from '../flow.ts'
import type { Paragraph } from '../set-lines.ts'

type Rig = ReadinessLog['board']['rigs'][0]
type Seat = Rig['seats'][0]

const SEATS: readonly Column[] = [
  { title: 'Riding position', share: 17 },
  { title: 'Member', share: 20 },
  { title: 'State', share: 14 },
  { title: 'Roll call', share: 10 },
  { title: 'Reasons, the worst first', share: 60 },
]
const ENSEMBLES: readonly Column[] = [
  { title: 'Position', share: 1.1 },
  ...KINDS.map((kind) => ({ title: wordOf(kind), share: 1 })),
]
const BODY = { size: 7.5 }
const SMALL = { size: 5.5 }

const saySign = (state: Shown): string => `${SIGNS[state].symbol} ${SIGNS[state].word}`

export function printBoard(flow: Flow, log: ReadinessLog): void {
  const when = log.tour.closed ? 'at the close' : 'now'
  for (const rig of log.board.rigs) {
    flow.heading(`${rig.name} (${rig.id}) ${rig.words}. Riding positions ${when}`)
    flow.table(SEATS, rig.seats.map(seatRow))
    const filled = rig.seats.filter((each) => each.gear.length)
    if (!filled.length) continue
    flow.space(4)
    const words = 'Ensembles. An element without a state beside it is ready (·).'
    flow.paragraph({ text: words, size: 6.5 })
    flow.table(ENSEMBLES, filled.map(ensembleRow))
  }
  if (!log.board.rigs.length) flow.paragraph({ text: 'The station has no rig.', size: 8 })
}

function seatRow(seat: Seat): Cell[] {
  const { id, position, critical, member, name, state, answered } = seat
  const call = member === null ? '–' : answered ? 'answered' : 'not answered'
  const who: Paragraph[] =
    member === null
      ? [{ text: 'nobody', ...BODY }]
      : [
          { text: name || member, ...BODY, bold: true },
          { text: name ? member : '', size: 6.5 },
        ]
  return [
    [
      { text: `${id}${critical ? '*' : ''}`, ...BODY, bold: true },
      { text: position, ...BODY },
    ],
    who,
    [{ text: saySign(state), ...BODY, bold: state !== 'ready' }],
    [{ text: call, ...BODY }],
    reasonsOf(seat),
  ]
}

function reasonsOf({ reasons, loosened, member }: Seat): Cell {
  if (member === null) return [{ text: 'Nobody rides here.', ...BODY }]
  const said = [
    ...reasons.map(
      ({ state, matter, text, looser }) => `${saySign(state)} (${matter}): ${text}${looser ? BY_LOOSER : ''}`,
    ),
    ...loosened.map((each) => `Only by a looser rule: ${each}`),
  ]
  return (said.length ? said : ['Nothing against it.']).map((text) => ({ text, ...BODY }))
}

const ensembleRow = (seat: Seat): Cell[] => [
  [{ text: seat.id, size: 6.5, bold: true }],
  ...KINDS.map((kind) => seat.gear.filter((each) => each.kind === kind).flatMap(gearCell)),
]

function gearCell({ element, label, standsIn, state }: Seat['gear'][0]): Cell {
  const isReady = state === 'ready'
  return [
    { text: `${isReady ? '· ' : ''}${element ?? 'none'}`, size: 6.5, bold: !isReady },
    ...(isReady ? [] : [{ text: saySign(state), size: 6, bold: true }]),
    ...[label, standsIn ? 'stands in' : ''].filter(Boolean).map((text) => ({ text, ...SMALL })),
  ]
}
