// The slip that goes with a batch sent away for care, and the rows the cleaner fills in; what is held as evidence is never asked to be cleaned.
import { z } from 'zod'
import type { EventOf } from '../domain/events.ts'
import { careShape } from '../domain/gear.ts'
import { plain } from '../domain/kinds.ts'
import type { State } from '../domain/state.ts'
import { cleanAll } from './clean-out.ts'
import { csvOf } from './csv.ts'
import { bagTagsOf, labelOf, outOfServiceTagsOf, sayingOf } from './gear-tags.ts'
import { frameOf, frameShape, sayingShape, type Made } from './slip-frame.ts'

const slipElementShape = z.strictObject({
  id: z.string(),
  word: z.string(),
  maker: z.string().nullable(),
  model: z.string().nullable(),
  serial: z.string().nullable(),
  size: z.string().nullable(),
  why: z
    .array(z.string())
    .describe('What it was exposed to and why it is tagged; empty where nothing is on record.'),
})

export const careSlipShape = frameShape.extend({
  slip: z.literal('care'),
  format: z.literal(1),
  sent: sayingShape,
  to: z.string(),
  care: careShape.describe('What is asked.'),
  elements: z.array(slipElementShape).describe('What is to be cared for.'),
  held: z
    .array(slipElementShape)
    .describe('Of this batch, held as evidence since it was sent: not to be cleaned.'),
  back: z.array(z.string()).describe('Of this batch, not away any more.'),
})
export type CareSlip = z.infer<typeof careSlipShape>

/** The columns of the rows that the cleaner fills in; `bayboard receive` reads them. */
const SLIP_COLUMNS = ['element', 'kind', 'serial', 'care', 'on', 'result', 'who', 'note'] as const

/** The slip of one batch as it stands now. */
export function careSlipOf(
  state: State,
  { seq, at, by, data }: EventOf<'elements-sent-away'>,
  made: Made,
): CareSlip {
  const known = data.elements.flatMap((id) => state.elements.get(id) ?? [])
  const ids = known.map((each) => each.id)
  const exposed = bagTagsOf(state, ids, made).elements
  const tagged = outOfServiceTagsOf(state, ids, made).elements
  const line = (element: (typeof known)[number]): CareSlip['elements'][0] => {
    const { id, word, maker, model, serial, size } = labelOf(element)
    const exposures = exposed.find((each) => each.id === id)?.exposures ?? []
    const reasons = tagged.find((each) => each.id === id)?.reasons ?? []
    const why = [
      ...exposures.map(({ words, incident }) => `${words}${incident ? `, at ${incident}` : ''}.`),
      ...reasons.map((each) => `Tagged: ${each.reason}.`),
    ]
    return { id, word, maker, model, serial, size, why }
  }
  const isAway = ({ custody }: (typeof known)[number]): boolean =>
    custody.where === 'away' && custody.since.seq === seq
  const held = known.filter((each) => each.custody.where === 'held')
  return cleanAll({
    slip: 'care',
    format: 1,
    ...frameOf(state, made),
    sent: sayingOf(state, { seq, at, by }),
    to: data.to,
    care: data.for,
    elements: known.filter(isAway).map(line),
    held: held.map(line),
    back: known.filter((each) => !isAway(each) && !held.includes(each)).map((each) => each.id),
  })
}

/** One row an element with the care that is asked; when, with what result and by whom is the cleaner's to say. */
export const slipRows = ({ elements, care }: CareSlip): string =>
  csvOf(
    SLIP_COLUMNS,
    elements.map(({ id, word, serial }) => ({
      element: id,
      kind: word,
      serial: serial ?? '',
      care: plain(care),
    })),
  )
