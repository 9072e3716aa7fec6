// Builds the readiness log of one tour: what was known, when, by whom, and what was done; it must never judge by today's rules.
import { assessNow, type Assessment } from '../domain/assess.ts'
import { arrange, type Board } from '../domain/board.ts'
import type { Id } from '../domain/gear.ts'
import { sayRollCall } from '../domain/headline.ts'
import { acknowledgedBy, openItems } from '../domain/items.ts'
import { plain } from '../domain/kinds.ts'
import { sayLimit } from '../domain/policy/in-force.ts'
import { CAUTIONS, INVENTED } from '../domain/signs.ts'
import type { Said, State } from '../domain/state.ts'
import type { Instant } from '../domain/time.ts'
import { cleanAll } from './clean-out.ts'
import type { Course, Followed } from './follow-tour.ts'
import { evidenceOf, stateOf } from './evidence.ts'
import { entriesOf } from './log-entries.ts'
import { findingsOf } from './log-findings.ts'
import { seatingsOf } from './log-seatings.ts'
import { readinessLogShape, type ReadinessLog } from './log-shape.ts'
import { reasonOf } from './status.ts'

export { readinessLogShape, type ReadinessLog }

export type LogAnswer = { log: ReadinessLog } | { refused: string }

interface Exported {
  tourId: Id
  /** The instant of export, in the station's time zone. */
  at: Instant
  /** The hash of the journal's last line. */
  headHash: string
  /** The signed note made when the tour was handed over, as it stands in its file. */
  seal?: string | undefined
}

/** The log of a tour that was followed to the journal's end. An unknown tour is refused, with the last few that there are. */
export function logOf(followed: Followed, { tourId, at, headHash, seal }: Exported): LogAnswer {
  const { course, state, tours, length } = followed
  if (!course) return { refused: cleanAll(sayUnknown(tourId, tours)) }
  const { opened, closed, events } = course
  const said = sayer(state)
  const assessment = assessNow(state, closed?.at ?? at)
  const board = arrange(assessment, state)
  const entries = entriesOf(course, state, events)
  const { answered, filled, complete, last } = board.rollCall
  const to = closed?.data.to ?? null
  const log: ReadinessLog = {
    log: 'readiness',
    format: 1,
    exportedAt: at,
    station: { name: board.station, timeZone: state.station?.timeZone ?? '', invented: board.invented },
    mark: board.invented ? INVENTED : null,
    tour: {
      id: opened.data.tour,
      platoon: opened.data.platoon,
      officer: opened.data.officer,
      officerName: state.members.get(opened.data.officer)?.name ?? '',
      on: opened.data.on,
      opened: said(opened),
      closed: closed && said(closed),
      handedOverTo: to,
      handedOverToName: to === null ? null : (state.members.get(to)?.name ?? ''),
    },
    board: boardOf(board),
    seatings: seatingsOf(course, state),
    rollCall: { answered, filled, complete, last, words: sayRollCall(board.rollCall) },
    findings: findingsOf(events, entries, state),
    entries,
    laterAmendments: entriesOf(course, state, course.laterAmendments),
    openItems: openItems(state).map((item) => {
      const acknowledged = acknowledgedBy(state, item)
      const { at, by } = item.opened
      const byName = state.members.get(by)?.name ?? ''
      const { id, words, about } = item
      const element = about.length === 1 ? about[0]! : ''
      const kind = state.elements.get(element)?.kind ?? null
      return {
        id,
        words,
        by,
        byName,
        at,
        element,
        kind,
        acknowledged: acknowledged ? said(acknowledged) : null,
      }
    }),
    policy: policyIn(assessment, board),
    cautions: [...CAUTIONS],
    evidence: evidenceOf(state),
    journal: journalOf(course, length, headHash),
  }
  const cleaned = cleanAll(log)
  // Its lines are signed as they are.
  return { log: { ...cleaned, journal: { ...cleaned.journal, seal: (closed && seal) ?? null } } }
}

/** The board that a log's own evidence gives, judged anew at the instant at which the log's board stood. */
export function judgedAgain({ evidence, board }: ReadinessLog): { assessment: Assessment; board: Board } {
  const state = stateOf(evidence)
  const assessment = assessNow(state, board.at)
  return { assessment, board: arrange(assessment, state) }
}

/** Does the log's board follow from its own evidence? */
export function isJudgedTrue(log: ReadinessLog): boolean {
  // The shape puts the members of both in one order.
  const told = (board: unknown): string => JSON.stringify(readinessLogShape.shape.board.parse(board))
  return told(cleanAll(boardOf(judgedAgain(log).board))) === told(log.board)
}

const sayUnknown = (tourId: Id, tours: readonly Id[]): string =>
  tours.length === 0
    ? 'No tour has been opened at this station yet, so there is no readiness log. Nothing was changed.'
    : `There is no tour ${tourId} in this journal. The last tours are: ${tours.slice(-5).join(', ')}. Name one of them, or "last".`

const sayer =
  (state: State) =>
  ({ seq, at, by }: Said) => ({ seq, at, by, byName: state.members.get(by)?.name ?? '' })

const boardOf = ({ at, headline, rigs }: Board): ReadinessLog['board'] => ({
  at,
  headline,
  rigs: rigs.map(({ id, name, canRide, minimum, fit, words, rows }) => ({
    id,
    name,
    canRide,
    minimum,
    fit,
    words,
    seats: rows.map(
      ({ seat, position, critical, member, name, answered, state, fit, reasons, loosened, places }) => ({
        id: seat,
        position,
        critical,
        member,
        name,
        answered,
        state,
        fit,
        reasons: reasons.map((each) => ({ ...reasonOf(each), looser: each.looser })),
        loosened,
        gear: places.map(({ kind, word, element, label, standsIn, state }) => ({
          kind,
          word,
          element,
          label,
          standsIn,
          state,
        })),
      }),
    ),
  })),
})

function policyIn({ policy }: Assessment, board: Board): ReadinessLog['policy'] {
  const otherChanges = policy.rules.flatMap(({ rule, reason, looser }) =>
    reason !== undefined && looser === undefined
      ? [`${plain(rule.id)}: ${rule.limit ? `limit ${sayLimit(rule.limit)}` : rule.past} (${reason})`]
      : [],
  )
  return { ...board.policy, edition: policy.edition, otherChanges }
}

function journalOf({ events }: Course, length: number, head: string): ReadinessLog['journal'] {
  const last = events.at(-1)!
  const tourHead = last.hash ?? (last.seq === length ? head : null)
  return { length, head, tourEndsAt: last.seq, tourHead, seal: null }
}
