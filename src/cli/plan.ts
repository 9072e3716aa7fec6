// `bayboard plan`: the best use of the rack for all unfit riding positions at once; it proposes and records nothing.
import { policyOf } from '../domain/policy/in-force.ts'
import { problemOf } from '../domain/plan/model.ts'
import { nothingToPlan, planOf, unplanned, type Plan } from '../domain/plan/plan.ts'
import { planJson, planText } from '../exports/plan.ts'
import type { Session } from '../session.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

interface PlanOptions {
  station?: string
  json?: boolean
  seconds: string
}

const MOST_SECONDS = 3600

export async function plan(world: World, options: PlanOptions): Promise<ExitStatus> {
  const seconds = Number(options.seconds)
  if (!(seconds > 0 && seconds <= MOST_SECONDS)) {
    const given = `--seconds ${options.seconds} is not a time it may take.`
    return complain(world, `${given} Give seconds up to ${MOST_SECONDS}, such as 10.`, 2)
  }
  return withStation(world, options.station, async (session) => {
    const { state } = session
    const { made, isAnswered } = await makePlan(session, seconds)
    print(world, options.json ? JSON.stringify(planJson(state, made)) : planText(state, made))
    return isAnswered ? 0 : 1
  })
}

/** `isAnswered`: with it everybody who is seated can be fit. */
async function makePlan(session: Session, seconds: number): Promise<{ made: Plan; isAnswered: boolean }> {
  const { state } = session
  const at = session.now()
  const policy = policyOf(state)
  const problem = problemOf(state, policy, at)
  const nothing = nothingToPlan(state, problem)
  if (nothing) return { made: unplanned(state, policy, at, nothing.words), isAnswered: nothing.isWell }
  const { solve } = await import('../planner/part.ts')
  const made = planOf(state, policy, at, problem, await solve(problem.model, seconds))
  return { made, isAnswered: made.seats.every((each) => each.becomesFit) }
}
