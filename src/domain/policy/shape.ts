// The shape of a policy and of a department's overlay; a rule is data and must never hold code.
import * as z from 'zod'
import { cleanText } from '../clean.ts'
import { CARES, CONSTRUCTIONS, EXPOSURES, KINDS } from '../kinds.ts'
import { DURATION } from '../time.ts'

/** States of an element and of a seat's row, worst first. */
export const CONDITIONS = ['out-of-service', 'missing', 'expired', 'unproven', 'due', 'ready'] as const
export type Condition = (typeof CONDITIONS)[number]

const words = z
  .string()
  .max(500)
  .transform(cleanText)
  .refine((text) => text.length > 0, 'must not be empty')
const ruleId = z.string().regex(/^[a-z0-9][a-z0-9-]{0,59}$/, 'must be lower-case letters, digits and "-"')
/** A pattern, so that the published schema says how a duration is written. */
const duration = z.string().regex(DURATION, 'must be a duration such as P10Y, P6M or P60D')
const care = z.enum(CARES)

/** What a rule looks at. */
const watchShape = z.union([
  /** The label's month of manufacture. The element is not fit from the day the limit falls. */
  z.strictObject({ since: z.literal('manufactured') }),
  /** The newest care of a kind, or what stands for it before there is one. Fit through the day the limit falls. */
  z.strictObject({
    since: z.literal('care'),
    care,
    orElse: z.enum(['issued', 'manufactured']).optional(),
  }),
  /** The wearer's fit test with the facepiece they have. Fit through the anniversary. */
  z.strictObject({ since: z.literal('fit-test') }),
  z.strictObject({
    exposure: z.enum(EXPOSURES),
    clearedBy: z
      .array(care)
      .min(1)
      .refine(
        (cares) => !cares.includes('preliminary-exposure-reduction'),
        'must not name preliminary exposure reduction: it is not cleaning and clears nothing',
      ),
  }),
  /** The element must be there; with `whenEdition`, only if the part it belongs to is labelled so. */
  z.strictObject({
    part: z.literal('always').or(z.enum(KINDS)),
    whenEdition: z
      .string()
      .regex(/^>=\d{4}$/, 'must be written as >=2007')
      .optional(),
  }),
  /** Layers that make one assembly. */
  z.strictObject({ matches: z.enum(KINDS), by: z.array(z.enum(['assembly', 'size'])).min(1) }),
  /** The wearer's measure; how far each number of the size may be over it. Never smaller. */
  z.strictObject({ fits: z.literal('member'), over: z.array(z.number().min(0)).max(3) }),
  z.strictObject({
    reading: z.literal('pressure'),
    /** Whole percents, so that the boundary is exact. */
    atMost: z
      .number()
      .gt(0)
      .lt(1)
      .refine((part) => Math.round(part * 100) / 100 === part, 'must be a whole percentage such as 0.9'),
    of: z.literal('rated'),
  }),
  z.strictObject({ tagged: z.literal(true) }),
])

const sourceShape = z.strictObject({
  document: words,
  edition: words.optional(),
  clause: words.optional(),
  standing: z.enum(['published', 'common practice', 'from memory']),
})

export const ruleShape = z.strictObject({
  id: ruleId,
  kinds: z.array(z.enum(KINDS)).min(1),
  matter: z.enum(['safety', 'compliance']),
  watch: watchShape,
  /** One duration, or one for each construction of a cylinder; a construction left out has no limit. */
  limit: duration.or(z.partialRecord(z.enum(CONSTRUCTIONS), duration)).optional(),
  /** The limit before the first care, where it differs. */
  first: duration.optional(),
  warn: duration.optional(),
  past: z.enum(['out-of-service', 'missing', 'expired', 'due']),
  source: sourceShape,
  why: words,
  /** What to do about it, said after every verdict that is not `ready`. */
  advice: words.optional(),
})
export type Rule = z.infer<typeof ruleShape>

export const baseShape = z.strictObject({
  id: z.string(),
  name: words,
  edition: words,
  /** Said wherever the policy is named, when any of it is not confirmed. */
  provisional: words.optional(),
  rules: z.array(ruleShape).min(1),
})
export type BasePolicy = z.infer<typeof baseShape>

const changeShape = z.strictObject({
  id: ruleId,
  limit: ruleShape.shape.limit,
  first: duration.optional(),
  warn: duration.optional(),
  past: ruleShape.shape.past.optional(),
  off: z.literal(true).optional(),
  reason: words,
})
export const overlayShape = z.strictObject({
  name: words,
  adoptedBy: words.optional(),
  /** Set where nobody is to be asked to change seats so that more rigs can ride. */
  moves: z.literal('never').optional(),
  changes: z.array(changeShape).max(200).default([]),
  add: z
    .array(ruleShape.extend({ reason: words }))
    .max(200)
    .default([]),
})
export type Overlay = z.infer<typeof overlayShape>
export type RuleChange = z.infer<typeof changeShape>

/** A rule as it is in force. */
export interface RuleInForce {
  rule: Rule
  /** The published rule, where the department's is looser: what it would have said is never hidden. */
  base?: Rule
  /** Why the department changed or added it. */
  reason?: string
  /** It is the department's own: no published rule was changed. */
  isAdded?: true
  /** How it is looser than the published base, in words. */
  looser?: string
}
export interface Policy {
  name: string
  edition: string
  provisional?: string
  overlay?: string
  moves?: 'never'
  rules: RuleInForce[]
  /** Rules the department switched off, which is always looser. */
  off: { rule: Rule; reason: string }[]
}
