// Arranges an assessment into the lines, words and tones that glass, paper, CSV and JSON all show; it judges nothing itself.
import type { Assessment, RigAssessment, SeatAssessment } from './assess.ts'
import { rowOf } from './board/row.ts'
import type { Id, Matter } from './gear.ts'
import { rollCallOf, sayHeadline, type RollCall } from './headline.ts'
import type { Kind } from './kinds.ts'
import { sayLooserRules } from './policy/in-force.ts'
import type { Condition } from './policy/shape.ts'
import { SIGNS, type Shown, type Tone } from './signs.ts'
import type { State } from './state.ts'
import type { Instant, LocalDate } from './time.ts'

export interface ReasonLine {
  element: Id | null
  kind: Kind
  state: Condition
  matter: Matter
  rule: string
  text: string
  on: LocalDate | null
  /** The department's overlay gives this rule more room than the published base. */
  looser: boolean
}

export interface PlaceLine {
  kind: Kind
  word: string
  element: Id | null
  /** `44x32, made 2019-03`, as far as the label is known. */
  label: string
  standsIn: boolean
  state: Condition
  /** The worst thing about it, as it stands within a sentence: it may begin with a name. */
  text: string
}

export interface Row {
  seat: Id
  position: string
  critical: boolean
  member: Id | null
  name: string
  state: Shown
  fit: boolean
  answered: boolean
  /** It has answered, and has other gear now. */
  changed: boolean
  /** The worst reason as a sentence; empty when there is none. It and what follows are put in words when they are asked for. */
  readonly sentence: string
  readonly reasons: ReasonLine[]
  /** What is ready, or less than it would be, only by a looser rule of the department. */
  readonly loosened: string[]
  readonly places: PlaceLine[]
}

export interface RigLine {
  id: Id
  name: string
  minimum: number
  fit: number
  canRide: boolean
  /** `can ride: 4 of 4 needed are fit` */
  words: string
  tone: Tone
  rows: Row[]
}

export interface Board {
  at: Instant
  station: string
  invented: boolean
  tour: { id: Id; platoon: string; officer: Id; officerName: string; on: LocalDate } | null
  /** Who may not ride, as one sentence. */
  headline: string
  tone: Tone
  rollCall: RollCall
  policy: { name: string; overlay: string | null; provisional: string | null; looser: string[] }
  rigs: RigLine[]
}

/** `can ride: 4 fit, 4 needed`, or which critical positions it is without. */
export function sayRig({ minimum, fit, canRide, criticalOpen }: RigAssessment): string {
  const open = criticalOpen.map((seat) => seat.position).join(', ')
  const count = `${fit} fit, ${minimum} needed`
  return canRide ? `can ride: ${count}` : `cannot ride: ${count}${open ? `; without ${open}` : ''}`
}

/** A riding position that was judged once is worded once: its member and the policy are part of the judging. */
const rowsOf = new WeakMap<SeatAssessment, Row>()

function rigLine(assessment: Assessment, state: State, rig: RigAssessment): RigLine {
  const { id, name, minimum, fit, canRide } = rig
  const words = sayRig(rig)
  const rows = rig.seats.map((seat) => {
    const row = rowsOf.get(seat) ?? rowOf(assessment.policy, state, seat)
    rowsOf.set(seat, row)
    return row
  })
  return { id, name, minimum, fit, canRide, words, tone: canRide ? 'good' : 'bad', rows }
}

export function arrange(assessment: Assessment, state: State): Board {
  const rigs = assessment.rigs.map((rig) => rigLine(assessment, state, rig))
  const { policy } = assessment
  const { tour } = state
  return {
    at: assessment.at,
    station: state.station?.name ?? '',
    invented: state.station?.invented ?? false,
    tour: tour && {
      id: tour.id,
      platoon: tour.platoon,
      officer: tour.officer,
      officerName: state.members.get(tour.officer)?.name ?? tour.officer,
      on: tour.on,
    },
    ...sayHeadline(rigs),
    rollCall: rollCallOf(state, rigs, assessment.at),
    policy: {
      name: policy.name,
      overlay: policy.overlay ?? null,
      provisional: policy.provisional ?? null,
      looser: sayLooserRules(policy),
    },
    rigs,
  }
}

/** `■ out of service` */
export const sayState = (shown: Shown, unicode: boolean): string =>
  `${SIGNS[shown][unicode ? 'symbol' : 'ascii']} ${SIGNS[shown].word}`
