// The lines of a readiness log that show the Board as it stood; every reason is there once among the riding positions.
import type { Id } from '../domain/gear.ts'
import { CONDITIONS } from '../domain/policy/shape.ts'
import { changedSeats } from '../domain/roll-call.ts'
import { stateOf } from './evidence.ts'
import type { LogLine } from './log-line.ts'
import type { ReadinessLog } from './log-shape.ts'
import { sayWhen } from './said.ts'
import { BY_LOOSER, sayRider } from './status.ts'

/** Worst first. */
const SHOWN: readonly string[] = CONDITIONS

type Rig = ReadinessLog['board']['rigs'][0]
type Seat = Rig['seats'][0]

/** The headline and, worst reason only, each filled riding position that is not fit, worst first. */
export function unfitLines({ board }: ReadinessLog): LogLine[] {
  const unfit = board.rigs
    .flatMap(({ seats }) => seats.filter((each) => !each.fit && each.member !== null))
    .toSorted((a, b) => SHOWN.indexOf(a.state) - SHOWN.indexOf(b.state))
  return [
    {
      section: 'headline',
      level: 0,
      at: board.at,
      words: `${board.headline} As it stood ${sayWhen(board.at)}.`,
    },
    ...unfit.flatMap((seat): LogLine[] => [
      { section: 'unfit', level: 0, only: 'paper', state: seat.state, words: saySeat(seat) },
      ...seat.reasons.slice(0, 1).map(({ text, matter }): LogLine => {
        return { section: 'unfit', level: 1, only: 'paper', words: `${text} (${matter})` }
      }),
    ]),
  ]
}

export function boardLines({ board, evidence }: ReadinessLog): LogLine[] {
  const changed = changedSeats(stateOf(evidence))
  return board.rigs.flatMap((rig) => [
    { section: 'rig', level: 0, rig: rig.id, words: `${rig.name} (${rig.id}) ${rig.words}.` },
    ...rig.seats.flatMap((seat) => seatLines(rig, seat, sayAnswer(seat, changed))),
  ])
}

/** An answer speaks of the gear that was there; of other gear it is none. */
function sayAnswer({ id, member, answered }: Seat, changed: readonly Id[]): string {
  if (member === null) return ''
  if (changed.includes(id)) return ', roll call answered, gear changed since'
  return `, roll call ${answered ? 'answered' : 'not answered'}`
}

const saySeat = (seat: Seat): string => `${seat.id} ${seat.position}, ${sayRider(seat)}`

function seatLines(rig: Rig, seat: Seat, call: string): LogLine[] {
  const where = { rig: rig.id, seat: seat.id, position: seat.position, member: seat.member }
  const sayGear = ({ word, element, label, standsIn }: Seat['gear'][0]): string => {
    const notes = [label, standsIn ? 'stands in' : ''].filter(Boolean).join('; ')
    return `${word} ${element ?? 'none'}${notes && ` (${notes})`}`
  }
  const reasons = seat.reasons.map((reason): LogLine => {
    const { element, kind, state, matter, rule, on, text, looser } = reason
    const words = `${text}${looser ? BY_LOOSER : ''}`
    return { section: 'reason', level: 1, ...where, element, kind, state, matter, rule, on, words }
  })
  const rows = seat.gear.map((each): LogLine => {
    const { element, kind, state } = each
    return { section: 'gear', level: 1, only: 'rows', ...where, element, kind, state, words: sayGear(each) }
  })
  const gear: LogLine[] = seat.gear.length
    ? [{ section: 'gear', level: 1, only: 'paper', words: `Gear: ${seat.gear.map(sayGear).join(', ')}.` }]
    : []
  const loosened = seat.loosened.map((each): LogLine => ({
    section: 'loosened',
    level: 1,
    ...where,
    words: `Only by a looser rule: ${each}`,
  }))
  const words = `${saySeat(seat)}${call}`
  return [
    { section: 'seat', level: 0, ...where, state: seat.state, words },
    ...reasons,
    ...loosened,
    ...rows,
    ...gear,
  ]
}
