// An invented house after a fire: nobody who is seated has anything fit of eight kinds, and the rack holds a choice of sizes.
import { apply, fork } from '../../../src/domain/evolve.ts'
import type { Event, ImportedElement } from '../../../src/domain/events.ts'
import type { MemberFacts } from '../../../src/domain/gear.ts'
import type { Kind } from '../../../src/domain/kinds.ts'
import { DEFAULT_BASE } from '../../../src/domain/policy/bases.ts'
import { emptyState, type State } from '../../../src/domain/state.ts'
import { addDays, instantOf } from '../../../src/domain/time.ts'
import { diceOf, type Dice } from './dice.ts'

const ZONE = 'America/New_York'
export const FIRE = { on: '2026-11-24', at: instantOf('2026-11-24', '09:30', ZONE) }
const SEATS_A_RIG = 5
const MODEL = 'Invented Clearface'

/** Bodies vary more than their boots do: three throws make the middle sizes common. */
const body = (dice: Dice): number => dice.between(0, 2) + dice.between(0, 3) + dice.between(0, 2)

type Sizes = NonNullable<MemberFacts['sizes']>
function sizesOf(dice: Dice): Sizes {
  const size = body(dice)
  return {
    coat: `${36 + 2 * size}x${30 + 2 * dice.between(0, 2)}`,
    trousers: `${30 + 2 * size}x${28 + 2 * dice.between(0, 2)}`,
    gloves: `${66 + 2 * Math.min(7, size)}${dice.pick(['N', 'W'])}`,
    boots: `${8 + size / 2}${dice.pick(['D', 'E'])}`,
    facepiece: dice.pick(['S', 'M', 'L']),
  }
}

/** The eight that the fire took, a whole assembly counted as one. */
const LOST: readonly (readonly [Kind, keyof Sizes | undefined])[][] = [
  [
    ['coat-shell', 'coat'],
    ['coat-liner', 'coat'],
    ['drag-rescue-device', 'coat'],
  ],
  [
    ['trouser-shell', 'trousers'],
    ['trouser-liner', 'trousers'],
  ],
  [['helmet', undefined]],
  [['hood', undefined]],
  [['gloves', 'gloves']],
  [['boots', 'boots']],
  [['facepiece', 'facepiece']],
  [['air-pack', undefined]],
]

function spareSet(dice: Dice, kinds: (typeof LOST)[number], number: number): ImportedElement[] {
  const sizes = sizesOf(dice)
  const made = `${dice.between(2018, 2025)}-0${dice.between(1, 9)}`
  return kinds.map(([kind, measure]) => ({
    id: `${kind}-${number}`,
    kind,
    made,
    edition: '1971-2018',
    assembly: `A-${kinds[0]![0]}-${number}`,
    ...(measure && { size: sizes[measure] }),
    ...(kind === 'facepiece' && { model: MODEL }),
  }))
}

/** @param spares how many of each of the eight kinds hang on the rack */
export function afterFire({ seats, spares, seed }: { seats: number; spares: number; seed: number }): State {
  const dice = diceOf(seed)
  const state = fork(emptyState())
  const tell = (event: object, at = FIRE.at): void =>
    apply(state, { seq: state.seq + 1, at, by: 'setup', ...event } as Event)
  const station = {
    format: 1,
    name: 'Station 78 (measured)',
    timeZone: ZONE,
    rotation: '24/48',
    starts: '07:00',
    policy: DEFAULT_BASE,
    invented: true,
  }
  tell({ type: 'station-made', data: station })
  const ids = Array.from({ length: seats }, (_, index) => `S-${String(index + 1).padStart(3, '0')}`)
  for (let first = 0; first < seats; first += SEATS_A_RIG) {
    const its = ids.slice(first, first + SEATS_A_RIG)
    const id = `E${first / SEATS_A_RIG + 1}`
    const rig = {
      id,
      name: `Engine ${id.slice(1)}`,
      minimum: Math.min(4, its.length),
      seats: its.map((seat, index) => ({ id: seat, position: `Position ${index + 1}`, critical: index < 2 })),
    }
    tell({ type: 'rig-added', data: { rig } })
  }
  const members = ids.map((seat, index): MemberFacts => ({
    id: seat.replace('S', 'M'),
    name: `Invented ${index + 1}`,
    platoon: 'A',
    sizes: sizesOf(dice),
  }))
  const rack = LOST.flatMap((kinds) =>
    Array.from({ length: spares }, (_, index) => spareSet(dice, kinds, index + 1)).flat(),
  )
  const cylinders = ids.map((seat): ImportedElement => ({
    id: seat.replace('S', 'Y'),
    kind: 'cylinder',
    made: '2024-05',
    ratedPsi: 4500,
    construction: 'carbon',
    issuedTo: seat,
    issuedOn: FIRE.on,
  }))
  tell({ type: 'gear-imported', data: { file: 'invented.csv', members, elements: [...rack, ...cylinders] } })
  const tour = { tour: 'T-1', platoon: 'A', officer: members[0]!.id, on: FIRE.on, relieved: [] }
  tell({ type: 'tour-opened', data: tour }, instantOf(FIRE.on, '07:00', ZONE))
  ids.forEach((seat, index) => {
    const member = members[index]!
    tell({ type: 'member-seated', data: { seat, member: member.id } })
    tell({ type: 'pressure-read', data: { element: seat.replace('S', 'Y'), psi: 4500, tour: 'T-1' } })
    const facepiece = { model: MODEL, size: member.sizes!.facepiece }
    const on = addDays(FIRE.on, -dice.between(1, 300))
    tell({ type: 'fit-test-recorded', data: { member: member.id, facepiece, on, result: 'pass' } })
  })
  return state
}
