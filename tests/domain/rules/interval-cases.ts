// The tables of the intervals between cares of garments and air packs, on both sides of each day.
import { cared } from './judging.ts'
import { dayTable, done } from './day-table.ts'

const INSPECTION = dayTable('advanced-inspection-interval', 'helmet', [
  ['within', 'the day before the warning', done('advanced-inspection', '2025-11-24'), '2026-10-24', 'ready'],
  [
    'within',
    'the first day of the warning',
    done('advanced-inspection', '2025-11-24'),
    '2026-10-25',
    'due',
    '2026-11-24',
  ],
  ['within', 'on the day itself', done('advanced-inspection', '2025-11-24'), '2026-11-24', 'due'],
  ['past', 'the day after', done('advanced-inspection', '2025-11-24'), '2026-11-25', 'expired', '2026-11-24'],
  ['within', '29 February and a year', done('advanced-inspection', '2024-02-29'), '2025-02-28', 'due'],
  [
    'past',
    '1 March after 29 February',
    done('advanced-inspection', '2024-02-29'),
    '2025-03-01',
    'expired',
    '2025-02-28',
  ],
  ['within', 'never inspected, on the issue day and a year', {}, '2025-01-10', 'due', '2025-01-10'],
  ['past', 'never inspected, the day after that', {}, '2025-01-11', 'expired', '2025-01-10'],
  ['past', 'counted from coming into service', { inService: '2024-01-09' }, '2025-01-10', 'expired'],
  [
    'past',
    'issued before the label says it came into service',
    { inService: '2026-10-01' },
    '2025-01-11',
    'expired',
  ],
  [
    'within',
    'on the books since later than the label says',
    { inService: '2024-01-09' },
    '2025-01-09',
    'due',
  ],
  ['nothing', 'in use since nobody knows when', { issuedOn: null }, '2026-11-24', 'unproven'],
  ['nothing', 'never issued to anybody', { issuedOn: null, issuedTo: null }, '2026-11-24', 'none'],
  [
    'past',
    'an inspection it failed starts no year',
    {
      cares: [
        cared('advanced-inspection', '2025-01-10'),
        cared('advanced-inspection', '2026-01-10', { result: 'unserviceable' }),
      ],
    },
    '2026-01-11',
    'expired',
    '2026-01-10',
  ],
])

const CLEANING = dayTable('advanced-cleaning-interval', 'gloves', [
  [
    'within',
    '31 August and six months is 28 February',
    done('advanced-cleaning', '2026-08-31'),
    '2027-02-28',
    'due',
    '2027-02-28',
  ],
  ['past', '1 March after 31 August', done('advanced-cleaning', '2026-08-31'), '2027-03-01', 'expired'],
  [
    'within',
    '31 August before a leap year is 29 February',
    done('advanced-cleaning', '2027-08-31'),
    '2028-02-29',
    'due',
    '2028-02-29',
  ],
  [
    'past',
    '1 March after 31 August, leap year',
    done('advanced-cleaning', '2027-08-31'),
    '2028-03-01',
    'expired',
  ],
  ['within', 'the day before the warning', done('advanced-cleaning', '2026-05-24'), '2026-10-24', 'ready'],
  ['within', 'the first day of the warning', done('advanced-cleaning', '2026-05-24'), '2026-10-25', 'due'],
  [
    'past',
    'a routine cleaning is no advanced one',
    done('routine-cleaning', '2024-07-10'),
    '2024-07-11',
    'expired',
  ],
  ['nothing', 'no cleaning and no day of issue', { issuedOn: null }, '2026-11-24', 'unproven'],
  [
    'within',
    'in use since nobody knows when, and six months from its label have not run',
    { issuedOn: null, made: '2026-06' },
    '2026-12-01',
    'due',
    '2026-12-01',
  ],
  [
    'nothing',
    'in use since nobody knows when, and six months from its label have: that it is past is not known either',
    { issuedOn: null, made: '2026-06' },
    '2026-12-02',
    'unproven',
  ],
  [
    'nothing',
    'never issued to anybody, whatever its label',
    { issuedOn: null, issuedTo: null, made: '2020-06' },
    '2026-12-01',
    'none',
  ],
])

// 2008 figures, later editions from memory: the policy says so in `provisional`.
const LINER = dayTable('complete-liner-inspection-interval', 'coat-liner', [
  ['within', 'three years from issue, on the day', {}, '2027-01-10', 'due', '2027-01-10'],
  ['past', 'three years from issue, the day after', {}, '2027-01-11', 'expired', '2027-01-10'],
  ['within', 'before the 60 days', {}, '2026-11-10', 'ready'],
  ['within', 'the first of the 60 days', {}, '2026-11-11', 'due'],
  [
    'within',
    'yearly after the first, on the day',
    done('complete-liner-inspection', '2026-12-01'),
    '2027-12-01',
    'due',
    '2027-12-01',
  ],
  [
    'past',
    'yearly after the first, the day after',
    done('complete-liner-inspection', '2026-12-01'),
    '2027-12-02',
    'expired',
  ],
  ['nothing', 'no inspection and no day of issue', { issuedOn: null }, '2026-11-24', 'unproven'],
  [
    'within',
    'opened early, the three years still run',
    done('complete-liner-inspection', '2025-01-10'),
    '2027-01-10',
    'due',
    '2027-01-10',
  ],
  [
    'past',
    'opened early, the day after the three years',
    done('complete-liner-inspection', '2025-01-10'),
    '2027-01-11',
    'expired',
    '2027-01-10',
  ],
  [
    'past',
    'opened before anybody wore it is no early one',
    done('complete-liner-inspection', '2024-01-09'),
    '2025-01-10',
    'expired',
    '2025-01-09',
  ],
  [
    'within',
    'opened on the day of issue is an early one',
    done('complete-liner-inspection', '2024-01-10'),
    '2025-01-11',
    'ready',
    '2027-01-10',
  ],
  [
    'within',
    'opened in the third year, the later of the two days counts',
    done('complete-liner-inspection', '2026-01-11'),
    '2027-01-11',
    'due',
    '2027-01-11',
  ],
])

const FLOW = dayTable('flow-test-interval', 'air-pack', [
  ['within', 'on the day', done('flow-test', '2025-11-24'), '2026-11-24', 'due', '2026-11-24'],
  ['past', 'the day after', done('flow-test', '2025-11-24'), '2026-11-25', 'expired'],
  ['within', 'before the warning', done('flow-test', '2025-11-24'), '2026-10-24', 'ready'],
  ['nothing', 'no test and no day of issue', { issuedOn: null }, '2026-11-24', 'unproven'],
])

export const INTERVAL_CASES = [...INSPECTION, ...CLEANING, ...LINER, ...FLOW]
