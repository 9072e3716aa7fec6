// Where a department's own rule ties kinds that are planned apart, nothing is promised that the books do not bear out afterwards.
import { describe, expect, it } from 'vitest'
import { assess } from '../../../src/domain/assess.ts'
import { ownsBack } from '../../../src/domain/fit/own-back.ts'
import { problemOf } from '../../../src/domain/plan/model.ts'
import { planOf, type Plan } from '../../../src/domain/plan/plan.ts'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { rankSpares } from '../../../src/domain/spares.ts'
import type { State } from '../../../src/domain/state.ts'
import { solve } from '../../../src/planner/solve.ts'
import { coat, fitCrew, garment, tags } from '../fit-crew.ts'
import { NOW, type Steps, type Told } from '../given.ts'
import { swapped } from './swapped.ts'

/** Boots of one delivery with the helmet: no such rule is published, and nothing keeps a department from having one. */
const TIED: Told = {
  do: 'adopt-policy',
  overlay: {
    name: 'Alder Hollow',
    changes: [],
    add: [
      {
        id: 'boots-go-with-the-helmet',
        kinds: ['boots'],
        matter: 'safety',
        watch: { matches: 'helmet', by: ['assembly'] },
        past: 'out-of-service',
        source: { document: 'Alder Hollow order 12', standing: 'common practice' },
        why: 'Boots and helmet are issued as one set.',
        reason: 'Our chief decided so.',
      },
    ],
  },
}

/** The plan and, for each riding position it promises, whether the books say so once its swaps are given. */
async function planIn(state: State): Promise<{ plan: Plan; comesTrue: boolean }> {
  const policy = policyOf(state)
  const problem = problemOf(state, policy, NOW)
  const plan = planOf(state, policy, NOW, problem, await solve(problem.model, 60))
  const after = swapped(state, plan)
  const fit = assess(after, policy, NOW).rigs.flatMap((rig) =>
    rig.seats.flatMap((each) => (each.fit ? each.seat.id : [])),
  )
  return { plan, comesTrue: plan.seats.every((each) => fit.includes(each.seat) === each.becomesFit) }
}
const insOf = ({ seats }: Plan) => seats.flatMap(({ swaps }) => swaps.flatMap((each) => each.in))
const tied = (...steps: Steps): State => fitCrew(TIED, ...steps)

describe('a helmet that the boots have to match', () => {
  const other = garment('helmet', '8')
  const same = garment('helmet', '9', { assembly: 'A-1' })

  it('is planned only where the boots that stay still match it', async () => {
    const { plan, comesTrue } = await planIn(tied(tags('HE-1'), other, same))
    expect(insOf(plan)).toEqual(['HE-9'])
    expect(comesTrue).toBe(true)
  })
  it('is not promised where they would not, and it is said why', async () => {
    const { plan, comesTrue } = await planIn(tied(tags('HE-1'), other))
    expect(insOf(plan)).toEqual([])
    expect(comesTrue).toBe(true)
    expect(plan.seats[0]!.shortages).toEqual([
      'Helmet HE-1: tagged, torn seam. No spare helmet will do. Boots BO-1: assembly A-1 does not match helmet HE-8 of assembly A-8.',
    ])
  })
  it('stands among the spares with what it would do to the boots', () => {
    const state = tied(tags('HE-1'), other, same)
    const spares = rankSpares(state, policyOf(state), NOW, 'E6-1', 'helmet')
    expect(spares.map((each) => [each.elements[0].id, each.fits])).toEqual([
      ['HE-9', true],
      ['HE-8', false],
    ])
    expect(spares[1]!.against).toEqual([
      'Boots BO-1: assembly A-1 does not match helmet HE-8 of assembly A-8.',
    ])
  })
})

describe('helmet and boots at once', () => {
  it('are not promised where each fits what the other replaces, and the spares stay free for somebody else', async () => {
    const { plan, comesTrue } = await planIn(
      tied(tags('HE-1'), tags('BO-1'), garment('helmet', '8'), garment('boots', '9', { assembly: 'A-1' })),
    )
    expect(comesTrue).toBe(true)
    expect(insOf(plan)).toEqual([])
    expect(plan.seats[0]).toMatchObject({
      becomesFit: false,
      shortages: [
        'What is on the rack mends each piece but not all at once. Boots BO-9: assembly A-1 does not match helmet HE-8 of assembly A-8. Swap by hand with s and look at each.',
      ],
    })
    expect(plan.goals.find((each) => each.goal === 'seats')).toMatchObject({ value: 0, isProven: false })
    expect(plan.words).toMatch(/^No spare on the rack makes the one unfit fit to ride\. A rule of the/)
  })
  it('take away nothing from whoever the plan does mend', async () => {
    const { plan, comesTrue } = await planIn(
      tied(
        tags('HE-1'),
        tags('BO-1'),
        tags('HO-2'),
        garment('helmet', '8'),
        garment('boots', '9', { assembly: 'A-1' }),
        garment('hood', '9'),
      ),
    )
    expect(comesTrue).toBe(true)
    expect(insOf(plan)).toEqual(['HO-9'])
    expect(plan.isProven).toBe(false)
    expect(plan.words).toMatch(
      /^1 swap makes 1 of 2 unfit fit to ride; 1 stays unfit\. .*A rule of the department ties boots to helmet: these were planned apart, so it is not proven that nothing is better\.$/,
    )
  })
})

it('without such a rule all is proven as before', async () => {
  const { plan } = await planIn(fitCrew(tags('HE-1'), garment('helmet', '8')))
  expect(plan.isProven).toBe(true)
})

describe('one’s own gear is said to be back and fit', () => {
  const whole: Told[] = ['CS', 'CL', 'DR'].map((each) => ({
    do: 'swap',
    seat: 'E6-1',
    out: `${each}-1`,
    in: `${each}-9`,
  }))
  const back = (...steps: Steps) => {
    const state = fitCrew(coat('9'), ...steps)
    return ownsBack(state, policyOf(state), NOW).map((each) => each.own.id)
  }
  it('when the whole coat is', () => {
    expect(back(...whole)).toEqual(['CS-1', 'CL-1', 'DR-1'])
  })
  it('and not for a shell whose own liner is still out of service: it would be worn over another', () => {
    expect(back(...whole, tags('CL-1'))).toEqual([])
  })
})
