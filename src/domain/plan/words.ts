// A plan in sentences: what it makes of the whole station, a rig before and after, a change of seat. It must never decide.
import { count, listed } from '../count.ts'
import { wordOf } from '../kinds.ts'
import type { Id } from '../gear.ts'
import type { Tie } from '../fit/ties.ts'
import type { Moves } from './moves.ts'
import type { PlannedRig, PlannedSeat, PlannedSwap } from './plan.ts'

/** `3 swaps`, or with what goes in as one: `7 swaps (11 pieces in all)`. */
export function saySwaps(swaps: readonly PlannedSwap[]): string {
  const pieces = swaps.flatMap((each) => each.in).length
  return `${count(swaps.length, 'swap')}${pieces === swaps.length ? '' : ` (${pieces} pieces in all)`}`
}

/**
 * @param doubt why it is not proven that nothing is better; none when it is
 * @param released what comes off and could serve somebody else
 */
export function sayPlan(
  seats: readonly PlannedSeat[],
  rigs: readonly PlannedRig[],
  doubt: string | undefined,
  released: readonly Id[],
): string {
  const mended = seats.filter((each) => each.becomesFit)
  const swaps = mended.flatMap((each) => each.swaps)
  const left = seats.length - mended.length
  const won = rigs.filter((each) => each.after.canRide && !each.before.canRide).map((each) => each.name)
  const still = rigs.filter((each) => !each.after.canRide).map((each) => each.name)
  const isOne = seats.length === 1
  if (!mended.length) {
    const whom = isOne ? 'the one' : `any of the ${seats.length}`
    return `No spare on the rack makes ${whom} unfit fit to ride.${doubt ? ` ${doubt}` : ''}`
  }
  const made = isOne ? 'the one' : `${mended.length} of ${seats.length}`
  return [
    `${saySwaps(swaps)} ${swaps.length === 1 ? 'makes' : 'make'} ${made} unfit fit to ride${left ? `; ${left} ${left === 1 ? 'stays' : 'stay'} unfit` : ''}.`,
    ...(won.length ? [`Then ${listed(won)} can ride.`] : []),
    ...(still.length ? [`Still cannot ride: ${still.join(', ')}.`] : []),
    doubt ?? 'No better use of the rack exists: that is proven.',
    ...(left && released.length
      ? [
          `What comes off and could serve somebody else (${released.join(', ')}) is not counted: plan again then.`,
        ]
      : []),
  ].join(' ')
}

/** What keeps a plan from being proven. */
export function sayDoubt(isProven: boolean, tie: Tie | undefined, isBroken: boolean): string | undefined {
  if (isProven) return undefined
  if (tie) {
    const tied = `${wordOf(tie.kind)} to ${wordOf(tie.to)}`
    return `A rule of the department ties ${tied}: these were planned apart, so it is not proven that nothing is better.`
  }
  return isBroken
    ? 'What would not have come true was dropped, so it is not proven that nothing is better.'
    : 'The time was up before it was proven that nothing is better.'
}

/** `Engine 9 cannot ride: 3 fit, 4 needed -> can ride: 4 fit, 4 needed.` */
export const sayRigChange = ({ name, before, after }: PlannedRig): string =>
  before.words === after.words ? `${name} ${after.words}.` : `${name} ${before.words} -> ${after.words}.`

export const sayMove = ({ name, member, from, to }: Moves['moves'][0]): string =>
  `${name} (${member}): ${from} -> ${to}`
