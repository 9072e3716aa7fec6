// Every field that can be corrected at the keyboard is one that the domain accepts, and says what it says now.
import { describe, expect, test } from 'vitest'
import { AMENDABLE } from '../../src/domain/events.ts'
import { changeOf, fieldsOf, valueIn } from '../../src/domain/corrections.ts'
import { recordsOf } from '../../src/domain/decide/amend.ts'
import type { StandingRecord } from '../../src/domain/decide/amend-meant.ts'
import { FIT } from './fit-crew.ts'
import { stateOf, submit, type Told } from './given.ts'

type Type = StandingRecord['type']
/** An import and a batch that came back hold records of these kinds. */
const TYPES = AMENDABLE.filter(
  (type): type is Type =>
    type !== 'gear-imported' && type !== 'records-imported' && type !== 'batch-received',
)

const ACTS: Record<Type, Told> = {
  'member-added': { do: 'add-member', member: { id: 'M-300', name: 'D. Abara' } },
  'element-added': { do: 'add-element', element: { id: 'CY-9', kind: 'cylinder' } },
  'element-tagged': { do: 'tag', element: 'HE-1', reason: 'crack', matter: 'safety' },
  'exposure-recorded': { do: 'record-exposure', exposure: 'water', elements: ['HE-1'] },
  'care-recorded': {
    do: 'record-care',
    element: 'HE-1',
    care: 'drying',
    on: '2026-11-23',
    result: 'serviceable',
  },
  'pressure-read': { do: 'read-pressure', element: 'CY-1', psi: 4400 },
  'fit-test-recorded': {
    do: 'record-fit-test',
    member: 'M-104',
    facepiece: { model: 'Clear Two', size: 'M' },
    on: '2026-11-23',
    result: 'pass',
  },
  'note-made': { do: 'note', text: 'Hydrant frozen.' },
  'seat-answered': { do: 'answer', seat: 'E6-1' },
}
/** What to write where a field has no list of its own. */
const SAMPLE: Record<string, string> = {
  made: '2024-03',
  inService: '2024-06-01',
  on: '2026-11-22',
  ratedPsi: '4500',
  psi: '4300',
  celsius: '12',
}

describe.each(TYPES)('%s', (type) => {
  const state = stateOf(...FIT, ACTS[type])
  const [record] = recordsOf(state, state.seq)
  const fields = fieldsOf(record!, state)

  test('is a record that stands, and has fields unless it is called again instead', () => {
    expect(record!.type).toBe(type)
    expect(fields.length > 0).toBe(type !== 'seat-answered')
  })

  test('takes another value in each of its fields, and then says that', () => {
    for (const field of fields) {
      const now = valueIn(record!, field)
      const text = field.options?.find((each) => each !== now) ?? SAMPLE[field.path] ?? 'Other'
      const change = changeOf(record!, field, text)
      const outcome = submit(state, { do: 'amend', seq: state.seq, why: 'misread', with: change })
      expect(outcome, field.path).toHaveProperty('event')
      const after = stateOf(...FIT, ACTS[type], {
        do: 'amend',
        seq: state.seq,
        why: 'misread',
        with: change as Record<string, unknown>,
      })
      const [mended] = recordsOf(after, state.seq)
      expect(valueIn(mended!, field), field.path).toBe(text)
    }
  })
})

test('a cylinder has a rated pressure to correct, a helmet has none', () => {
  const state = stateOf(...FIT, ACTS['element-added'], {
    do: 'add-element',
    element: { id: 'HE-9', kind: 'helmet' },
  })
  const paths = (seq: number): string[] => fieldsOf(recordsOf(state, seq)[0]!, state).map((each) => each.path)
  expect(paths(state.seq - 1)).toContain('ratedPsi')
  expect(paths(state.seq)).not.toContain('ratedPsi')
})
