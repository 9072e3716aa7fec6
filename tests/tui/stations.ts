// The stations that the board is tested on: the demonstration, and ones that lack what it has; every one of invented people.
import type { Dated } from '../../src/domain/commands.ts'
import { FIT, HOUSE } from '../domain/fit-crew.ts'
import { NOW, stateOf, type Told } from '../domain/given.ts'
import { give, usual } from '../demo-station.ts'
import { fork } from '../../src/domain/evolve.ts'
import type { Standing } from './bench.ts'

/** A quarter to eight in the demonstration: the tour is open, the roll half called. */
export const demonstration = (): Standing => usual()

/** The demonstration after some more commands. */
export function demonstrationAfter(...commands: (Told & { by: string })[]): Standing {
  const { state: made, at } = usual()
  const state = fork(made)
  for (const command of commands) {
    const refused = give(state, { ...command, at } as Dated)
    if (refused) throw new Error(refused)
  }
  return { state, at }
}

const standing = (...steps: Told[]): Standing => ({ state: stateOf(...steps), at: NOW })
export const noRig = (): Standing => standing()
/** Rigs, members and gear, before the first tour. */
export const nobodySeated = (): Standing => standing(...HOUSE)
/** An engine of three with its officer and driver fit to ride. */
export const fitEngine = (...more: Told[]): Standing => standing(...FIT, ...more)
export const house = (...more: Told[]): Standing => standing(...HOUSE, ...more)
