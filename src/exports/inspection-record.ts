// The inspections of breathing apparatus as the regulation has them certified; it must never make an inspection of what was none.
import { z } from 'zod'
import { sayMember } from '../domain/decide/decision.ts'
import type { Event } from '../domain/events.ts'
import { apply } from '../domain/evolve.ts'
import { kindShape, type Id } from '../domain/gear.ts'
import { plain, wordOf, type Care, type Kind } from '../domain/kinds.ts'
import { isLow } from '../domain/rules/conditions.ts'
import { ensembleAt } from '../domain/ensemble.ts'
import { emptyState, type State } from '../domain/state.ts'
import { aboutOf } from '../domain/about.ts'
import { tell } from '../domain/tell.ts'
import { dateOf, type LocalDate } from '../domain/time.ts'
import { cleanAll } from './clean-out.ts'
import { caresIn } from './record-cares.ts'
import { NOT_ON_RECORD } from './record-shape.ts'
import { sayWhen } from './said.ts'
import { frameOf, frameShape, type Made } from './slip-frame.ts'

/** Source: 29 CFR 1910.134(h)(3)(iv): date, name or signature, findings, remedial action, serial number or other means of identifying it. */
const CERTIFIED_BY = '29 CFR 1910.134(h)(3)(iv)'
export const BREATHING: readonly Kind[] = ['facepiece', 'air-pack', 'cylinder']

const inspectionShape = z.strictObject({
  seq: z.number().int().min(1),
  date: z.string(),
  inspector: z.string(),
  how: z.string().describe('As which act it was recorded.'),
  findings: z.string(),
  remedialAction: z.string(),
  withdrawn: z.boolean().describe('It should never have been recorded; it stays visible.'),
})

export const inspectionRecordShape = frameShape.extend({
  record: z.literal('inspection'),
  format: z.literal(1),
  regulation: z.literal(CERTIFIED_BY),
  since: z
    .string()
    .nullable()
    .describe('The first day looked at; null where only the last inspection is given.'),
  elements: z.array(
    z.strictObject({
      id: z.string(),
      kind: kindShape,
      word: z.string(),
      serial: z.string().nullable().describe('Null: not on record; the id then tells it apart.'),
      inspections: z.array(inspectionShape).describe('Empty: none is on record.'),
    }),
  ),
})
export type InspectionRecord = z.infer<typeof inspectionRecordShape>

/** A care that looks at apparatus. */
const LOOKING: readonly Care[] = [
  'routine-inspection',
  'advanced-inspection',
  'function-check',
  'flow-test',
  'hydrostatic-test',
]
/** At or below nine tenths of the rated pressure a cylinder is recharged. Source: 29 CFR 1910.134(h)(3)(iii). */
const RECHARGED_AT = 0.9

interface Found {
  event: Event
  on: LocalDate
  inspector: string
  how: string
  findings: string[]
  /** What was done about it before the next look, as it happened. */
  done: string[]
  withdrawn: boolean
}

/** Give it every event in order, then ask for the record of these elements: the last inspection of each, or all since a day. */
export function followInspections(ids: readonly Id[], since: LocalDate | null) {
  const state = emptyState()
  const found = new Map<Id, Found[]>(ids.map((id) => [id, []]))

  function keep(id: Id, one: Found): void {
    const before = found.get(id)
    if (!before || (since !== null && one.on < since)) return
    if (since !== null) found.set(id, [...before, one])
    // What is entered late never hides what was looked at since.
    else if (!before[0] || before[0].withdrawn || before[0].on <= one.on) found.set(id, [one])
  }
  function withdraw(seq: number, subject: Id): void {
    for (const [id, all] of found)
      for (const one of all)
        if (one.event.seq === seq && (subject === '' || subject === id || state.seats.has(subject)))
          one.withdrawn = true
  }

  return {
    see(event: Event): void {
      const looks = looksIn(event, state)
      apply(state, event)
      for (const id of new Set(aboutOf(event))) {
        const last = found.get(id)?.findLast((each) => !each.withdrawn)
        if (last && REMEDIES.includes(event.type))
          last.done.push(`${sayWhen(event.at)}: ${tell(event, state)}`)
      }
      for (const [id, look] of looks) keep(id, { event, done: [], withdrawn: false, ...look })
      if (event.type === 'event-amended' && event.data.with['withdrawn'])
        withdraw(event.data.seq, event.data.subject)
    },
    end: (now: State, made: Made): InspectionRecord =>
      cleanAll({
        record: 'inspection',
        format: 1,
        regulation: CERTIFIED_BY,
        since,
        ...frameOf(now, made),
        elements: [...found].flatMap(([id, all]) => {
          const element = now.elements.get(id)
          if (!element) return []
          const { kind, serial } = element
          return [
            {
              id,
              kind,
              word: wordOf(kind),
              serial: serial ?? null,
              inspections: all.map(told),
            },
          ]
        }),
      }),
  }
}

const REMEDIES: readonly Event['type'][] = [
  'element-tagged',
  'tag-lifted',
  'element-swapped',
  'elements-sent-away',
  'elements-received-back',
  'batch-received',
  'care-recorded',
  'pressure-read',
  'element-held',
  'element-retired',
]

type Look = Pick<Found, 'on' | 'inspector' | 'how' | 'findings'>

/** Which apparatus an event looked at, in the state before it. */
function looksIn(event: Event, state: State): Map<Id, Look> {
  const looks = new Map<Id, Look>()
  const { at, by } = event
  if (event.type === 'seat-answered') {
    const seat = state.seats.get(event.data.seat)
    const inspector = sayMember(state, event.data.member)
    for (const { id, kind } of seat ? ensembleAt(state, seat) : []) {
      if (!BREATHING.includes(kind)) continue
      const findings = event.data.findings.filter((each) => each.element === id).map((each) => each.point)
      looks.set(id, { on: dateOf(at), inspector, how: `roll call of ${event.data.seat}`, findings })
    }
  }
  if (event.type === 'pressure-read') {
    const { element: id, psi } = event.data
    const rated = state.elements.get(id)?.ratedPsi
    const low = rated !== undefined && isLow(psi, rated, RECHARGED_AT)
    const findings = low ? [`${psi} psi is at or below 90% of ${rated}`] : []
    const how = `gauge read, ${psi} psi${rated === undefined ? '' : ` of ${rated}`}`
    looks.set(id, { on: dateOf(at), inspector: sayMember(state, by), how, findings })
  }
  for (const { element: id, care, on, result, who, note } of caresIn(event)) {
    const kind = state.elements.get(id)?.kind
    if (!kind || !BREATHING.includes(kind) || !LOOKING.includes(care)) continue
    const findings = result === 'unserviceable' ? [`unserviceable${note ? `: ${note}` : ''}`] : []
    const how = `${plain(care)}, ${result}${note ? ` (${note})` : ''}`
    looks.set(id, { on, inspector: who ?? sayMember(state, by), how, findings })
  }
  return looks
}

function told({
  event,
  on,
  inspector,
  how,
  findings,
  done,
  withdrawn,
}: Found): InspectionRecord['elements'][0]['inspections'][0] {
  const remedies = done.length ? done.join(' ') : `Anything more is ${NOT_ON_RECORD}.`
  return {
    seq: event.seq,
    date: on,
    inspector,
    how,
    findings: findings.length ? findings.join('; ') : 'none',
    remedialAction: findings.length
      ? `${isTagging(event) ? 'Removed from service. ' : ''}${remedies}`
      : 'none needed',
    withdrawn,
  }
}

/** A finding at roll call and an unserviceable result tag the element in the same act. */
const isTagging = ({ type }: Event): boolean => type !== 'pressure-read'
