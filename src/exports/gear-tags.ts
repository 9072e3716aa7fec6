// What goes on a gear label, an out-of-service tag and a bag tag; it must never let contaminated or held gear pass for clean.
import { z } from 'zod'
import { capital } from '../domain/decide/decision.ts'
import { explain } from '../domain/explain.ts'
import { kindShape, matterShape, type Id } from '../domain/gear.ts'
import { plain, wordOf } from '../domain/kinds.ts'
import { policyOf } from '../domain/policy/in-force.ts'
import type { Element, Said, State } from '../domain/state.ts'
import type { Verdict } from '../domain/rules/verdict.ts'
import { dateOf, sayDate } from '../domain/time.ts'
import { cleanAll } from './clean-out.ts'
import { frameOf, frameShape, sayingShape, type Made } from './slip-frame.ts'

const labelShape = z.strictObject({
  id: z.string().describe('What the bar code says.'),
  kind: kindShape,
  word: z.string(),
  maker: z.string().nullable(),
  model: z.string().nullable(),
  serial: z.string().nullable(),
  size: z.string().nullable(),
  made: z.string().nullable(),
})

export const labelsShape = frameShape.extend({
  tags: z.literal('labels'),
  format: z.literal(1),
  labels: z.array(labelShape),
})

export const outOfServiceTagsShape = frameShape.extend({
  tags: z.literal('out-of-service'),
  format: z.literal(1),
  elements: z.array(
    labelShape.extend({
      reasons: z.array(sayingShape.extend({ reason: z.string(), matter: matterShape })).min(1),
    }),
  ),
})

export const bagTagsShape = frameShape.extend({
  tags: z.literal('bag'),
  format: z.literal(1),
  elements: z.array(
    labelShape.extend({
      exposures: z.array(
        z.strictObject({
          words: z.string(),
          incident: z.string().nullable(),
          on: z.string().nullable(),
          careNeeded: z.array(z.string()),
        }),
      ),
      held: sayingShape
        .extend({ reason: z.string() })
        .nullable()
        .describe('Held as evidence: then it is not cleaned, whatever it was exposed to.'),
    }),
  ),
})

export type GearLabel = z.infer<typeof labelShape>
export type Labels = z.infer<typeof labelsShape>
export type OutOfServiceTags = z.infer<typeof outOfServiceTagsShape>
export type BagTags = z.infer<typeof bagTagsShape>

export const labelOf = ({ id, kind, maker, model, serial, size, made }: Element): GearLabel => ({
  id,
  kind,
  word: wordOf(kind),
  maker: maker ?? null,
  model: model ?? null,
  serial: serial ?? null,
  size: size ?? null,
  made: made ?? null,
})

/** Who said so, with the name. */
export const sayingOf = (state: State, { seq, at, by }: Said) => ({
  seq,
  at,
  by,
  byName: state.members.get(by)?.name ?? '',
})

const elementsOf = (state: State, ids: readonly Id[]): Element[] =>
  ids.flatMap((id) => state.elements.get(id) ?? [])

export const labelsOf = (state: State, ids: readonly Id[], made: Made): Labels =>
  cleanAll({
    tags: 'labels',
    format: 1,
    ...frameOf(state, made),
    labels: elementsOf(state, ids).map(labelOf),
  })

/** A tag for each of them that is tagged. */
export const outOfServiceTagsOf = (state: State, ids: readonly Id[], made: Made): OutOfServiceTags =>
  cleanAll({
    tags: 'out-of-service',
    format: 1,
    ...frameOf(state, made),
    elements: elementsOf(state, ids)
      .filter(({ tags, custody }) => tags.length > 0 && custody.where !== 'retired')
      .map((element) => ({
        ...labelOf(element),
        reasons: element.tags.map(({ reason, matter, ...said }) => ({
          ...sayingOf(state, said),
          reason,
          matter,
        })),
      })),
  })

/** A tag for each of them that is contaminated or wet by the rules in force, or held as evidence. */
export const bagTagsOf = (state: State, ids: readonly Id[], made: Made): BagTags =>
  cleanAll({
    tags: 'bag',
    format: 1,
    ...frameOf(state, made),
    elements: elementsOf(state, ids).flatMap((element) => {
      const { custody } = element
      const exposures = openExposures(state, element, made.at)
      const held =
        custody.where === 'held' ? { ...sayingOf(state, custody.since), reason: custody.reason } : null
      return exposures.length || held ? [{ ...labelOf(element), exposures, held }] : []
    }),
  })

/** What needs to be done is said apart: of held gear it must not be. */
const sayExposure = (since: Verdict['since']): string =>
  since ? `${capital(since.what)} on ${sayDate(since.on)}` : 'Exposed, it is not on record when'

/** What the rules say it was exposed to and not cleaned of since; a rule switched off does not make it clean. */
function openExposures(state: State, element: Element, at: string): BagTags['elements'][0]['exposures'] {
  return explain(state, policyOf(state), at, element.id).flatMap(({ rule, verdict }) => {
    if (!('exposure' in rule.watch)) return []
    if (verdict.state === 'ready' && verdict.loosened === undefined) return []
    const { exposure, clearedBy } = rule.watch
    const on = verdict.since?.on ?? null
    const record = element.exposures.findLast((each) => each.exposure === exposure && dateOf(each.at) === on)
    return [
      {
        words: sayExposure(verdict.since),
        incident: record?.incident ?? null,
        on,
        careNeeded: clearedBy.map(plain),
      },
    ]
  })
}
