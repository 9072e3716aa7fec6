// The tables of service life from manufacture, on both sides of each day.
import { dayTable } from './day-table.ts'

// Ten years from manufacture, the month read from its first day: public reports of NFPA 1851, and the safe reading.
const LIFE = dayTable('structural-service-life', 'coat-shell', [
  ['within', 'the day before the 60 days begin', { made: '2016-03' }, '2025-12-30', 'ready', '2026-03-01'],
  ['within', 'the first of the last 60 days', { made: '2016-03' }, '2025-12-31', 'due', '2026-03-01'],
  ['within', 'the last day of the tenth year', { made: '2016-03' }, '2026-02-28', 'due', '2026-03-01'],
  ['past', 'the first day of the same month', { made: '2016-03' }, '2026-03-01', 'expired', '2026-03-01'],
  ['within', 'a leap day is the last good day', { made: '2018-03' }, '2028-02-29', 'due', '2028-03-01'],
  ['past', 'the day after that leap day', { made: '2018-03' }, '2028-03-01', 'expired', '2028-03-01'],
  ['past', 'stock never issued ages too', { made: '2016-03', issuedTo: null }, '2026-03-01', 'expired'],
  ['nothing', 'no month of manufacture', {}, '2026-03-01', 'unproven'],
])

// DOT notice 94-1, 59 FR: fifteen years for composite cylinders.
const COMPOSITE = dayTable('composite-cylinder-life', 'cylinder', [
  ['within', 'carbon, the last day', { construction: 'carbon', made: '2011-12' }, '2026-11-30', 'due'],
  [
    'past',
    'carbon, the first day after',
    { construction: 'carbon', made: '2011-12' },
    '2026-12-01',
    'expired',
  ],
  ['within', 'glass, the last day', { construction: 'glass', made: '2011-12' }, '2026-11-30', 'due'],
  ['past', 'hoop, the first day after', { construction: 'hoop', made: '2011-12' }, '2026-12-01', 'expired'],
  ['within', 'steel has no such life', { construction: 'steel', made: '1980-01' }, '2026-11-24', 'none'],
  ['within', 'nor has aluminium', { construction: 'aluminium', made: '1980-01' }, '2026-11-24', 'none'],
  [
    'within',
    'carbon, before the 90 days',
    { construction: 'carbon', made: '2012-03' },
    '2026-11-30',
    'ready',
  ],
  [
    'within',
    'carbon, first of the 90 days',
    { construction: 'carbon', made: '2012-03' },
    '2026-12-01',
    'due',
  ],
  ['nothing', 'unknown construction', { made: '2011-12' }, '2026-11-24', 'unproven'],
  ['nothing', 'carbon without a month', { construction: 'carbon' }, '2026-11-24', 'unproven'],
])

export const LIFE_CASES = [...LIFE, ...COMPOSITE]
