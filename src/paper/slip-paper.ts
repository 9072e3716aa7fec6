// A care slip on paper: what is sent, why, what is asked, and what is not to be cleaned; it must never ask for held gear to be cleaned.
import { count } from '../domain/count.ts'
import { plain } from '../domain/kinds.ts'
import type { CareSlip } from '../exports/care-slip.ts'
import { sayBy, sayWhen } from '../exports/said.ts'
import { openFlow, type Cell, type Column } from './flow.ts'
import type { Press } from './press.ts'
import { printSignatures } from './signatures.ts'

const BODY = { size: 8 }
const SMALL = { size: 6.5 }
const ASKED: readonly Column[] = [
  { title: 'Element', share: 20 },
  { title: 'Label', share: 26 },
  { title: 'Why', share: 40 },
  { title: 'Done on', share: 14 },
  { title: 'Serviceable or not', share: 16 },
  { title: 'By, and what was found', share: 30 },
]
const HELD: readonly Column[] = [
  { title: 'Element', share: 20 },
  { title: 'Label', share: 26 },
  { title: 'Not to be cleaned', share: 100 },
]

type Line = CareSlip['elements'][0]

export function printCareSlip(press: Press, slip: CareSlip): Promise<Buffer> {
  const { station, mark, sent, to, care, elements, held, back, at } = slip
  const foot = `Care slip of event ${sent.seq}, ${station}, printed ${sayWhen(at)}.`
  const flow = openFlow(press, { mark, foot })
  flow.paragraph({ text: `Care slip: ${plain(care)}`, size: 16, bold: true })
  flow.paragraph({ text: `From ${station} to ${to}`, size: 11, bold: true })
  flow.paragraph({ text: `Sent ${sayWhen(sent.at)} by ${sayBy(sent)}, event ${sent.seq}.`, ...BODY })
  flow.heading(`Asked: ${plain(care)} of ${sayCount(elements.length)}`)
  if (!elements.length) flow.paragraph({ text: 'Nothing of this batch is away any more.', ...BODY })
  flow.table(
    ASKED,
    elements.map((each) => [...name(each), why(each), ...BLANK]),
  )
  if (held.length) {
    flow.heading('■ Held as evidence: do not clean, do not open the bag')
    const says = 'Held as evidence since it was sent. Isolate, bag, tag; do not clean. Ask the station.'
    flow.table(
      HELD,
      held.map((each) => [...name(each), [{ text: says, ...BODY, bold: true }]]),
    )
  }
  if (back.length) {
    flow.heading('Not away any more')
    flow.paragraph({ text: back.join(', '), ...BODY })
  }
  flow.heading('Sending it back')
  const rows =
    'Fill in the rows of the CSV that goes with this slip: the day in "on", serviceable or unserviceable in "result", and who did it. Add a row for any other care. The maker\'s instructions come before this slip.'
  flow.paragraph({ text: rows, ...BODY })
  flow.heading('Cautions')
  flow.paragraph({ text: slip.cautions.join(' '), ...SMALL })
  printSignatures(flow, [
    ['Sent by', sayBy(sent)],
    ['Received for care by', to],
  ])
  return flow.finish()
}

const sayCount = (number: number): string => count(number, 'element')

const name = ({ id, word, maker, model, serial, size }: Line): Cell[] => [
  [
    { text: id, ...BODY, bold: true },
    { text: word, ...SMALL },
  ],
  [{ text: [maker, model, serial && `serial ${serial}`, size].filter(Boolean).join(', ') || '–', ...SMALL }],
]
const why = ({ why: said }: Line): Cell =>
  (said.length ? said : ['Nothing against it is on record.']).map((text) => ({ text, ...BODY }))
/** Room to write in. */
const BLANK: Cell[] = [[{ text: ' ', size: 16 }], [{ text: ' ', size: 16 }], [{ text: ' ', size: 16 }]]
