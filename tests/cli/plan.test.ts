// `bayboard plan` and `bayboard coverage` as a user runs them: the answer, the exit status, and commands that record takes.
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { expect, test } from 'vitest'
import { coverageShape } from '../../src/exports/coverage.ts'
import { planShape } from '../../src/exports/plan.ts'
import { beginPlanning } from '../../src/planner/begin.ts'
import { faultsOf } from '../../src/domain/plan/check.ts'
import { assignmentOf, randomCosts } from '../planner/assignments.ts'
import { bayboard, newPlace, PROGRAM, record } from './run.ts'

function demonstration(): string {
  const station = join(newPlace(), 'station')
  expect(bayboard(['demo', station, '--no-open']).status).toBe(0)
  return station
}
/** For tests that only read. */
const shown = demonstration()
const empty = (): string => {
  const station = join(newPlace(), 'station')
  bayboard(['init', '--name', 'Station 6', '--time-zone', 'America/New_York'], { station })
  return station
}

test('the plan as data is carried out by record, and then nobody is unfit', () => {
  const station = demonstration()
  const { status, stdout } = bayboard(['plan', '--json'], { station })
  const plan = planShape.parse(JSON.parse(stdout))
  expect([status, plan.proven, plan.seats.every((each) => each.becomesFit)]).toEqual([0, true, true])
  const commands = plan.seats.flatMap((seat) => seat.swaps.flatMap((swap) => swap.commands))
  const given = record(
    station,
    commands.map((each) => ({ ...each, by: 'M-901' })),
  )
  expect(given.status).toBe(0)
  expect(bayboard(['plan'], { station })).toMatchObject({
    status: 0,
    stdout: expect.stringContaining('Everybody who is seated is fit to ride. There is nothing to plan.'),
  })
})

test('as text it says what goes in where and why, each rig before and after, and what was proven', () => {
  const { stdout } = bayboard(['plan'], { station: shown })
  expect(stdout).toContain('DEMONSTRATION: every person')
  expect(stdout).toContain('Ladder 9 cannot ride: 3 fit, 4 needed -> can ride: 5 fit, 4 needed.')
  expect(stdout).toMatch(
    /in: coat shell C-983 with coat liner L-983 and drag rescue device D-983; out: C-9091/,
  )
  expect(stdout).toContain('(proven best)')
})

test('a station without rigs has no plan and no coverage: the answer is no, in a sentence', () => {
  const station = empty()
  expect(bayboard(['plan'], { station })).toMatchObject({
    status: 1,
    stdout: expect.stringContaining('This station has no rig yet, so there is nothing to plan.'),
  })
  expect(bayboard(['coverage'], { station })).toMatchObject({
    status: 1,
    stdout: expect.stringContaining('Nobody is seated, so there is nothing to cover.'),
  })
})

test.each(['0', 'soon'])('--seconds %s is wrong usage', (seconds) => {
  expect(bayboard(['plan', '--seconds', seconds], { station: empty() })).toEqual({
    status: 2,
    stdout: '',
    stderr: `bayboard: --seconds ${seconds} is not a time it may take. Give seconds up to 3600, such as 10.\n`,
  })
})

test('without a station both say so and end with 3', () => {
  const station = join(newPlace(), 'none')
  for (const name of ['plan', 'coverage']) expect(bayboard([name], { station }).status).toBe(3)
})

test('the coverage as data is what its schema says, and as text names the only spare for somebody', () => {
  const station = shown
  const { status, stdout } = bayboard(['coverage', '--json'], { station })
  expect(coverageShape.parse(JSON.parse(stdout)).holes).toEqual([])
  expect(status).toBe(0)
  expect(bayboard(['coverage'], { station }).stdout).toMatch(
    /The only spare for somebody:\n {2}facepiece F-982: for E9-1/,
  )
})

test('the board plans in a process of its own, which answers, or ends when it is given up', async () => {
  const part = pathToFileURL(join(dirname(PROGRAM), 'planner.js'))
  const model = assignmentOf(randomCosts(8, 3))
  const { choice } = await beginPlanning(part, model, 60).answer
  expect(faultsOf(model, choice)).toEqual([])
  const { answer, giveUp } = beginPlanning(part, assignmentOf(randomCosts(60, 4)), 60)
  giveUp()
  await expect(answer).rejects.toThrow('the planner ended without an answer')
})
