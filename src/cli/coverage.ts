// `bayboard coverage`: for everybody who rides and every kind the spares that fit, and what to buy first; it records nothing.
import { coverageOf } from '../domain/coverage/coverage.ts'
import { policyOf } from '../domain/policy/in-force.ts'
import { coverageJson, coverageText } from '../exports/coverage.ts'
import { withStation } from './opened.ts'
import { print, type ExitStatus, type World } from './world.ts'

export const coverage = (world: World, options: { station?: string; json?: boolean }): Promise<ExitStatus> =>
  withStation(world, options.station, ({ state, now }) => {
    const made = coverageOf(state, policyOf(state), now())
    print(world, options.json ? JSON.stringify(coverageJson(state, made)) : coverageText(state, made))
    return made.places.length && !made.holes.length ? 0 : 1
  })
