// Spares put together at a riding position: wearers of one size share what was worked out, and nobody gets another's.
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { assessSeat, settingOf, wearerAt } from '../../../src/domain/assess.ts'
import { bundlesFor, FAMILIES, type Bundle } from '../../../src/domain/fit/bundles.ts'
import { rackAt } from '../../../src/domain/fit/rack.ts'
import { imagine } from '../../../src/domain/imagine.ts'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { rankSpares } from '../../../src/domain/spares.ts'
import { assigned, holderOf, type State } from '../../../src/domain/state.ts'
import { coat, fitCrew, garment, tags } from '../fit-crew.ts'
import { NOW, type Told } from '../given.ts'
import { anyStation } from '../plan/small-stations.ts'

const told = (bundles: readonly Bundle[]): unknown =>
  bundles.map(({ elements, exact, lasts }) => ({ ids: elements.map(({ id }) => id), exact, lasts }))

const rackOf = (state: State) => rackAt(state, policyOf(state), NOW)

const seatsOf = (state: State) => [...state.seats.values()].filter((seat) => seat.member !== null)

/** The whole ensemble's state at a riding position after these have been swapped in. */
function familyFit(state: State, seatId: string, ids: readonly string[], family: readonly string[]): boolean {
  const seat = state.seats.get(seatId)!
  const after = imagine(
    state,
    ids.map((id) => {
      const { kind } = state.elements.get(id)!
      const out = assigned(state, holderOf(seat, kind), kind)
      return { do: 'swap', by: 'M-104', seat: seatId, in: id, ...(out && { out: out.id }) }
    }),
    NOW,
  )
  if ('refused' in after) throw new Error(after.refused)
  const { places } = assessSeat(after.state, settingOf(after.state, policyOf(state), NOW), seat)
  return places
    .filter(({ kind }) => family.includes(kind))
    .every(({ state: condition }) => condition === 'ready' || condition === 'due')
}

test('one rack asked for everybody says the same as one made for each', () => {
  fc.assert(
    fc.property(anyStation, (state) => {
      const shared = rackOf(state)
      for (const seat of seatsOf(state)) {
        for (const family of FAMILIES) {
          const wearer = wearerAt(state, seat)
          expect(told(bundlesFor(shared, wearer, family))).toEqual(
            told(bundlesFor(rackOf(state), wearer, family)),
          )
        }
      }
    }),
    { numRuns: 40, seed: 7 },
  )
})

test('every bundle makes its family fit once it is swapped in, and no ranked spare that fits is left out', () => {
  fc.assert(
    fc.property(anyStation, (state) => {
      const rack = rackOf(state)
      for (const seat of seatsOf(state)) {
        for (const family of FAMILIES) {
          const bundles = bundlesFor(rack, wearerAt(state, seat), family)
          const ids = bundles.map(({ elements }) => elements.map((each) => each.id))
          for (const each of ids) expect(familyFit(state, seat.id, each, family), each.join()).toBe(true)
          const found = new Set(ids.map((each) => each.toSorted().join()))
          for (const kind of family) {
            for (const spare of rankSpares(state, policyOf(state), NOW, seat.id, kind)) {
              const put = spare.elements.map((each) => each.id)
              // What else is wrong in the family is not the ranked spare's doing; then it is no bundle.
              if (spare.fits && familyFit(state, seat.id, put, family))
                expect(found, put.join()).toContain(put.toSorted().join())
            }
          }
        }
      }
    }),
    { numRuns: 40, seed: 8 },
  )
})

const whoseSpares = (state: State, seat: string, kind: 'boots' | 'coat-shell'): string[] =>
  bundlesFor(
    rackOf(state),
    wearerAt(state, state.seats.get(seat)!),
    FAMILIES.find((each) => each.includes(kind))!,
  ).map(({ elements }) => elements.map((each) => each.id).join(' '))

const issues = (element: string, to: string): Told => ({ do: 'issue', element, to, on: '2024-06-01' })

test('a second set comes before the rack for its member, and goes to nobody else', () => {
  const state = fitCrew(
    tags('BO-1'),
    garment('boots', '4', { size: '11D' }),
    garment('boots', '5', { size: '11D' }),
    issues('BO-5', 'M-104'),
  )
  expect(whoseSpares(state, 'E6-1', 'boots')).toEqual(['BO-5', 'BO-4'])
  expect(whoseSpares(state, 'E6-2', 'boots')).not.toContain('BO-5')
})

test('a liner alone never goes in under a shell of another assembly; the whole coat does', () => {
  const state = fitCrew(tags('CL-1'), coat('4', { size: '44x32' }))
  expect(whoseSpares(state, 'E6-1', 'coat-shell')).toEqual(['CS-4 CL-4 DR-4'])
})
