// The part of the books that a board was judged from, as data: judged again it gives the same board. It must never hold a PIN.
import * as z from 'zod'
import {
  careShape,
  elementShape,
  exposureShape,
  facepieceShape,
  findingShape,
  matterShape,
  memberShape,
  resultShape,
} from '../domain/gear.ts'
import { KINDS } from '../domain/kinds.ts'
import { overlayShape } from '../domain/policy/shape.ts'
import { assigned, emptyState, holderOf, place, type Element, type State } from '../domain/state.ts'
import { Table } from '../domain/table.ts'

const id = z.string()
const said = { seq: z.number().int(), at: z.string(), by: id }
const since = z.strictObject(said)
const away = z.strictObject({ where: z.literal('away'), to: z.string(), for: careShape, since })
const custody = z.discriminatedUnion('where', [
  z.strictObject({ where: z.literal('rack') }),
  z.strictObject({ where: z.literal('issued') }),
  z.strictObject({ where: z.literal('rig') }),
  away,
  z.strictObject({
    where: z.literal('held'),
    reason: z.string(),
    since,
    was: away.optional().describe('It was away when it was held.'),
  }),
  z.strictObject({ where: z.literal('retired'), reason: z.string(), disposal: z.string(), since }),
])

export const evidenceShape = z.strictObject({
  station: z.strictObject({
    name: z.string(),
    timeZone: z.string(),
    rotation: z.string(),
    starts: z.string(),
    policy: z.string().describe('The id of the published base policy.'),
    invented: z.boolean().optional(),
    format: z.literal(1),
    madeAt: z.string(),
  }),
  overlay: overlayShape.nullable().describe("The department's overlay in force."),
  tour: z
    .strictObject({
      id,
      platoon: z.string(),
      officer: id,
      on: z.string(),
      opened: since,
      answers: z.array(z.strictObject({ seat: id, member: id, findings: z.array(findingShape), ...said })),
    })
    .nullable(),
  rigs: z.array(z.strictObject({ id, name: z.string(), minimum: z.number().int(), seats: z.array(id) })),
  seats: z.array(
    z.strictObject({ id, rig: id, position: z.string(), critical: z.boolean(), member: id.nullable() }),
  ),
  members: z
    .array(
      memberShape.extend({
        fitTests: z.array(
          z.strictObject({
            ...said,
            facepiece: facepieceShape,
            on: z.string(),
            result: z.enum(['pass', 'fail']),
          }),
        ),
      }),
    )
    .describe('Whoever is seated, and the officer.'),
  gear: z
    .array(
      z.strictObject({
        holder: id.describe('A member, or a riding position for an air pack or cylinder.'),
        standsIn: since.nullable().describe('When it was put in the place of another.'),
        element: elementShape.extend({
          seq: z.number().int(),
          issuedTo: id.nullable(),
          issuedOn: z.string().nullable(),
          custody,
          tags: z.array(z.strictObject({ ...said, reason: z.string(), matter: matterShape })),
          cares: z.array(
            z.strictObject({
              ...said,
              care: careShape,
              on: z.string(),
              result: resultShape,
              who: z.string().optional(),
            }),
          ),
          exposures: z.array(
            z.strictObject({ ...said, exposure: exposureShape, incident: z.string().optional() }),
          ),
          called: since.optional(),
          readings: z.array(z.strictObject({ ...said, psi: z.number(), celsius: z.number().optional() })),
          back: since.optional().describe('When it came back from other hands: it is read again after that.'),
        }),
      }),
    )
    .describe('What is in the place of each seated member and riding position, kind by kind.'),
})
export type Evidence = z.infer<typeof evidenceShape>

/** Only what the riding positions of a board are judged by: not the rack, not who is off duty, no PIN. */
export function evidenceOf(state: State): Evidence {
  const { station, overlay, tour } = state
  const seats = [...state.seats.values()]
  const shown = new Set([...seats.flatMap((seat) => seat.member ?? []), ...(tour ? [tour.officer] : [])])
  return {
    station: { ...station! },
    overlay,
    tour: tour && {
      id: tour.id,
      platoon: tour.platoon,
      officer: tour.officer,
      on: tour.on,
      opened: tour.opened,
      // By riding position: in what order the books hold them depends on when they were last read from disk.
      answers: seats.flatMap(({ id }) => {
        const answer = tour.answers.get(id)
        return answer ? [{ seat: id, ...answer }] : []
      }),
    },
    rigs: [...state.rigs.values()],
    seats: seats.map(({ id, rig, position, critical, member }) => ({ id, rig, position, critical, member })),
    members: [...shown].flatMap((each) => {
      const member = state.members.get(each)
      if (!member) return []
      const { id, name, rank, platoon, sizes, fitTests } = member
      return {
        id,
        name,
        ...(rank && { rank }),
        ...(platoon && { platoon }),
        ...(sizes && { sizes }),
        fitTests,
      }
    }),
    gear: seats.flatMap((seat) =>
      KINDS.flatMap((kind) => {
        const holder = holderOf(seat, kind)
        const found = assigned(state, holder, kind)
        if (holder === null || !found) return []
        const { calledBefore: _, ...element } = found
        const standIn = state.standIns.get(place(holder, kind))
        const standsIn = standIn ? { seq: standIn.seq, at: standIn.at, by: standIn.by } : null
        return { holder, standsIn, element }
      }),
    ),
  }
}

/** The books that the evidence stands for: as much of them as a board is judged from. */
export function stateOf(evidence: Evidence): State {
  const { station, overlay, tour, rigs, seats, members, gear } = evidence
  const riding = new Map(seats.flatMap(({ id, member }) => (member === null ? [] : [[member, id] as const])))
  const state = emptyState()
  const books: State = {
    ...state,
    station: station as State['station'],
    overlay,
    tour: tour && {
      ...tour,
      answers: new Table(tour.answers.map(({ seat, ...answer }) => [seat, answer] as const)),
      acknowledged: new Map(),
    },
    rigs: new Table(rigs.map((each) => [each.id, each] as const)),
    seats: new Table(seats.map((each) => [each.id, each] as const)),
    members: new Table(
      members.map((each) => [each.id, { ...each, seq: 0, seat: riding.get(each.id) ?? null }] as const),
    ) as State['members'],
  }
  for (const { holder, standsIn, element: told } of gear) {
    const element = told as Element
    const key = place(holder, element.kind)
    books.elements.set(element.id, element)
    if (!standsIn) books.issued.set(key, [element.id])
    else {
      const nobodyElses = { kind: element.kind, holder, element: element.id, own: null, seat: '' }
      books.standIns.set(key, { ...standsIn, ...nobodyElses })
    }
  }
  return books
}
