// The rows of judging: the board's own assessment, every element of a department, one event, one card.
import { inside, MILLION, YEARS, type Row } from '../row.ts'
import { FIXED_WORK, timesOfFixedWork } from '../steady.ts'

/** Milliseconds; the department of the aim is the largest one measured. */
const judged = (id: string, what: string, aim: string, task: string, mostMs?: number): Row => ({
  id,
  what,
  unit: 'ms',
  aim,
  ...(mostMs !== undefined && { reached: ({ ours }) => ours.median < mostMs }),
  baseline: FIXED_WORK,
  sizes: MILLION,
  async begin(tools, size) {
    const station = await tools.station(size)
    return { ours: () => inside(tools, task, station), base: () => timesOfFixedWork(20, 1) }
  },
})
export const JUDGING: readonly Row[] = [
  judged('assess', 'assess every riding position', 'under 150 ms', 'assess', 150),
  judged(
    'assess-all',
    'the condition of every element of the department',
    'under 150 ms at 100,000',
    'assess-all',
    150,
  ),
  judged('event', 'one event: evolve, assess again, arrange', 'only what it touches', 'event'),
  judged('spares', 'the spares for a coat, and whom each leaves without', 'no aim set', 'spares'),
  judged('coverage', 'what the rack covers, for everybody', 'no aim set', 'coverage'),
  {
    id: 'history',
    what: 'the history of one element',
    unit: 'ms',
    aim: 'no aim set',
    baseline: 'sha256sum of the journal',
    sizes: YEARS,
    async begin(tools, size) {
      const station = await tools.station(size)
      return {
        ours: () => inside(tools, 'history', station),
        base: () => inside(tools, 'sum', station),
      }
    },
  },
]
