// The table of the hydrostatic test by construction, on both sides of each day.
import type { Construction } from '../../../src/domain/kinds.ts'
import { dayTable, done } from './day-table.ts'
import { cared } from './judging.ts'

// 49 CFR 180.209; the permit marked on the cylinder governs.
const HYDRO_YEARS: [Construction, number][] = [
  ['steel', 5],
  ['aluminium', 5],
  ['carbon', 5],
  ['glass', 3],
  ['aramid', 3],
  ['hoop', 3],
]
export const HYDROSTATIC_CASES = HYDRO_YEARS.flatMap(([construction, years]) =>
  dayTable('hydrostatic-test-interval', 'cylinder', [
    [
      'within',
      `${construction}, on the day`,
      { construction, ...done('hydrostatic-test', '2020-06-15') },
      `${2020 + years}-06-15`,
      'due',
      `${2020 + years}-06-15`,
    ],
    [
      'past',
      `${construction}, the day after`,
      { construction, ...done('hydrostatic-test', '2020-06-15') },
      `${2020 + years}-06-16`,
      'expired',
    ],
    [
      'within',
      `${construction}, never tested, from manufacture`,
      { construction, made: '2022-04' },
      `${2022 + years}-04-01`,
      'due',
    ],
    [
      'past',
      `${construction}, never tested, the day after`,
      { construction, made: '2022-04' },
      `${2022 + years}-04-02`,
      'expired',
    ],
  ]),
).concat(
  dayTable('hydrostatic-test-interval', 'cylinder', [
    ['nothing', 'unknown construction', done('hydrostatic-test', '2026-06-15'), '2026-11-24', 'unproven'],
    ['nothing', 'neither a test nor a month', { construction: 'carbon' }, '2026-11-24', 'unproven'],
    [
      'past',
      'a failed test is no test',
      {
        construction: 'carbon',
        cares: [
          cared('hydrostatic-test', '2020-06-15'),
          cared('hydrostatic-test', '2025-06-01', { result: 'unserviceable' }),
        ],
      },
      '2025-06-16',
      'expired',
    ],
  ]),
)
