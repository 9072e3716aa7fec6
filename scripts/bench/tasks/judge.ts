// Timed judging: a station's riding positions, every element of its department, and what one event changes.
import { assessNow, settingOf } from '../../../src/domain/assess.ts'
import { coverageOf } from '../../../src/domain/coverage/coverage.ts'
import { evolve } from '../../../src/domain/evolve.ts'
import type { Event } from '../../../src/domain/events.ts'
import { leftUncovered, othersFor } from '../../../src/domain/fit/last-spare.ts'
import { rackAt } from '../../../src/domain/fit/rack.ts'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { conditionOf } from '../../../src/domain/rules/judge.ts'
import { rankSpares } from '../../../src/domain/spares.ts'
import { instantIn } from '../../../src/domain/time.ts'
import { boardOf } from '../../../src/tui/view.ts'
import type { Task } from '../inside.ts'
import { stateOf } from './read.ts'

const TIMES = 9
const now = (zone: string): string => instantIn(Date.now(), zone)

export const judgeTasks: Readonly<Record<string, Task>> = {
  async assess(station) {
    const state = await stateOf(station!)
    const at = now(state.station!.timeZone)
    const from = performance.now()
    assessNow(state, at)
    return [performance.now() - from]
  },
  async 'assess-all'(station) {
    const state = await stateOf(station!)
    const policy = policyOf(state)
    const setting = settingOf(state, policy, now(state.station!.timeZone))
    const elements = [...state.elements.values()]
    const from = performance.now()
    let unfit = 0
    for (const element of elements) if (conditionOf(element, setting) !== 'ready') unfit++
    const taken = performance.now() - from
    if (unfit === elements.length) throw new Error('Nothing in this department is ready.')
    return [taken]
  },
  /** As a swap asks for them, with every record read already. */
  async spares(station) {
    const state = await stateOf(station!)
    const at = now(state.station!.timeZone)
    const all = [...state.elements.values()].length
    const [seat] = [...state.seats.values()].filter((each) => each.member !== null)
    const from = performance.now()
    const spares = rankSpares(state, policyOf(state), at, seat!.id, 'coat-shell')
    const others = othersFor(rackAt(state, policyOf(state), at), seat!.id, 'coat-shell')
    for (const { fits, elements } of spares) if (fits) leftUncovered(others, elements)
    const taken = performance.now() - from
    if (!spares.length) throw new Error(`There is no spare coat among ${all} elements.`)
    return [taken]
  },
  async coverage(station) {
    const state = await stateOf(station!)
    const at = now(state.station!.timeZone)
    const all = [...state.elements.values()].length
    const from = performance.now()
    const { places } = coverageOf(state, policyOf(state), at)
    const taken = performance.now() - from
    if (!places.length) throw new Error(`Nobody rides, with ${all} elements.`)
    return [taken]
  },
  /** A gauge read at one riding position, then the whole board from it. */
  async event(station) {
    let state = await stateOf(station!)
    const at = now(state.station!.timeZone)
    boardOf(state, at)
    const [cylinder] = [...state.elements.values()].filter((each) => each.kind === 'cylinder')
    return Array.from({ length: TIMES }, (_, turn) => {
      const from = performance.now()
      state = evolve(state, {
        type: 'pressure-read',
        seq: state.seq + 1,
        at,
        by: 'M-1',
        data: { element: cylinder!.id, psi: 4200 + turn },
      } satisfies Event)
      boardOf(state, at)
      return performance.now() - from
    })
  },
}
