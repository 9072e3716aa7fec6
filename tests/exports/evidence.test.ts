// The JSON log replays to the same verdicts: judged again from its own evidence it gives its own board, and a changed one is found out.
import { assert, property } from 'fast-check'
import { describe, expect, test } from 'vitest'
import { assess, assessNow } from '../../src/domain/assess.ts'
import { arrange } from '../../src/domain/board.ts'
import { replay } from '../../src/domain/evolve.ts'
import { policyOf } from '../../src/domain/policy/in-force.ts'
import { emptyState, type State } from '../../src/domain/state.ts'
import { evidenceOf, evidenceShape, stateOf } from '../../src/exports/evidence.ts'
import { asJson } from '../../src/exports/json.ts'
import {
  isJudgedTrue,
  judgedAgain,
  readinessLogShape,
  type ReadinessLog,
} from '../../src/exports/readiness-log.ts'
import { pack } from '../../src/store/packed-state.ts'
import { usual } from '../demo-station.ts'
import { journalAfter, wellFormed } from '../domain/any-commands.ts'
import { crews } from '../domain/any-history.ts'
import { NOW, type Told } from '../domain/given.ts'
import { unpacked } from '../unpacked.ts'
import { madeOf } from './made.ts'
import { fullTour, smallTour } from './tours.ts'

const throughJson = (log: ReadinessLog): ReadinessLog => readinessLogShape.parse(JSON.parse(asJson(log)))
/** The evidence as another program reads it. */
const told = (state: State): State =>
  stateOf(evidenceShape.parse(JSON.parse(JSON.stringify(evidenceOf(state)))))

describe.each([
  ['a small tour', smallTour],
  ['a tour in which everything happens', fullTour],
])('%s', (_, tour) => {
  const log = throughJson(madeOf(tour()))

  test('gives its own board when it is judged again', () => {
    expect(log.board.rigs.flatMap((rig) => rig.seats.flatMap((seat) => seat.reasons)).length).toBeGreaterThan(
      0,
    )
    expect(isJudgedTrue(log)).toBe(true)
    expect(judgedAgain(log).board.headline).toBe(log.board.headline)
  })

  test('with a reason left out of its board, or a verdict bettered, does not', () => {
    const board = structuredClone(log.board)
    const seat = board.rigs.flatMap((rig) => rig.seats).find((each) => each.reasons.length)!
    seat.reasons = seat.reasons.slice(1)
    expect(isJudgedTrue({ ...log, board })).toBe(false)
    const better = structuredClone(log.board)
    better.rigs[0]!.canRide = !better.rigs[0]!.canRide
    expect(isJudgedTrue({ ...log, board: better })).toBe(false)
  })
})

test('the demonstration gives its own board, every verdict with its arithmetic', () => {
  const { state, at } = usual()
  const again = told(state)
  expect(
    assess(again, policyOf(again), at).rigs.map((each) => each.seats.map((seat) => seat.reasons)),
  ).toEqual(assess(state, policyOf(state), at).rigs.map((each) => each.seats.map((seat) => seat.reasons)))
  expect(arrange(assessNow(again, at), again)).toEqual(arrange(assessNow(state, at), state))
})

test('so does any crew with any past', () => {
  assert(
    property(crews, (state) => {
      const again = told(state)
      expect(arrange(assessNow(again, NOW), again)).toEqual(arrange(assessNow(state, NOW), state))
    }),
    { numRuns: 60 },
  )
})

test('it holds nobody who neither rides nor commands, nothing from the rack, and never a PIN', () => {
  const { state } = usual()
  const [first] = state.members.values()
  const pin = { pin: { salt: 'a', hash: 'kept-secret' } } as object
  const members = new Map(state.members).set(first!.id, { ...first!, ...pin })
  const evidence = evidenceOf({ ...state, members })
  const riding = new Set([...state.seats.values()].flatMap((seat) => seat.member ?? []))
  expect(evidence.members.filter(({ id }) => !riding.has(id) && id !== state.tour!.officer)).toEqual([])
  expect(evidence.gear.length).toBeLessThan(state.elements.size / 2)
  expect(JSON.stringify(evidence)).not.toContain('kept-secret')
})

test('tells answers by riding position, also where one answered again after the books were read from disk', () => {
  const ride = (seat: string, member: string): Told[] => [
    { do: 'seat-member', seat, member },
    { do: 'answer', seat },
  ]
  const cleared = [
    wellFormed['open-tour'],
    ...ride('E6-1', 'M-104'),
    ...ride('E6-2', 'M-105'),
    { do: 'clear-seat', seat: 'E6-1' } as const,
  ]
  const books = replay(emptyState(), journalAfter(cleared))
  const later = journalAfter([...cleared, ...ride('E6-1', 'M-104')]).slice(books.seq)
  for (const before of [books, unpacked(pack(books))!]) {
    const { answers } = evidenceOf(replay(before, later)).tour!
    expect(answers.map(({ seat }) => seat)).toEqual(['E6-1', 'E6-2'])
  }
})
