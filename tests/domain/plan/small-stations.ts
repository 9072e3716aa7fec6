// Small random stations through the real commands, and the search through every way to hang their spares on anybody. The search
// swaps and assesses as the board would and knows nothing of bundles, models or solvers.
import * as fc from 'fast-check'
import { assessSeat, settingOf } from '../../../src/domain/assess.ts'
import { imagine } from '../../../src/domain/imagine.ts'
import type { Kind } from '../../../src/domain/kinds.ts'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { evolve } from '../../../src/domain/evolve.ts'
import { assigned, holderOf, type State } from '../../../src/domain/state.ts'
import { daysBetween } from '../../../src/domain/time.ts'
import { breathing, coat, FIT, garment, kit, reads, tags } from '../fit-crew.ts'
import { NOW, stateOf, submit, type Told } from '../given.ts'

const LADDER: Told[] = [
  {
    do: 'add-member',
    member: {
      id: 'M-106',
      name: 'C. Lind',
      platoon: 'B',
      sizes: { coat: '44x32', trousers: '38x30', gloves: '76W', boots: '11.5D' },
    },
  },
  {
    do: 'add-rig',
    rig: { id: 'L6', name: 'Ladder 6', minimum: 1, seats: [{ id: 'L6-1', position: 'Roof' }] },
  },
  ...kit('M-106', '3'),
  ...breathing('L6-1', '3'),
  { do: 'seat-member', seat: 'L6-1', member: 'M-106' },
  reads('3'),
]
/** Engine 6 with its officer and driver, Ladder 6 with one more, whose boots were issued too small. */
const BASE = stateOf(...FIT, ...LADDER)
const SETS = ['1', '2', '3']

const given = (steps: readonly Told[]): State =>
  steps.reduce((state, step) => {
    const outcome = submit(state, step)
    if ('refused' in outcome) throw new Error(outcome.refused)
    return evolve(state, outcome.event)
  }, BASE)

const boots = (set: string, size: string, made: string): Told[] => garment('boots', set, { size, made })
const anySpare = (set: string): fc.Arbitrary<Told[]> =>
  fc.oneof(
    fc
      .tuple(
        fc.constantFrom('11D', '11.5D', '11E'),
        fc.constantFrom('2017-01', '2018-05', '2016-12', '2024-05'),
      )
      .map(([size, made]) => boots(set, size, made)),
    fc.constantFrom('2024-05', '2016-12').map((made) => garment('helmet', set, { made })),
    fc.constantFrom('44x32', '46x32').map((size) => coat(set, { size })),
    fc.constantFrom(...SETS).map((own) => garment('coat-liner', set, { assembly: `A-${own}` })),
  )

/** At most six elements hang on the rack, so that every way to use them can be tried. */
const MOST_SPARES = 6

export const anyStation: fc.Arbitrary<State> = fc
  .record({
    torn: fc.uniqueArray(
      fc.tuple(fc.constantFrom('BO', 'HE', 'CL'), fc.constantFrom(...SETS)).map((each) => each.join('-')),
      { minLength: 1, maxLength: 6 },
    ),
    spares: fc.tuple(...['4', '5', '6', '7', '8'].map(anySpare)),
    count: fc.nat(5),
  })
  .map(({ torn, spares, count }) => {
    const hung: Told[] = []
    for (const spare of spares.slice(0, count)) {
      const elements = [...hung, ...spare].filter((each) => each.do === 'add-element')
      if (elements.length <= MOST_SPARES) hung.push(...spare)
    }
    return given([...torn.map((id) => tags(id)), ...hung])
  })

/** What a plan comes to, most wanted first; less is better of each. */
type Worth = number[]

interface Use {
  inexact: number
  swaps: number
  days: number
}
const FAMILIES: readonly (readonly Kind[])[] = [
  ['coat-shell', 'coat-liner', 'drag-rescue-device'],
  ['boots'],
  ['helmet'],
]

/** What it comes to when these spares go in at this seat; none when somebody there would still be unfit. */
function useAt(state: State, seatId: string, ids: readonly string[]): Use | undefined {
  const seat = state.seats.get(seatId)!
  const elements = ids.map((id) => state.elements.get(id)!)
  if (new Set(elements.map((each) => each.kind)).size !== ids.length) return undefined
  const after = imagine(
    state,
    elements.map(({ id, kind }) => {
      const out = assigned(state, holderOf(seat, kind), kind)
      return { do: 'swap', by: 'M-104', seat: seatId, in: id, ...(out && { out: out.id }) }
    }),
    NOW,
  )
  if ('refused' in after) return undefined
  const now = settingOf(after.state, policyOf(state), NOW)
  const judged = [now, { ...now, today: now.until }].map((setting) => assessSeat(after.state, setting, seat))
  // The tour's last day is asked of what goes in, not of what is worn already.
  const places = judged.flatMap((each) => each.places)
  const isGood = judged[0]!.fit && elements.every((each) => isFitIn(places, each.id))
  if (!isGood) return undefined
  const sizes = state.members.get(seat.member!)!.sizes!
  const families = FAMILIES.map((family) => elements.filter((each) => family.includes(each.kind)))
  const used = families.filter((each) => each.length)
  return {
    swaps: ids.length,
    inexact: used.filter((each) =>
      each.some(
        ({ kind, size }) =>
          (kind === 'coat-shell' && size !== sizes.coat) || (kind === 'boots' && size !== sizes.boots),
      ),
    ).length,
    days: used
      .map((each) => {
        const falls = places.flatMap(({ element, verdicts }) =>
          each.some(({ id }) => id === element?.id) ? verdicts.flatMap((one) => one.on ?? []) : [],
        )
        return Math.min(365, ...falls.map((day) => daysBetween(now.today, day)))
      })
      .reduce((a, b) => a + b, 0),
  }
}

const isFitIn = (places: ReturnType<typeof assessSeat>['places'], id: string): boolean =>
  places
    .filter(({ element }) => element?.id === id)
    .every(({ state }) => state === 'ready' || state === 'due')

/** The worth of the best of all plans: every spare on nobody or on anybody who is unfit. */
export function bestByTrying(state: State): Worth {
  const setting = settingOf(state, policyOf(state), NOW)
  const seats = [...state.seats.values()].filter((each) => each.member !== null)
  const wasFit = new Map(seats.map((each) => [each.id, assessSeat(state, setting, each).fit]))
  const unfit = seats.filter((each) => !wasFit.get(each.id))
  const spares = [...state.elements.values()]
    .filter((each) => each.custody.where === 'rack')
    .map((each) => each.id)
  const known = new Map<string, Use | undefined>()
  const use = (seat: string, ids: readonly string[]): Use | undefined => {
    const key = `${seat} ${ids.join()}`
    if (!known.has(key)) known.set(key, useAt(state, seat, ids))
    return known.get(key)
  }
  const rides = (isFit: (seat: string) => boolean): number =>
    [...state.rigs.values()].filter((rig) => {
      const its = rig.seats.map((id) => state.seats.get(id)!)
      const fit = its.filter((each) => isFit(each.id)).length
      return fit >= rig.minimum && its.every((each) => !each.critical || isFit(each.id))
    }).length
  let best: Worth | undefined
  const hang = (at: number, hung: readonly (readonly string[])[]): void => {
    if (at < spares.length) {
      hang(at + 1, hung)
      unfit.forEach((_, nth) =>
        hang(
          at + 1,
          hung.map((ids, each) => (each === nth ? [...ids, spares[at]!] : ids)),
        ),
      )
      return
    }
    const uses = hung.map((ids, nth) => (ids.length ? use(unfit[nth]!.id, ids) : 'nothing'))
    if (uses.includes(undefined)) return
    const served = unfit.filter((_, nth) => uses[nth] !== 'nothing')
    const of = uses.flatMap((each) => (each === 'nothing' ? [] : each!))
    const sum = (what: keyof Use): number => of.reduce((all, each) => all + each[what], 0)
    const after = rides((seat) => wasFit.get(seat)! || served.some((each) => each.id === seat))
    const worth = [
      rides((seat) => wasFit.get(seat) ?? false) - after,
      -served.filter((each) => each.critical).length,
      -served.length,
      sum('inexact'),
      sum('swaps'),
      -sum('days'),
    ]
    if (!best || isBetter(worth, best)) best = worth
  }
  hang(
    0,
    unfit.map(() => []),
  )
  return best!
}

function isBetter(a: Worth, b: Worth): boolean {
  const at = a.findIndex((each, goal) => each !== b[goal])
  return at >= 0 && a[at]! < b[at]!
}
