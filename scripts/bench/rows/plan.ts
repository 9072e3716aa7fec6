// The row of the rack plan, which measures itself where there is a script for it.
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { YEARS, type Row } from '../row.ts'

export const PLAN: Row = {
  id: 'plan',
  what: 'plan for 60 unfit seats, 8 kinds, 400 spares',
  unit: 'ms',
  aim: 'proven within 1,000 ms',
  baseline: '',
  sizes: [YEARS[0]!],
  begin({ root }) {
    const script = join(root, 'scripts/bench/plan.mjs')
    if (!existsSync(script)) throw new Error('not measured: there is no scripts/bench/plan.mjs')
    return { ours: () => Promise.reject(new Error('not measured')) }
  },
}
