// In which order gear is called, and what at a riding position its answer did not speak of.
import { describe, expect, test } from 'vitest'
import { KINDS } from '../../src/domain/kinds.ts'
import { CALLS, changedSeats, changedSince } from '../../src/domain/roll-call.ts'
import { answers, fitCrew, garment, reads, sendsAway, tags } from './fit-crew.ts'
import type { Told } from './given.ts'

test('every kind is called once', () => {
  expect(CALLS.flat().toSorted()).toEqual([...KINDS].toSorted())
})

const swap = (out: string, spare: string): Told => ({ do: 'swap', seat: 'E6-1', out, in: spare })
const back: Told = { do: 'swap-back', seat: 'E6-1', kind: 'hood' }
const smoke: Told = { do: 'record-exposure', exposure: 'products-of-combustion', seats: ['E6-2'] }
const changed = (...steps: Told[]): string[] =>
  changedSince(fitCrew(garment('hood', '9'), ...steps), 'E6-1').map((each) => each.id)

describe('the gear of a riding position has changed since it answered', () => {
  test('where a spare was put in', () => {
    expect(changed(answers('E6-1'), swap('HO-1', 'HO-9'))).toEqual(['HO-9'])
  })
  test('where something has come back that was away as it answered', () => {
    const comes: Told = { do: 'receive-back', elements: ['HO-1'] }
    expect(changed(sendsAway('HO-1'), answers('E6-1'), comes)).toEqual(['HO-1'])
  })
  test('where it was exposed', () => {
    const state = fitCrew(answers('E6-1'), answers('E6-2'), smoke)
    expect(changedSince(state, 'E6-2')).toHaveLength(12)
    expect(changedSeats(state)).toEqual(['E6-2'])
  })
})

describe('it has not changed', () => {
  test.each<[string, Told[]]>([
    ['before it has answered at all', [swap('HO-1', 'HO-9')]],
    ['where its own came back in place of the spare', [answers('E6-1'), swap('HO-1', 'HO-9'), back]],
    ['where the spare was in as it answered', [swap('HO-1', 'HO-9'), answers('E6-1')]],
    ['by a tag alone', [answers('E6-1'), tags('HO-1')]],
    ['by another reading', [answers('E6-1'), reads('1', 4400)]],
  ])('%s', (_, steps) => {
    expect(changed(...steps)).toEqual([])
  })
  test('by what the answer itself found', () => {
    const found: Told = {
      do: 'answer',
      seat: 'E6-1',
      findings: [{ element: 'HO-1', point: 'hole', matter: 'safety' }],
    }
    expect(changed(found)).toEqual([])
  })
})
