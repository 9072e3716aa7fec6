// What may be proposed at all, and that what is said to fit leaves its places fit.
import { describe, expect, it } from 'vitest'
import { assessNow } from '../../src/domain/assess.ts'
import { KINDS, type Kind } from '../../src/domain/kinds.ts'
import { policyOf } from '../../src/domain/policy/in-force.ts'
import { isFit } from '../../src/domain/rules/verdict.ts'
import { rankSpares, type Spare } from '../../src/domain/spares.ts'
import type { State } from '../../src/domain/state.ts'
import { coat, cylinder, FIT, fitCrew, garment, reads, sendsAway } from './fit-crew.ts'
import { NOW, stateOf, type Steps, type Told } from './given.ts'

const rank = (state: State, kind: Kind, seat = 'E6-1', at = NOW): Spare[] =>
  rankSpares(state, policyOf(state), at, seat, kind)
const idsOf = ({ elements }: Spare) => elements.map((each) => each.id).join('+')

describe('what is not on the rack', () => {
  it.each<[string, Steps]>([
    ['is away', [sendsAway('BO-9')]],
    ['is held', [{ do: 'hold', element: 'BO-9', reason: 'injury' }]],
    ['is retired', [{ do: 'retire', element: 'BO-9', reason: 'worn', disposal: 'cut up' }]],
    ['is issued to another', [{ do: 'issue', element: 'BO-9', to: 'M-105' }]],
    ['stands in for another', [{ do: 'swap', seat: 'E6-2', out: 'BO-2', in: 'BO-9' }]],
    ['is already worn here', [{ do: 'swap', seat: 'E6-1', out: 'BO-1', in: 'BO-9' }]],
  ])('and %s is not proposed', (_name, steps) => {
    expect(rank(fitCrew(garment('boots', '9')), 'boots').map(idsOf)).toEqual(['BO-9'])
    expect(rank(fitCrew(garment('boots', '9'), ...steps), 'boots').map(idsOf)).not.toContain('BO-9')
  })

  it('but is the member’s own second set is proposed, and said to be theirs', () => {
    const [spare] = rank(fitCrew(garment('hood', '9'), { do: 'issue', element: 'HO-9', to: 'M-104' }), 'hood')
    expect([idsOf(spare!), spare!.fits]).toEqual(['HO-9', true])
    expect(spare!.for).toContain('their own second set')
  })
})

describe('a riding position', () => {
  it('that nobody fills is proposed nothing that a member wears', () => {
    const state = fitCrew(coat('9'), garment('boots', '9'), cylinder('9'))
    const proposed = KINDS.filter((kind) => rank(state, kind, 'E6-3').length > 0)
    expect(proposed).toEqual(['cylinder'])
  })
  it('that is not in the station is proposed nothing', () => {
    expect(rank(fitCrew(cylinder('9')), 'cylinder', 'E6-9')).toEqual([])
  })
  it('is proposed a cylinder as unproven until somebody reads it', () => {
    expect(rank(fitCrew(cylinder('9')), 'cylinder')[0]).toMatchObject({ fits: false, state: 'unproven' })
    expect(rank(fitCrew(cylinder('9'), reads('9')), 'cylinder')[0]).toMatchObject({
      fits: true,
      state: 'ready',
    })
  })
})

describe('a spare that is said to fit', () => {
  it('leaves its places fit once it is swapped in with its layers', () => {
    const racks: Told[] = [
      ...coat('6', { size: '46x32' }),
      ...coat('9'),
      ...(['trouser-shell', 'trouser-liner', 'helmet', 'hood', 'gloves', 'boots'] as const).flatMap((kind) =>
        garment(kind, '9'),
      ),
      ...cylinder('9'),
      reads('9'),
    ]
    const before = fitCrew(racks)
    const proposed = KINDS.flatMap((kind) => rank(before, kind).filter((each) => each.fits))
    expect(proposed.length).toBeGreaterThan(9)
    for (const { elements } of proposed) {
      const swaps = elements.map((each): Told => {
        const worn = [...before.elements.values()].find(
          (one) => one.id.endsWith('-1') && one.kind === each.kind,
        )
        return { do: 'swap', seat: 'E6-1', in: each.id, out: worn!.id }
      })
      const after = assessNow(stateOf(...FIT, racks, swaps), NOW).rigs[0]!.seats[0]!
      const places = after.places.filter((place) => elements.some((each) => each.id === place.element?.id))
      expect(places).toHaveLength(elements.length)
      expect(places.every((place) => isFit(place.state))).toBe(true)
    }
  })
})

describe('an assembly asked for by its liner', () => {
  it('of the exact size comes before a larger one, however long that lasts', () => {
    const larger = coat('6', { size: '46x32', made: '2024-12' })
    const [first, second] = rank(fitCrew(larger, coat('9')), 'coat-liner')
    expect([idsOf(first!), first!.exact]).toEqual(['CL-9+CS-9+DR-9', true])
    expect([idsOf(second!), second!.exact, second!.fits]).toEqual(['CL-6+CS-6+DR-6', false, true])
  })
})
