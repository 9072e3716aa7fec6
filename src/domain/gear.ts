// The shapes of rigs, members and elements as they are told to the station; shared by commands and events, never by rules.
import * as z from 'zod'
import { cleanText } from './clean.ts'
import { CARES, CONSTRUCTIONS, EXPOSURES, KINDS, MEASURES } from './kinds.ts'
import { isLocalDate, isMonth } from './time.ts'

export const idShape = z
  .string()
  .regex(/^[A-Za-z0-9_.-]{1,40}$/, 'must be 1 to 40 letters, digits, "-", "_" or "."')
/** One line of words: cleaned of controls, never empty. */
export const wordsShape = z
  .string()
  .max(2000, 'is longer than 2000 characters')
  .transform(cleanText)
  .refine((text) => text.length > 0, 'must not be empty')
export const dateShape = z.string().refine(isLocalDate, 'must be a calendar date written YYYY-MM-DD')
const monthShape = z.string().refine(isMonth, 'must be a year and month written YYYY-MM')
export const matterShape = z.enum(['safety', 'compliance'])
export const resultShape = z.enum(['serviceable', 'unserviceable'])
export const careShape = z.enum(CARES)
/** Why somebody rides who is not of the platoon on duty. */
const COVERS = ['trade', 'overtime', 'detail'] as const
export const COVER_WORDS: Readonly<Record<(typeof COVERS)[number], string>> = {
  trade: 'on a trade',
  overtime: 'on overtime',
  detail: 'detailed in',
}
export const coverShape = z.enum(COVERS)
export const exposureShape = z.enum(EXPOSURES)
export const kindShape = z.enum(KINDS)
const psi = z
  .number()
  .int('must be a whole number of psi')
  .min(0, 'cannot be negative')
  .max(20_000, 'is more than any cylinder holds')
export const psiShape = psi
/** The cylinder's temperature, where somebody measured it. */
export const celsiusShape = z
  .number()
  .min(-60, 'is colder than any apparatus floor')
  .max(80, 'is hotter than any cylinder may be')
const ratedShape = psi.min(100, 'is less than any cylinder is rated for')

const seatShape = z.strictObject({
  id: idShape,
  position: wordsShape,
  critical: z.boolean().optional(),
})
export const rigShape = z.strictObject({
  id: idShape,
  name: wordsShape,
  minimum: z.number().int().min(1, 'must be at least 1').max(20),
  seats: z.array(seatShape).min(1, 'must name at least one riding position').max(20),
})

/** A care that was done to an element. */
export const doneCareShape = z.strictObject({
  element: idShape,
  care: careShape,
  on: dateShape,
  result: resultShape,
  who: wordsShape.optional(),
  note: wordsShape.optional(),
})

/** A facepiece as a fit test names it. */
export const facepieceShape = z.strictObject({ model: wordsShape, size: wordsShape })

export const doneFitTestShape = z.strictObject({
  member: idShape,
  facepiece: facepieceShape,
  on: dateShape,
  result: z.enum(['pass', 'fail']),
})

export const memberShape = z.strictObject({
  id: idShape,
  name: wordsShape,
  rank: wordsShape.optional(),
  platoon: wordsShape.optional(),
  sizes: z.partialRecord(z.enum(MEASURES), wordsShape).optional(),
})

/** What the label and the shelf card say of an element. `made` is a month; one without it is accepted and is unproven. */
export const labelShape = z.strictObject({
  maker: wordsShape.optional(),
  model: wordsShape.optional(),
  serial: wordsShape.optional(),
  size: wordsShape.optional(),
  made: monthShape.optional(),
  edition: wordsShape.optional(),
  assembly: wordsShape.optional(),
  inService: dateShape.optional(),
  ratedPsi: ratedShape.optional(),
  construction: z.enum(CONSTRUCTIONS).optional(),
})
export const elementShape = labelShape.extend({ id: idShape, kind: kindShape })
/** An element as a file brings it: with whose it is, and since when. */
export const importedShape = elementShape.extend({
  issuedTo: idShape.optional(),
  issuedOn: dateShape.optional(),
})

export const findingShape = z.strictObject({ element: idShape, point: wordsShape, matter: matterShape })

export type Id = string
export type Cover = z.infer<typeof coverShape>
export type Matter = z.infer<typeof matterShape>
export type RigFacts = z.infer<typeof rigShape>
export type MemberFacts = z.infer<typeof memberShape>
export type ElementFacts = z.infer<typeof elementShape>
export type Finding = z.infer<typeof findingShape>
export type FacepieceFacts = z.infer<typeof facepieceShape>
