// The plan in words: what goes in and why, what is short and for whom, and the same plan whatever the order of the books.
import { describe, expect, it } from 'vitest'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { problemOf } from '../../../src/domain/plan/model.ts'
import { nothingToPlan, planOf, type Plan } from '../../../src/domain/plan/plan.ts'
import type { State } from '../../../src/domain/state.ts'
import { solve } from '../../../src/planner/solve.ts'
import { coat, cylinder, fitCrew, FIT, garment, HOUSE, reads, sendsAway, tags } from '../fit-crew.ts'
import { journalOf, NOW, stateOf, type Steps, type Told } from '../given.ts'

async function planIn(state: State): Promise<Plan> {
  const policy = policyOf(state)
  const problem = problemOf(state, policy, NOW)
  return planOf(state, policy, NOW, problem, await solve(problem.model, 60))
}
const plan = (...steps: Steps): Promise<Plan> => planIn(fitCrew(...steps))
const bothIn = (kind: 'boots' | 'helmet') => [
  tags(`${kind === 'boots' ? 'BO' : 'HE'}-1`),
  tags(`${kind === 'boots' ? 'BO' : 'HE'}-2`),
]
const shortagesOf = ({ seats }: Plan) => seats.flatMap((each) => each.shortages)
const insOf = ({ seats }: Plan) => seats.map(({ seat, swaps }) => [seat, ...swaps.flatMap((each) => each.in)])

describe('one pair of boots for two', () => {
  it('goes to the critical position, and says who is short of what', async () => {
    const made = await plan(bothIn('boots'), garment('boots', '9'))
    expect(insOf(made)).toEqual([['E6-1', 'BO-9'], ['E6-2']])
    expect(shortagesOf(made)).toEqual(['2 members (A. Varga, B. Okoro) can wear only boots BO-9.'])
    expect(made.seats[0]!.swaps[0]!.why).toEqual([
      'exact size 11D',
      'the only one that fits',
      'in date to 1 Mar 2027',
    ])
  })
  it('is not put in for whoever stays unfit for another reason', async () => {
    const made = await plan(bothIn('boots'), tags('HE-1'), garment('boots', '9'))
    expect(insOf(made)).toEqual([['E6-1'], ['E6-2', 'BO-9']])
    expect(shortagesOf(made)).toEqual([
      'Helmet HE-1: tagged, torn seam. The rack has no spare helmet.',
      'Besides: boots BO-1 out of service. Spares for that alone make nobody fit.',
    ])
  })
})

it('says that a spare which comes off is not used again, and planning again then uses it', async () => {
  const measured = journalOf(HOUSE[0]!).length
  const steps: Steps = [
    garment('boots', '8', { size: '12D' }),
    garment('boots', '9'),
    tags('BO-1'),
    { do: 'swap', seat: 'E6-1', out: 'BO-1', in: 'BO-9' },
    { do: 'amend', seq: measured, why: 'measured anew', with: { sizes: { boots: '12D' } } },
    tags('BO-2'),
  ]
  const made = await plan(...steps)
  expect(insOf(made)).toEqual([['E6-1', 'BO-8'], ['E6-2']])
  expect(made.words).toContain(
    'What comes off and could serve somebody else (BO-9) is not counted: plan again then.',
  )
  const again = await plan(...steps, { do: 'swap', seat: 'E6-1', out: 'BO-9', in: 'BO-8' })
  expect(insOf(again)).toEqual([['E6-2', 'BO-9']])
})

describe('a larger pair', () => {
  it('goes in where the exact one is wanted by somebody else, and says to whom that went', async () => {
    const made = await plan(bothIn('boots'), garment('boots', '8', { size: '11.5D' }), garment('boots', '9'))
    const why = made.seats.flatMap((each) => each.swaps.flatMap((swap) => swap.why))
    expect(why).toContain('size 11.5D for 11D, larger but allowed')
    expect(why.some((each) => /^the exact size goes to (A\. Varga|B\. Okoro)$/.test(each))).toBe(true)
    expect(made.seats.every((each) => each.becomesFit)).toBe(true)
  })
})

describe('what nothing on the rack mends', () => {
  it.each<[string, Steps, string]>([
    ['an empty rack', [tags('HE-1')], 'Helmet HE-1: tagged, torn seam. The rack has no spare helmet.'],
    [
      'spares that are too small',
      [tags('BO-1'), garment('boots', '7', { size: '10D' })],
      'Boots BO-1: tagged, torn seam. No spare boots will do. Boots BO-7: size 10D does not fit A. Varga, who takes 11D.',
    ],
    [
      'a coat without its liner',
      [tags('CS-1'), garment('coat-shell', '9')],
      'Coat shell CS-1: tagged, torn seam. No spare coat shell will do. Coat liner CL-1: assembly A-1 does not match coat shell CS-9 of assembly A-9.',
    ],
    [
      'a gauge nobody has read',
      [cylinder('9'), sendsAway('CY-1'), { do: 'swap', seat: 'E6-1', in: 'CY-9', out: 'CY-1' } as Told],
      'Cylinder CY-9: its pressure has not been read. Reading the gauge may mend it. No spare cylinder will do. Cylinder CY-1 is away at North Wash for advanced cleaning.',
    ],
  ])('%s', async (_name, steps, says) => {
    const made = await plan(...steps)
    expect(shortagesOf(made)).toEqual([says])
    expect(made.words).toBe('No spare on the rack makes the one unfit fit to ride.')
  })
})

it('a spare that is due before the tour ends stays on the rack', async () => {
  const at = '2026-11-30T08:00:00.000-05:00'
  const state = stateOf(
    ...HOUSE,
    garment('boots', '7', { made: '2016-12' }),
    { do: 'open-tour', tour: 'T-9', platoon: 'B', officer: 'M-104', on: '2026-11-30', at },
    { do: 'seat-member', seat: 'E6-1', member: 'M-104', at },
    reads('1', 4500, at),
    { ...tags('BO-1'), at },
  )
  // Ten years from December 2016: good through 30 November, and the tour ends on 1 December.
  const problem = problemOf(state, policyOf(state), at)
  const made = planOf(state, policyOf(state), at, problem, await solve(problem.model, 60))
  expect(shortagesOf(made)).toEqual([
    'Boots BO-1: tagged, torn seam. No spare boots will do. BO-7 fits now but not to the end of the tour.',
  ])
})

it('a whole coat goes in for a torn liner, unless a liner of its own assembly is there', async () => {
  const whole = await plan(tags('CL-1'), coat('9'))
  expect(insOf(whole)).toEqual([['E6-1', 'CS-9', 'CL-9', 'DR-9']])
  expect(whole.seats[0]!.swaps[0]!.commands.map((each) => each.reason)).toEqual([
    'one assembly with CS-9',
    'tagged, torn seam',
    'one assembly with CS-9',
  ])
  const own = await plan(tags('CL-1'), coat('8'), garment('coat-liner', '9', { assembly: 'A-1' }))
  expect(insOf(own)).toEqual([['E6-1', 'CL-9']])
})

it('of equals it is the same one whatever order they came in', async () => {
  const spares = ['5', '6', '7', '8'].map((set) => garment('boots', set))
  const one = await plan(bothIn('boots'), ...spares)
  const other = await plan(...bothIn('boots').toReversed(), ...spares.toReversed())
  expect(insOf(other)).toEqual(insOf(one))
  expect(insOf(one)).toEqual([
    ['E6-1', 'BO-5'],
    ['E6-2', 'BO-6'],
  ])
})

it('a gauge that was not read is named beside the swap that it may spare', async () => {
  const unread = await planIn(stateOf(...FIT.slice(0, -1), cylinder('9'), reads('9')))
  expect(unread.seats[0]!.swaps[0]!.why).toContain('reading the gauge of CY-2 may spare this swap')
})

describe('with nothing to plan it says why, and whether all is well', () => {
  it.each<[string, Steps, string, boolean]>([
    ['no rig', [], 'This station has no rig yet, so there is nothing to plan.', false],
    ['no tour', HOUSE, 'No tour is open, so no spare can be put in. Open the tour first.', false],
    [
      'nobody seated',
      [...HOUSE, { do: 'open-tour', tour: 'T', platoon: 'B', officer: 'M-104', on: '2026-11-24' }],
      'Nobody is seated, so there is nothing to plan.',
      false,
    ],
    ['nobody unfit', FIT, 'Everybody who is seated is fit to ride. There is nothing to plan.', true],
  ])('%s', (_name, steps, words, isWell) => {
    const state = stateOf(...steps)
    expect(nothingToPlan(state, problemOf(state, policyOf(state), NOW))).toEqual({ words, isWell })
  })
})
