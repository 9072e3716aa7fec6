// The shape of a tour's readiness log as data; but for its evidence it must never hold a field that paper and CSV do not show.
import * as z from 'zod'
import { kindShape, matterShape } from '../domain/gear.ts'
import { CONDITIONS } from '../domain/policy/shape.ts'
import { evidenceShape } from './evidence.ts'
import { reasonShape, shownShape } from './status.ts'

/** What an event belongs under, in the order of the log. */
const SECTIONS = [
  'tour',
  'crew',
  'roll-call',
  'pressures',
  'tags',
  'swaps',
  'exposures',
  'care',
  'custody',
  'notes',
  'amendments',
  'acknowledged',
  'policy',
  'books',
] as const
export type Section = (typeof SECTIONS)[number]

const instant = z.string().describe('An instant with its offset, in the time zone of the station.')
const seq = z.number().int().min(1).describe('The number of the event in the journal.')
const saidShape = z.strictObject({
  seq,
  at: instant,
  by: z.string().describe('The id of the member who said so, or "setup".'),
  byName: z.string(),
})

const entryShape = saidShape.extend({
  recordedAt: instant.nullable().describe('When it was recorded, if later than it happened.'),
  type: z.string(),
  section: z.enum(SECTIONS),
  seats: z.array(z.string()),
  members: z.array(z.string()),
  elements: z.array(z.strictObject({ id: z.string(), kind: kindShape })),
  words: z.string().describe('The event as one sentence.'),
  details: z.array(z.string()).describe('What the sentence has no room for.'),
  amendedBy: z.array(seq).describe('The events that later amended this one.'),
  amendment: z
    .strictObject({
      seq,
      why: z.string(),
      was: z.record(z.string(), z.unknown()),
      with: z.record(z.string(), z.unknown()),
    })
    .nullable(),
})

const findingEntryShape = saidShape.extend({
  from: z.enum(['roll-call', 'tag', 'care']),
  seat: z.string().nullable(),
  member: z.string().nullable(),
  element: z.string(),
  kind: kindShape.nullable(),
  point: z.string(),
  matter: matterShape,
  words: z.string(),
  done: z.array(saidShape.extend({ words: z.string() })),
})

const seatingShape = z.strictObject({
  seat: z.string(),
  member: z.string(),
  name: z.string(),
  from: instant,
  fromSeq: seq,
  beforeOpening: z.boolean().describe('Seated before the tour opened, as early relief is.'),
  relieves: z.string().nullable(),
  until: instant.nullable().describe('Null: to the close of the tour, or still riding while it is open.'),
  untilSeq: seq.nullable(),
  relievedBy: z.string().nullable(),
  relievedEarly: z.boolean().describe('By a member of another platoon before the hand-over.'),
  words: z.string(),
})

const boardSeatShape = z.strictObject({
  id: z.string(),
  position: z.string(),
  critical: z.boolean(),
  member: z.string().nullable(),
  name: z.string(),
  answered: z.boolean(),
  state: shownShape,
  fit: z.boolean(),
  reasons: z.array(reasonShape.extend({ looser: z.boolean() })),
  loosened: z
    .array(z.string())
    .describe('What is better only by a looser rule, and what the base would say.'),
  gear: z.array(
    z.strictObject({
      kind: kindShape,
      word: z.string(),
      element: z.string().nullable(),
      label: z.string(),
      standsIn: z.boolean(),
      state: z.enum(CONDITIONS),
    }),
  ),
})

export const readinessLogShape = z.strictObject({
  log: z.literal('readiness').describe('What this file is.'),
  format: z.literal(1),
  exportedAt: instant,
  station: z.strictObject({ name: z.string(), timeZone: z.string(), invented: z.boolean() }),
  /** The mark of a demonstration. */
  mark: z.string().nullable(),
  tour: z.strictObject({
    id: z.string(),
    platoon: z.string(),
    officer: z.string(),
    officerName: z.string(),
    on: z.string(),
    opened: saidShape,
    closed: saidShape.nullable().describe('Null while the tour is open.'),
    handedOverTo: z.string().nullable(),
    handedOverToName: z.string().nullable(),
  }),
  board: z.strictObject({
    at: instant.describe('The close of the tour, or the instant of export while it is open.'),
    headline: z.string(),
    rigs: z.array(
      z.strictObject({
        id: z.string(),
        name: z.string(),
        canRide: z.boolean(),
        minimum: z.number().int(),
        fit: z.number().int(),
        words: z.string(),
        seats: z.array(boardSeatShape),
      }),
    ),
  }),
  seatings: z.array(seatingShape),
  rollCall: z.strictObject({
    answered: z.number().int(),
    filled: z.number().int(),
    complete: z.boolean(),
    last: instant.nullable(),
    words: z.string(),
  }),
  findings: z.array(findingEntryShape),
  entries: z.array(entryShape).describe('Every event of the tour, in the order of the journal.'),
  laterAmendments: z.array(entryShape).describe('Amendments of these events made after the tour was closed.'),
  openItems: z.array(
    z.strictObject({
      id: z.string(),
      words: z.string(),
      by: z.string(),
      byName: z.string(),
      at: z.string(),
      element: z.string(),
      kind: kindShape.nullable(),
      acknowledged: saidShape.nullable(),
    }),
  ),
  policy: z.strictObject({
    name: z.string(),
    edition: z.string(),
    overlay: z.string().nullable(),
    provisional: z.string().nullable(),
    looser: z.array(z.string()),
    otherChanges: z.array(z.string()),
  }),
  cautions: z.array(z.string()),
  evidence: evidenceShape.describe(
    'The part of the books that the board was judged from: judged again at the same instant it gives the same board.',
  ),
  journal: z.strictObject({
    length: z.number().int().describe('How many events the journal held when this was exported.'),
    head: z.string().describe('The hash of its last line.'),
    tourEndsAt: seq.describe('The last event of the tour.'),
    tourHead: z.string().nullable().describe('The hash of that line, where it is known.'),
    seal: z.string().nullable().describe('The signed note that seals the journal up to it, if there is one.'),
  }),
})

export type ReadinessLog = z.infer<typeof readinessLogShape>
export type LogEntry = z.infer<typeof entryShape>
export type LogFinding = z.infer<typeof findingEntryShape>
export type Seating = z.infer<typeof seatingShape>
