// What the summary of a log counts where a swap was undone.
import { expect, test } from 'vitest'
import { summaryLines } from '../../src/exports/log-frame-lines.ts'
import { madeOf } from './made.ts'
import { station } from './recorder.ts'

function swapped(...after: Record<string, unknown>[]): string {
  const made = station()
  const record = (command: Record<string, unknown>, at = '24 07:10') => made.record(at, 'M-1', command)
  made.record('01 08:10', 'setup', {
    do: 'add-member',
    member: { id: 'M-1', name: 'Ada Quill', platoon: 'B' },
  })
  made.record('01 08:10', 'setup', {
    do: 'add-rig',
    rig: { id: 'E1', name: 'Engine 1', minimum: 1, seats: [{ id: 'E1-1', position: 'Officer' }] },
  })
  for (const id of ['K-1', 'K-2'])
    made.record('01 08:10', 'setup', { do: 'add-element', element: { id, kind: 'hood', made: '2024-05' } })
  made.record('01 08:11', 'setup', { do: 'issue', element: 'K-1', to: 'M-1', on: '2025-01-10' })
  record(
    { do: 'open-tour', tour: '2026-11-24-B', platoon: 'B', officer: 'M-1', on: '2026-11-24' },
    '24 07:00',
  )
  record({ do: 'seat-member', seat: 'E1-1', member: 'M-1' }, '24 07:01')
  record({ do: 'tag', element: 'K-1', reason: 'hole', matter: 'safety' })
  record({ do: 'swap', seat: 'E1-1', out: 'K-1', in: 'K-2' })
  for (const each of after) record(each)
  return summaryLines(madeOf(made))
    .map((each) => each.words)
    .join(' ')
}

test('a spare that goes back to the rack because its swap was undone is one swap back', () => {
  expect(swapped()).toContain('swaps 1, swaps back 0')
  expect(swapped({ do: 'return-to-rack', element: 'K-2' })).toContain('swaps 1, swaps back 1')
})
