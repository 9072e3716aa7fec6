// The row of the rack plan: everybody at sixty riding positions unfit at once.
import { inside, YEARS, type Row } from '../row.ts'
import { FIXED_WORK, timesOfFixedWork } from '../steady.ts'

/** Each run is another house, so that no lucky one stands for all. */
let seed = 0

export const PLAN: Row = {
  id: 'plan',
  what: 'plan for 60 unfit seats, 8 kinds, 400 spares',
  unit: 'ms',
  aim: 'proven within 1,000 ms',
  reached: ({ ours }) => ours.p99 < 1_000,
  baseline: FIXED_WORK,
  sizes: [YEARS[0]!],
  begin: (tools) => ({
    ours: () => inside(tools, 'plan', String((seed += 1))),
    base: () => timesOfFixedWork(20, 1),
  }),
}
