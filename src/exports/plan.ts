// The plan as `plan` prints it, as data and as text; it decides nothing and must never leave out a seat.
import * as z from 'zod'
import { kindShape } from '../domain/gear.ts'
import { GOALS } from '../domain/plan/model.ts'
import type { Plan, PlannedSeat } from '../domain/plan/plan.ts'
import { sayMove, sayRigChange } from '../domain/plan/words.ts'
import { INVENTED } from '../domain/signs.ts'
import type { State } from '../domain/state.ts'
import { clockOf, dateOf, sayDate } from '../domain/time.ts'
import { cleanAll } from './clean-out.ts'

const sideShape = z.strictObject({ canRide: z.boolean(), fit: z.number().int(), words: z.string() })
const commandShape = z
  .strictObject({
    do: z.literal('swap'),
    seat: z.string(),
    in: z.string(),
    out: z.string().optional(),
    reason: z.string().optional(),
  })
  .describe('What `record` takes, once "by" says who gives it')

export const planShape = z.strictObject({
  at: z.string(),
  station: z.string(),
  tour: z.string().nullable(),
  /** The event it stands on. */
  seq: z.number().int(),
  words: z.string(),
  /** No better use of the rack exists. */
  proven: z.boolean(),
  rigs: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      minimum: z.number().int(),
      before: sideShape,
      after: sideShape,
    }),
  ),
  /** Every filled riding position that is unfit. */
  seats: z.array(
    z.strictObject({
      seat: z.string(),
      position: z.string(),
      critical: z.boolean(),
      rig: z.string(),
      member: z.string(),
      name: z.string(),
      becomesFit: z.boolean(),
      swaps: z.array(
        z.strictObject({
          kinds: z.array(kindShape),
          in: z.array(z.string()),
          out: z.array(z.string()),
          what: z.string(),
          why: z.array(z.string()),
          commands: z.array(commandShape),
        }),
      ),
      shortages: z.array(z.string()),
    }),
  ),
  /** What was made the most of, in strict order. */
  goals: z.array(
    z.strictObject({
      goal: z.enum(GOALS),
      value: z.number().int(),
      bound: z.number().int().nullable(),
      proven: z.boolean(),
      words: z.string(),
    }),
  ),
  /** A second proposal, apart from the spares and as it stands once they are in: members change seats so that more rigs ride. */
  moves: z
    .strictObject({
      words: z.string(),
      moves: z.array(
        z.strictObject({ member: z.string(), name: z.string(), from: z.string(), to: z.string() }),
      ),
      commands: z.array(
        z.strictObject({
          do: z.enum(['clear-seat', 'seat-member']),
          seat: z.string(),
          member: z.string().optional(),
        }),
      ),
    })
    .nullable(),
  invented: z.boolean(),
})
type PlanJson = z.infer<typeof planShape>

/** What `plan --json` prints; with nothing to plan, `words` says why. */
export function planJson(state: State, plan: Plan): PlanJson {
  return cleanAll({
    at: plan.at,
    station: state.station?.name ?? '',
    tour: state.tour?.id ?? null,
    seq: plan.seq,
    words: plan.words,
    proven: plan.isProven,
    rigs: plan.rigs,
    seats: plan.seats,
    goals: plan.goals.map(({ goal, value, bound, isProven, words }) => ({
      goal,
      value,
      bound,
      proven: isProven,
      words,
    })),
    moves: plan.moves && {
      words: plan.moves.words,
      moves: plan.moves.moves,
      commands: plan.moves.commands.map((each) => ({ ...each })),
    },
    invented: state.station?.invented ?? false,
  })
}

export function planText(dirty: State, plan: Plan): string {
  const { name, invented, tour, said } = cleanAll({
    name: dirty.station?.name ?? '',
    invented: dirty.station?.invented ?? false,
    tour: dirty.tour?.id,
    said: plan,
  })
  const lines = [
    ...(invented ? [INVENTED] : []),
    `${name}${tour === undefined ? '' : `, tour ${tour}`}, ${sayDate(dateOf(said.at))} ${clockOf(said.at)}`,
    said.words,
  ]
  if (said.seats.length) lines.push('', ...said.rigs.map(sayRigChange))
  for (const seat of said.seats) lines.push('', ...seatLines(seat))
  if (said.seats.some((each) => each.becomesFit)) {
    lines.push('', 'In this order:')
    said.goals.forEach(({ words, isProven }, index) =>
      lines.push(`  ${index + 1}. ${words}${isProven ? ' (proven best)' : ''}`),
    )
    lines.push('', 'It proposes swaps; the officer decides and gives them. On the board: g.')
  }
  lines.push(...movesLines(said))
  return `${lines.join('\n')}\n`
}

/** Never mixed with the spares: it is another proposal. */
function movesLines({ moves }: Plan): string[] {
  if (!moves) return []
  return ['', `Apart from that: ${moves.words}`, ...moves.moves.map((each) => `  ${sayMove(each)}`)]
}

const sayPlanned = (seat: PlannedSeat): string =>
  `${seat.seat} ${seat.position}${seat.critical ? '*' : ''}: ${seat.name} (${seat.member}) ${seat.becomesFit ? 'becomes fit' : 'stays unfit'}`

function seatLines(seat: PlannedSeat): string[] {
  return [
    sayPlanned(seat),
    ...seat.swaps.flatMap(({ what, out, why }) => [
      `  in: ${what}${out.length ? `; out: ${out.join(', ')}` : ''}`,
      `      ${why.join('; ')}`,
    ]),
    ...seat.shortages.map((each) => `  ${each}`),
  ]
}
