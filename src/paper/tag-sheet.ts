// Out-of-service tags and bag tags, four to a sheet, to be cut apart; it must never leave a tag without its reason.
import { plain } from '../domain/kinds.ts'
import { SIGNS } from '../domain/signs.ts'
import type { BagTags, GearLabel, OutOfServiceTags } from '../exports/gear-tags.ts'
import { sayBy, sayWhen } from '../exports/said.ts'
import { drawCode } from './codes.ts'
import { cutTo, faceFor, printInBox, type Box } from './fit-text.ts'
import { lineHeight, MM, type Press } from './press.ts'
import type { Paragraph } from './set-lines.ts'

const EDGE = 8 * MM
const GAP = 4 * MM
const PAD = 4 * MM
const ACROSS = 2
const DOWN = 2

interface Tag {
  band: string
  label: GearLabel
  told: Paragraph[]
  /** What is filled in by hand, one line each. */
  lines: string[]
}
type Sheet = Pick<BagTags, 'station' | 'mark' | 'at'>

export const printOutOfServiceTags = (press: Press, tags: OutOfServiceTags): Promise<Buffer> =>
  printTags(
    press,
    tags,
    tags.elements.map(({ reasons, ...label }) => ({
      band: `${SIGNS['out-of-service'].symbol} OUT OF SERVICE`,
      label,
      told: [
        ...reasons.flatMap(({ reason, matter, at, ...said }): Paragraph[] => [
          { text: `${reason} (${matter})`, size: 14, bold: true },
          { text: `Tagged ${sayWhen(at)} by ${sayBy(said)}, event ${said.seq}.`, size: 9 },
        ]),
        { text: 'Do not wear, do not ride. The tag is lifted only on a stated basis.', size: 10 },
      ],
      lines: ['Lifted on this basis', 'By, date and time'],
    })),
  )

export const printBagTags = (press: Press, tags: BagTags): Promise<Buffer> =>
  printTags(
    press,
    tags,
    tags.elements.map(({ exposures, held, ...label }) => ({
      band: held
        ? '■ HELD AS EVIDENCE: DO NOT CLEAN'
        : isOnlyWet(exposures)
          ? '■ WET GEAR'
          : '■ CONTAMINATED GEAR',
      label,
      told: [
        ...(held
          ? [
              { text: held.reason, size: 14, bold: true },
              { text: `Held since ${sayWhen(held.at)} by ${sayBy(held)}, event ${held.seq}.`, size: 9 },
              { text: 'Isolate, bag, tag; keep the chain of custody; do not clean.', size: 10 },
            ]
          : []),
        ...exposures.flatMap(({ words, incident, careNeeded }): Paragraph[] => [
          { text: `${words}.`, size: 12, bold: !held },
          { text: `Incident: ${incident ?? 'not on record'}.`, size: 10 },
          ...(held
            ? []
            : [{ text: `Care needed: ${careNeeded.map(plain).join(' or ')}.`, size: 12, bold: true }]),
        ]),
        { text: 'Not ready. Keep it bagged and apart; do not wear.', size: 10 },
      ],
      lines: held
        ? ['Bagged by, date and time', 'Handed to, date and time', 'Handed to, date and time']
        : ['Bagged by, date and time', 'Received for cleaning by, date and time'],
    })),
  )

const isOnlyWet = (exposures: BagTags['elements'][0]['exposures']): boolean =>
  exposures.every(({ careNeeded }) => careNeeded.every((care) => care === 'drying'))

function printTags(press: Press, sheet: Sheet, tags: readonly Tag[]): Promise<Buffer> {
  const width = (press.width - 2 * EDGE - (ACROSS - 1) * GAP) / ACROSS
  const height = (press.height - 2 * EDGE - (DOWN - 1) * GAP) / DOWN
  tags.forEach((tag, at) => {
    const onPage = at % (ACROSS * DOWN)
    if (at > 0 && onPage === 0) press.newPage()
    const x = EDGE + (onPage % ACROSS) * (width + GAP)
    const y = EDGE + Math.floor(onPage / ACROSS) * (height + GAP)
    printTag(press, sheet, tag, { x, y, width, height })
  })
  return press.finish(() => undefined)
}

const BAND = 12 * MM
const CODE = 16 * MM
const LINE = 10 * MM
const FOOT = { size: 6 }

function printTag(
  press: Press,
  { station, mark, at }: Sheet,
  { band, label, told, lines }: Tag,
  box: Box,
): void {
  const { doc } = press
  doc.rect(box.x, box.y, box.width, box.height).lineWidth(1.2).stroke('#000000')
  doc.rect(box.x, box.y, box.width, BAND).fill('#000000')
  const bandFace = faceFor(press, band, box.width - 2 * PAD, { size: 18, bold: true })
  doc.fillColor('#ffffff')
  press.write(band, box.x + PAD, box.y + (BAND - lineHeight(bandFace)) / 2, bandFace)
  doc.fillColor('#000000')

  const x = box.x + PAD
  const width = box.width - 2 * PAD
  let y = box.y + BAND + 2 * MM
  const idFace = faceFor(press, label.id, width, { size: 20, bold: true })
  press.write(press.printable(label.id), x, y, idFace)
  y += lineHeight(idFace)
  const about = [label.word, label.size, label.maker, label.model, label.serial && `serial ${label.serial}`]
  const aboutBox = { x, y, width, height: 24 }
  y += printInBox(press, [{ text: about.filter(Boolean).join(', '), size: 8.5 }], aboutBox, 'more on record')
  const codeBox = { x, y: y + 2 * MM, width, height: CODE }
  if (!drawCode(press, 'code128', label.id, codeBox)) drawCode(press, 'qr', label.id, codeBox)
  y += CODE + 4 * MM

  const footTop = box.y + box.height - PAD - 2 * lineHeight(FOOT)
  const linesTop = footTop - lines.length * LINE
  printInBox(
    press,
    told,
    { x, y, width, height: linesTop - y },
    `More is on record: bayboard history ${label.id}`,
  )
  lines.forEach((text, at) => {
    const down = linesTop + (at + 1) * LINE - 9
    doc
      .moveTo(x, down)
      .lineTo(x + width, down)
      .lineWidth(0.6)
      .stroke('#000000')
    press.write(text, x, down + 1.5, FOOT)
  })
  const foot = cutTo(press, `Printed ${sayWhen(at)}, ${station}`, width, FOOT)
  press.write(foot, x, footTop + 4, FOOT)
  if (mark !== null) press.write(mark, x, footTop + 4 + lineHeight(FOOT), { ...FOOT, bold: true })
}
