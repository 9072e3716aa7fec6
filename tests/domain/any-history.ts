// Any history that a riding position's gear may have had, for tests that hold for all of them; it must never judge one.
import { array, constantFrom, integer, option, record, type Arbitrary } from 'fast-check'
import { CARES, EXPOSURES, factsOf, KINDS, type Kind } from '../../src/domain/kinds.ts'
import { ensembleAt } from '../../src/domain/ensemble.ts'
import type { CareRecord, Element, State } from '../../src/domain/state.ts'
import { addDays, type LocalDate } from '../../src/domain/time.ts'
import { fitCrew } from './fit-crew.ts'
import { TODAY } from './given.ts'
import { cared, noon } from './rules/judging.ts'

/** The days that matter: around each limit and warning of the policy, and any other of ten years. */
const NEAR = [
  '2016-11-24',
  '2023-11-24',
  '2025-11-23',
  '2025-11-24',
  '2026-05-24',
  '2026-10-24',
  '2026-10-25',
]
export const days: Arbitrary<LocalDate> = constantFrom(...NEAR, '2026-11-23', TODAY, '').chain((day) =>
  day ? constantFrom(day) : integer({ min: 0, max: 3650 }).map((back) => addDays(TODAY, -back)),
)

export interface CareFacts {
  care: CareRecord['care']
  on: LocalDate
  result: CareRecord['result']
}
const result = constantFrom('serviceable', 'serviceable', 'serviceable', 'unserviceable') as Arbitrary<
  CareFacts['result']
>
export const caresOf = (kind: Kind, most = 6): Arbitrary<CareFacts[]> =>
  array(record({ care: constantFrom(...factsOf(kind).cares), on: days, result }), { maxLength: most })

/** As the books keep them: by the day done, then by the journal. */
export const asKept = (cares: readonly CareFacts[]): CareRecord[] =>
  cares
    .map(({ care, on, result }, index) => cared(care, on, { result, seq: 500 + index }))
    .toSorted((a, b) => (a.on === b.on ? a.seq - b.seq : a.on < b.on ? -1 : 1))

export const exposures = array(record({ exposure: constantFrom(...EXPOSURES), on: days }), {
  maxLength: 2,
}).map((all) =>
  all
    .toSorted((a, b) => (a.on < b.on ? -1 : 1))
    .map(({ exposure, on }, index) => ({ exposure, at: noon(on), seq: 400 + index, by: 'M-104' })),
)
export const anyCare = constantFrom(...CARES)

/** A whole crew fit to ride: what is at the officer's riding position, to be given other histories. */
export const CREW = fitCrew()
export const WORN: readonly Element[] = ensembleAt(CREW, CREW.seats.get('E6-1')!)

/** The element as it may be otherwise: older or without a date, longer in use, with another history. */
const otherwise = ({ made: _, ...element }: Element): Arbitrary<Element> =>
  record({
    made: option(days.map((day) => day.slice(0, 7))),
    issuedOn: days,
    cares: caresOf(element.kind, 4).map(asKept),
    exposures,
    psi: integer({ min: 4000, max: 4500 }),
  }).map(({ made, issuedOn, psi, ...facts }) => ({
    ...element,
    ...facts,
    ...(made !== null && { made }),
    issuedOn,
    inService: issuedOn,
    readings: element.readings.map((reading) => ({ ...reading, psi })),
  }))

/** The crew with up to three of the officer's elements as they happen to be. */
export const crews: Arbitrary<State> = array(constantFrom(...WORN).chain(otherwise), { maxLength: 3 }).map(
  (changed) => withElements(CREW, changed),
)

export const withElements = (state: State, changed: readonly Element[]): State => ({
  ...state,
  elements: new Map([...state.elements, ...changed.map((each) => [each.id, each] as const)]),
})
export const kinds = constantFrom(...KINDS)
