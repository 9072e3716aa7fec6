// An instant asked about by the station's clock: taken where it is one, asked again where the clocks skip or repeat it.
import { expect, test } from 'vitest'
import { readAt } from '../../src/cli/at-instant.ts'

const ZONE = 'America/New_York'
const at = (text: string): string => {
  const read = readAt(text, ZONE)
  return 'wrong' in read ? read.wrong : new Date(read.ms).toISOString()
}

// The United States set their clocks on at 2:00 on 8 March 2026 and back at 2:00 on 1 November. Source: 15 USC 260a.
test.each([
  ['2026-03-08 01:59', '2026-03-08T06:59:00.000Z'],
  ['2026-03-08 02:00', '--at 2026-03-08 02:00 never was: the clocks of America/New_York skipped it.'],
  ['2026-03-08 02:59:59', 'never was'],
  ['2026-03-08 03:00', '2026-03-08T07:00:00.000Z'],
  ['2026-11-01 00:59:59', '2026-11-01T04:59:59.000Z'],
  ['2026-11-01 01:00', 'Say which: 2026-11-01T01:00-04:00 or 2026-11-01T01:00-05:00.'],
  ['2026-11-01T01:59', 'came twice'],
  ['2026-11-01 02:00', '2026-11-01T07:00:00.000Z'],
  ['2026-11-01T01:00-05:00', '2026-11-01T06:00:00.000Z'],
  ['2026-11-01 01:00:30Z', '2026-11-01T01:00:30.000Z'],
])('%s', (text, told) => {
  expect(at(text)).toContain(told)
})

test('only where the station’s zone was taken is it said', () => {
  expect(readAt('2026-11-25 07:00', ZONE)).toMatchObject({ note: expect.stringContaining(ZONE) })
  expect(readAt('2026-11-25T07:00-05:00', ZONE)).not.toHaveProperty('note')
})
