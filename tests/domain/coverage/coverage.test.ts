// What the rack covers: who would be left without by one loss, the only spares, and the fewest to buy after which nobody is.
import { describe, expect, it } from 'vitest'
import { coverageOf, type Coverage } from '../../../src/domain/coverage/coverage.ts'
import type { Kind } from '../../../src/domain/kinds.ts'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { airPack, coat, cylinder, fitCrew, garment, HOUSE, MASK, reads, tags } from '../fit-crew.ts'
import { NOW, stateOf, type Steps, type Told } from '../given.ts'

const covered = (...steps: Steps): Coverage => {
  const state = fitCrew(...steps)
  return coverageOf(state, policyOf(state), NOW)
}
const spares = (coverage: Coverage, kind: Kind, seat = 'E6-1') =>
  coverage.places.find((each) => each.kind === kind && each.seat === seat)?.spares
const bought = ({ buy }: Coverage) => buy.map(({ words, seats }) => [words, seats])

const mask: Told = { do: 'add-element', element: { id: 'FP-9', kind: 'facepiece', ...MASK } }
const trousers = (set: string, label: object = {}): Told[] =>
  (['trouser-shell', 'trouser-liner'] as const).flatMap((kind) => garment(kind, set, label))
/** One spare of everything that a crew of one size needs. */
const RACK: Steps = [
  coat('9'),
  trousers('9'),
  ...(['helmet', 'hood', 'gloves', 'boots'] as const).map((kind) => garment(kind, '9')),
  mask,
  airPack('9'),
  cylinder('9'),
  reads('9'),
]

describe('an empty rack', () => {
  it('covers nothing: every kind of everybody is a hole, and the nobody in the third seat is none', () => {
    const { holes, kinds, words } = covered()
    expect(holes).toHaveLength(24)
    expect(kinds.every(({ none, one, more }) => none === 2 && one + more === 0)).toBe(true)
    expect(words).toMatch(
      /^24 single losses would leave somebody without, at 2 riding positions\. 9 more spares would cover it\.$/,
    )
  })
  it('wants one of each family where one size serves both', () => {
    const { buy, isProven } = covered()
    expect(buy.map((each) => [each.kinds[0], each.size, each.seats])).toEqual([
      ['coat-shell', '44x32', ['E6-1', 'E6-2']],
      ['trouser-shell', '38x30', ['E6-1', 'E6-2']],
      ['helmet', null, ['E6-1', 'E6-2']],
      ['hood', null, ['E6-1', 'E6-2']],
      ['gloves', '76W', ['E6-1', 'E6-2']],
      ['boots', '11D', ['E6-1', 'E6-2']],
      ['facepiece', 'M', ['E6-1', 'E6-2']],
      ['air-pack', null, ['E6-1', 'E6-2']],
      ['cylinder', null, ['E6-1', 'E6-2']],
    ])
    expect(isProven).toBe(true)
  })
})

describe('a rack with one of each', () => {
  it('has no hole, and every spare is the only one for both', () => {
    const { holes, lastSpares, buy, words } = covered(...RACK)
    expect([holes, buy]).toEqual([[], []])
    expect(words).toBe('Any one element in use can be replaced from the rack.')
    expect(lastSpares.every((each) => each.seats.length === 2)).toBe(true)
    expect(lastSpares).toHaveLength(12)
  })
  it('that is tagged covers nothing any more', () => {
    expect(spares(covered(...RACK, tags('HE-9')), 'helmet')).toEqual([])
  })
  it('that ends during the tour covers nothing: it has to last', () => {
    const ends = garment('boots', '8', { made: '2016-12' })
    const state = (on: string) =>
      stateOf(
        ...HOUSE,
        ends,
        { do: 'open-tour', tour: 'T', platoon: 'B', officer: 'M-104', on },
        { do: 'seat-member', seat: 'E6-1', member: 'M-104' },
      )
    const at = (on: string) => `${on}T07:30:00.000-05:00`
    const of = (on: string) =>
      spares(coverageOf(state('2026-11-24'), policyOf(state('2026-11-24')), at(on)), 'boots')
    // Ten years from December 2016: good through 30 November 2026.
    expect(of('2026-11-29')).toEqual(['BO-8'])
    expect(of('2026-12-01')).toEqual([])
  })
})

describe('a liner', () => {
  it('of the worn assembly covers the liner alone; a whole coat covers each of its layers', () => {
    const own = covered(garment('coat-liner', '9', { assembly: 'A-1' }))
    expect([spares(own, 'coat-liner'), spares(own, 'coat-shell')]).toEqual([['CL-9'], []])
    const whole = covered(coat('9'))
    expect([spares(whole, 'coat-liner'), spares(whole, 'coat-shell')]).toEqual([['CL-9'], ['CS-9']])
  })
  it('without its shell covers nobody of another assembly', () => {
    expect(spares(covered(garment('coat-liner', '9')), 'coat-liner')).toEqual([])
  })
})

describe('what to buy', () => {
  const sizes = (one: string, other: string): Steps => [
    { do: 'amend', seq: 2, why: 'measured', with: { sizes: { coat: one } } },
    { do: 'amend', seq: 3, why: 'measured', with: { sizes: { coat: other } } },
  ]
  it('is one coat where the larger of two sizes is allowed for both', () => {
    const { buy } = covered(...sizes('44x32', '46x34'))
    expect(
      buy.filter((each) => each.kinds[0] === 'coat-shell').map((each) => [each.size, each.seats]),
    ).toEqual([['46x34', ['E6-1', 'E6-2']]])
  })
  it('is two where it is over by more than the policy allows', () => {
    const { buy } = covered(...sizes('44x32', '46x35'))
    expect(buy.filter((each) => each.kinds[0] === 'coat-shell').map((each) => each.size)).toEqual([
      '44x32',
      '46x35',
    ])
  })
  it('is nothing for whoever has not been measured, and says so', () => {
    const unknown: Steps = [
      { do: 'add-member', member: { id: 'M-106', name: 'C. Lind', platoon: 'B' } },
      { do: 'seat-member', seat: 'E6-3', member: 'M-106' },
    ]
    const made = covered(...unknown)
    expect(made.unmeasured).toContainEqual({
      seat: 'E6-3',
      kind: 'facepiece',
      words: 'C. Lind has no fit test in date.',
    })
    expect(made.unmeasured).toContainEqual({
      seat: 'E6-3',
      kind: 'boots',
      words: 'C. Lind has no size for boots on record.',
    })
  })
  it('names what hangs on the rack and is not ready', () => {
    const { buy } = covered(cylinder('9'))
    expect(buy.find((each) => each.kinds[0] === 'cylinder')!.instead).toBe(
      'one on the rack is not ready; CY-9: its pressure has not been read',
    )
  })
  it('once bought leaves no hole', () => {
    const before = covered(coat('8', { size: '42x32' }))
    expect(bought(before)).not.toEqual([])
    expect(covered(coat('8', { size: '42x32' }), ...RACK).holes).toEqual([])
  })
})

it('with nobody seated there is nothing to cover, and it says so', () => {
  const state = stateOf(...HOUSE)
  expect(coverageOf(state, policyOf(state), NOW)).toMatchObject({
    places: [],
    words: 'Nobody is seated, so there is nothing to cover. Seat the crew first.',
  })
})

describe('cylinders on the rack that nobody has read', () => {
  const made = covered(cylinder('8'), cylinder('9'))
  it('are read before a cylinder is bought: it says so, and buying one comes last', () => {
    expect(made.toRead).toEqual(['CY-8', 'CY-9'])
    expect(made.words).toContain('at 2 riding positions. Read 2 cylinders on the rack first. 9 more spares')
    const more = covered(cylinder('9'), coat('9'), { do: 'clear-seat', seat: 'E6-2' }, airPack('9'))
    expect(more.buy.at(-1)!.kinds).toEqual(['cylinder'])
  })
  it('are no spares before: unknown is never ready', () => {
    expect(spares(made, 'cylinder')).toEqual([])
    expect(spares(covered(cylinder('9'), reads('9')), 'cylinder')).toEqual(['CY-9'])
  })
  it('are not to be read where a reading would not make them ready: low, tagged or of no rating', () => {
    const unrated: Told = { do: 'add-element', element: { id: 'CY-7', kind: 'cylinder', made: '2024-05' } }
    expect(covered(cylinder('9'), reads('9', 4050)).toRead).toEqual([])
    expect(covered(cylinder('9'), tags('CY-9')).toRead).toEqual([])
    expect(covered(unrated).toRead).toEqual([])
  })
})
