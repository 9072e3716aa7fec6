// The Board as `status` prints it, as data and as text for a pipe; it judges nothing and must never leave out a reason.
import { count } from '../domain/count.ts'
import * as z from 'zod'
import { sayState, type Board, type ReasonLine, type Row } from '../domain/board.ts'
import { sayRollCall } from '../domain/headline.ts'
import { kindShape, matterShape } from '../domain/gear.ts'
import { CONDITIONS } from '../domain/policy/shape.ts'
import { INVENTED } from '../domain/signs.ts'
import { sayDate } from '../domain/time.ts'
import { cleanAll } from './clean-out.ts'

export const reasonShape = z.strictObject({
  element: z.string().nullable(),
  kind: kindShape,
  state: z.enum(CONDITIONS),
  matter: matterShape,
  rule: z.string(),
  text: z.string(),
  on: z.string().nullable(),
})
export const shownShape = z.enum([...CONDITIONS, 'unfilled'])

export const statusShape = z.strictObject({
  at: z.string(),
  station: z.string(),
  tour: z.strictObject({ id: z.string(), platoon: z.string(), officer: z.string() }).nullable(),
  rigs: z.array(
    z.strictObject({
      id: z.string(),
      canRide: z.boolean(),
      minimum: z.number().int(),
      fit: z.number().int(),
      seats: z.array(
        z.strictObject({
          id: z.string(),
          position: z.string(),
          member: z.string().nullable(),
          answered: z.boolean(),
          state: shownShape,
          fit: z.boolean(),
          reasons: z.array(reasonShape),
        }),
      ),
    }),
  ),
  /** True when the station is a demonstration. */
  invented: z.boolean(),
  policy: z.strictObject({
    name: z.string(),
    overlay: z.string().nullable(),
    provisional: z.string().nullable(),
    /** Each rule that the department made looser than the published base, with its reason. */
    looser: z.array(z.string()),
  }),
  /** Why nothing can be recorded and not all of the journal is told here, if so. */
  stopped: z.string().nullable(),
  /** That an unfinished line stands at the journal's end, if one does; all before it is told. */
  torn: z.string().nullable(),
})
/** How whole the journal was that a status was taken from. */
export type Wholeness = Pick<Status, 'stopped' | 'torn'>
const WHOLE: Wholeness = { stopped: null, torn: null }

export const sayTorn = (bytes: number): string =>
  `After the last line ${count(bytes, 'byte of an unfinished one is', 'bytes of an unfinished one are')} left, which nobody was told is recorded. The next start of the board sets them aside.`

export type Status = z.infer<typeof statusShape>

export const reasonOf = ({
  element,
  kind,
  state,
  matter,
  rule,
  text,
  on,
}: ReasonLine): Status['rigs'][0]['seats'][0]['reasons'][0] => ({
  element,
  kind,
  state,
  matter,
  rule,
  text,
  on,
})

/** What `status --json` prints. */
export function statusJson(
  { at, station, tour, rigs, invented, policy }: Board,
  { stopped, torn }: Wholeness = WHOLE,
): Status {
  const { name, overlay, provisional, looser } = policy
  return cleanAll({
    at,
    station,
    tour: tour && { id: tour.id, platoon: tour.platoon, officer: tour.officer },
    rigs: rigs.map(({ id, canRide, minimum, fit, rows }) => ({
      id,
      canRide,
      minimum,
      fit,
      seats: rows.map(({ seat, position, member, answered, state, fit, reasons }) => ({
        id: seat,
        position,
        member,
        answered,
        state,
        fit,
        reasons: reasons.map(reasonOf),
      })),
    })),
    invented,
    policy: { name, overlay, provisional, looser },
    stopped,
    torn,
  })
}

/** Said after a reason that a looser rule gave: without the overlay it could be worse. */
export const BY_LOOSER = ' [by a looser rule]'

/** Who rides there: `A. Varga (M-104)`, or `nobody`. */
export const sayRider = ({ member, name }: Pick<Row, 'member' | 'name'>): string =>
  member === null ? 'nobody' : name ? `${name} (${member})` : member

/** Of a journal that is not whole nobody can say "not yet": what could not be read may have it. */
const sayInPart = (headline: string): string =>
  `As far as the journal can be read: ${headline.charAt(0).toLowerCase()}${headline.slice(1).replace(/ yet\.$/, '.')}`

/** What `status` prints: no colour, every riding position and every reason once. */
export function statusText(dirty: Board, unicode: boolean, wholeness: Wholeness = WHOLE): string {
  const board = cleanAll(dirty)
  const { stopped, torn } = cleanAll(wholeness)
  const { station, at, tour, policy } = board
  const lines = [`${station}, ${sayDate(at.slice(0, 10))} ${at.slice(11, 16)}`]
  if (board.invented) lines.push(INVENTED)
  if (stopped !== null) lines.push(stopped)
  if (torn !== null) lines.push(torn)
  lines.push(stopped === null ? board.headline : sayInPart(board.headline))
  if (tour) {
    const officer = sayRider({ member: tour.officer, name: tour.officerName })
    lines.push(`Tour ${tour.id}, platoon ${tour.platoon}, officer ${officer}.`)
  }
  lines.push(sayRollCall(board.rollCall))
  for (const { id, name, words, rows } of board.rigs) {
    lines.push('', `${name} (${id}) ${words}`, ...rows.flatMap((row) => seatLines(row, board, unicode)))
  }
  lines.push('', `Policy: ${policy.name}${policy.overlay ? `, with overlay "${policy.overlay}"` : ''}.`)
  if (policy.provisional) lines.push(`Provisional: ${policy.provisional}`)
  lines.push(...policy.looser.map((each) => `Looser than the published base: ${each}.`))
  return `${lines.join('\n')}\n`
}

function seatLines(row: Row, { tour }: Board, unicode: boolean): string[] {
  const unanswered = tour && row.member !== null && !row.answered ? ', roll call not answered' : ''
  const call = row.changed ? ', roll call answered, gear changed since' : unanswered
  return [
    `  ${sayState(row.state, unicode).padEnd(16)}  ${row.seat} ${row.position}: ${sayRider(row)}${call}`,
    ...row.loosened.map((each) => `      Only by a looser rule: ${each}`),
    ...row.reasons.map(
      (each) =>
        `      ${sayState(each.state, unicode)} (${each.matter}): ${each.text}${each.looser ? BY_LOOSER : ''}`,
    ),
  ]
}
