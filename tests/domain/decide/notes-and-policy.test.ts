// Rules for notes and for adopting the department's own overlay.
import { describe, expect, test } from 'vitest'
import { house } from '../alder-hollow.ts'
import { given, NOW } from '../given.ts'

const note = (text: string) => ({ do: 'note', text })

describe('note', () => {
  test('a note is kept as it was said', () => {
    const state = given(house)
      .when(note('hydrant 12 frozen'))
      .records('note-made', { text: 'hydrant 12 frozen' })
    expect(state.notes).toEqual([{ seq: state.seq, at: NOW, by: 'M-104', text: 'hydrant 12 frozen' }])
  })

  test('the books hold the newest fifty; the journal holds all', () => {
    const { state } = given(
      house,
      Array.from({ length: 51 }, (_, index) => ({ do: 'note', text: `note ${index + 1}` }) as const),
    )
    expect(state.notes).toHaveLength(50)
    expect(state.notes[0]?.text).toBe('note 2')
  })

  test('a note of controls only says nothing', () => {
    given(house)
      .when(note('\u001b[2J\u0007\u202e'))
      .refuses('note: text must not be empty. Nothing was recorded.')
      .changesNothing()
  })
})

describe('adopt-policy', () => {
  const change = { id: 'structural-service-life', limit: 'P9Y', reason: 'our own board asks for it' }
  const adopt = (more: object) => ({
    do: 'adopt-policy',
    overlay: { name: 'Alder Hollow overlay', changes: [change], ...more },
  })

  test('an overlay is adopted whole', () => {
    const overlay = { name: 'Alder Hollow overlay', changes: [change], add: [] }
    const state = given(house).when(adopt({})).records('policy-adopted', { overlay })
    expect(state.overlay).toEqual(overlay)
  })

  test.each([
    [
      { changes: [{ ...change, limit: undefined }] },
      'The overlay was not adopted. Change 1: it changes nothing of rule "structural-service-life".',
    ],
    [
      { changes: [change, change] },
      'The overlay was not adopted. Change 2: rule "structural-service-life" is changed twice.',
    ],
    [
      { changes: [{ ...change, id: 'tagged-out' }] },
      'The overlay was not adopted. Change 1: rule "tagged-out" has no limit to change.',
    ],
    [
      { changes: [{ ...change, reason: undefined }] },
      'adopt-policy: overlay.changes.0.reason is missing. Nothing was recorded.',
    ],
  ])('an overlay with a fault is not adopted: %#', (more, words) => {
    given(house).when(adopt(more)).refuses(words).changesNothing()
  })
})
