// The table of the fit test. 29 CFR 1910.134(f)(2): with any other facepiece, and at least annually.
import type { Element, FitTest } from '../../../src/domain/state.ts'
import { gear, tested, verdictOf, wearer, type Case } from './judging.ts'

const MASK = { model: 'Clear Two', size: 'M' }
const fitTest = (
  side: Case['side'],
  title: string,
  fitTests: FitTest[],
  today: string,
  state: Case['state'],
  matter: Case['matter'],
  mask: Partial<Element> = MASK,
): Case => ({
  rule: 'fit-test',
  side,
  title,
  state,
  ...(matter && { matter }),
  judge: () => verdictOf('fit-test', gear('facepiece', mask), { today }, wearer([], { fitTests })),
})

const failed = tested('2026-05-01', { result: 'fail' })
export const FIT_TEST_CASES = [
  fitTest('within', 'before the warning', [tested('2025-11-24')], '2026-10-24', 'ready', 'compliance'),
  fitTest('within', 'first day of the warning', [tested('2025-11-24')], '2026-10-25', 'due', 'compliance'),
  fitTest('within', 'on the anniversary', [tested('2025-11-24')], '2026-11-24', 'due', 'compliance'),
  fitTest('past', 'the day after it', [tested('2025-11-24')], '2026-11-25', 'expired', 'compliance'),
  fitTest('past', 'another size', [tested('2026-05-01')], '2026-06-01', 'out-of-service', 'safety', {
    ...MASK,
    size: 'L',
  }),
  fitTest('past', 'another model', [tested('2026-05-01')], '2026-06-01', 'out-of-service', 'safety', {
    ...MASK,
    model: 'Clear Three',
  }),
  fitTest('past', 'failed', [failed], '2026-06-01', 'out-of-service', 'safety'),
  fitTest(
    'past',
    'failed after a pass',
    [tested('2026-04-01'), failed],
    '2026-06-01',
    'out-of-service',
    'safety',
  ),
  fitTest(
    'within',
    'passed after a failure',
    [failed, tested('2026-05-02')],
    '2026-06-01',
    'ready',
    'compliance',
  ),
  fitTest(
    'within',
    'letter case and spaces of the model do not matter',
    [tested('2026-05-01', { facepiece: { model: 'clear two ', size: 'm' } })],
    '2026-06-01',
    'ready',
    'compliance',
  ),
  fitTest('nothing', 'never tested', [], '2026-06-01', 'unproven', 'compliance'),
  fitTest(
    'nothing',
    'facepiece of no known model',
    [tested('2026-05-01')],
    '2026-06-01',
    'unproven',
    'compliance',
    {
      size: 'M',
    },
  ),
]
