// What every slip, tag and record says of itself: which station, when, from which journal, and the mark of invented data.
import { z } from 'zod'
import { CAUTIONS, INVENTED } from '../domain/signs.ts'
import type { State } from '../domain/state.ts'
import type { Instant } from '../domain/time.ts'

export const frameShape = z.strictObject({
  at: z.string().describe('The instant at which it was made, in the time zone of the station.'),
  station: z.string(),
  mark: z.string().nullable().describe('The mark of a demonstration: everything in it is invented.'),
  journal: z.strictObject({
    length: z.number().int().describe('How many events the journal held.'),
    head: z.string().describe('The hash of its last line.'),
  }),
  cautions: z.array(z.string()),
})
export type Frame = z.infer<typeof frameShape>

/** Who said so: `seq` is the event's number in the journal. */
export const sayingShape = z.strictObject({
  seq: z.number().int().min(1),
  at: z.string(),
  by: z.string(),
  byName: z.string(),
})

interface Made {
  at: Instant
  head: { seq: number; hash: string }
}

export const frameOf = ({ station }: State, { at, head }: Made): Frame => ({
  at,
  station: station?.name ?? '',
  mark: station?.invented ? INVENTED : null,
  journal: { length: head.seq, head: head.hash },
  cautions: [...CAUTIONS],
})
export type { Made }
