// Rules for the books after any mixture of commands: they agree with themselves, and all in them can be told.
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { evolve } from '../../src/domain/evolve.ts'
import { openItems } from '../../src/domain/items.ts'
import { emptyState, place, type State } from '../../src/domain/state.ts'
import { aboutOf } from '../../src/domain/about.ts'
import { tell } from '../../src/domain/tell.ts'
import { crew } from './alder-hollow.ts'
import { anyActs, anyTour, journalAfter, RUNS } from './any-commands.ts'
import { stateOf } from './given.ts'

/** What must hold of any state: each sentence names what is wrong. */
function faultsOf(state: State): string[] {
  const faults: string[] = []
  for (const seat of state.seats.values()) {
    if (seat.member && state.members.get(seat.member)?.seat !== seat.id) faults.push(`${seat.id}: not theirs`)
  }
  for (const member of state.members.values()) {
    if (member.seat && state.seats.get(member.seat)?.member !== member.id)
      faults.push(`${member.id}: sits nowhere`)
  }
  for (const element of state.elements.values()) {
    const { id, issuedTo, custody, kind } = element
    const isListed = issuedTo !== null && state.issued.get(place(issuedTo, kind))?.includes(id)
    if (issuedTo !== null && !isListed) faults.push(`${id}: issued, not listed`)
    const uses = [...state.standIns.values()].filter((each) => each.element === id).length
    if (uses > 1) faults.push(`${id}: in two places`)
    if (custody.where === 'rack' && (uses > 0 || issuedTo !== null))
      faults.push(`${id}: on the rack and in use`)
    if ((custody.where === 'issued' || custody.where === 'rig') && uses === 0 && issuedTo === null)
      faults.push(`${id}: with nobody`)
    if (custody.where === 'retired' && (uses > 0 || issuedTo !== null))
      faults.push(`${id}: retired and in use`)
  }
  for (const [key, ids] of state.issued) {
    if (!ids.length || new Set(ids).size !== ids.length) faults.push(`${key}: listed twice or for nothing`)
    for (const id of ids) {
      const element = state.elements.get(id)
      if (!element || place(element.issuedTo ?? '', element.kind) !== key)
        faults.push(`${key}: ${id} not theirs`)
    }
  }
  for (const [key, { own, element }] of state.standIns) {
    const mine = state.issued.get(key) ?? []
    if (own !== null && !mine.includes(own)) faults.push(`${key}: stands in for what is not theirs`)
    if (own === element || mine[0] === element) faults.push(`${key}: stands in for itself`)
  }
  return faults
}

describe('the books', () => {
  test.each([
    ['any commands', anyTour],
    ['acts on gear and riding positions', anyActs],
  ])('agree with themselves after %s', (_title, arbitrary) => {
    fc.assert(
      fc.property(arbitrary, (commands) => {
        let state = emptyState()
        for (const event of journalAfter(commands)) {
          state = evolve(state, event)
          expect(faultsOf(state)).toEqual([])
        }
      }),
      { ...RUNS, numRuns: 300 },
    )
  })

  test('books that do not agree would be found', () => {
    const state = stateOf(crew)
    const coat = { ...state.elements.get('C-1041')!, custody: { where: 'rack' } as const }
    expect(faultsOf({ ...state, elements: new Map(state.elements).set('C-1041', coat) })).toEqual([
      'C-1041: on the rack and in use',
    ])
  })

  test('every event can be told, and every open item said, at any point of any journal', () => {
    fc.assert(
      fc.property(anyTour, (commands) => {
        let state = emptyState()
        for (const event of journalAfter(commands)) {
          state = evolve(state, event)
          expect(tell(event, state)).toMatch(/^[A-Z][^]*[.]$|^Note: /)
          expect(tell(event, state)).not.toMatch(/undefined|NaN|\[object/)
          expect(aboutOf(event).filter((id) => typeof id !== 'string' || id === '')).toEqual([])
          const ids = openItems(state).map((item) => item.id)
          expect(new Set(ids).size).toBe(ids.length)
        }
      }),
      { ...RUNS, numRuns: 60 },
    )
  })
})
