// Names and texts that a program could trip over: read clean, or refused in one plain sentence.
import { describe, expect, test } from 'vitest'
import { parseCommand } from '../../../src/domain/commands.ts'
import { openItems } from '../../../src/domain/items.ts'
import { crew, house } from '../alder-hollow.ts'
import { elementIn, given, memberIn, stateOf } from '../given.ts'

const note = { do: 'note', by: 'M-104', text: 'hydrant 12 frozen' }

const text = (inner: string) => JSON.parse(`{"do":"note","by":"M-104","text":"x",${inner}}`) as object

describe('names that a program could trip over', () => {
  const ids = ['__proto__', 'constructor', 'toString', 'hasOwnProperty', '..', 'x'.repeat(40)]

  test.each(ids)('an element, a member and a tour may go by %s and do no harm', (id) => {
    const { state } = given(
      house,
      { do: 'add-element', element: { id, kind: 'hood' } },
      { do: 'issue', element: id, to: 'M-105' },
      { do: 'open-tour', tour: id, platoon: 'B', officer: 'M-104', on: '2026-11-24' },
      { do: 'seat-member', seat: 'E6-2', member: 'M-105' },
      { do: 'tag', element: id, reason: 'soiled', matter: 'safety' },
      { do: 'acknowledge', item: `tag-${id}` },
    )
    expect(elementIn(state, id)).toMatchObject({ id, issuedTo: 'M-105' })
    expect(elementIn(state, id).tags).toHaveLength(1)
    expect(openItems(state).map((item) => item.id)).toEqual([`tag-${id}`])
    expect(state.tour?.acknowledged.has(`tag-${id}`)).toBe(true)
    expect(({} as Record<string, unknown>).id).toBeUndefined()
    const { state: with2 } = given({ do: 'add-member', member: { id, name: 'F. Iyer' } })
    expect(memberIn(with2, id).name).toBe('F. Iyer')
  })

  test.each(ids)('an element that is not there is not found by the name %s', (id) => {
    given(house)
      .when({ do: 'tag', element: id, reason: 'soiled', matter: 'safety' })
      .refuses(`There is no element ${id} in this station.`)
      .changesNothing()
  })

  test('a key called __proto__ in the text is no part of a command', () => {
    expect(parseCommand(text('"__proto__":{"at":"now"}'))).toEqual({
      refused: 'note: It holds something not asked for: __proto__. Nothing was recorded.',
    })
    const amend = JSON.parse(
      `{"do":"amend","seq":${elementIn(stateOf(house), 'C-1041').seq},"why":"x","with":{"__proto__":{"made":"2018-03"}}}`,
    ) as Record<string, unknown>
    given(house).when(amend).refuses('An amendment must say in "with" what changes.').changesNothing()
  })
})

describe('text', () => {
  test('names come in without controls, escape sequences or bidirectional marks', () => {
    const { state } = given({
      do: 'add-member',
      member: { id: 'M-1', name: '  F.\u001b[31m Iyer\u202e\u0007\r\n(Lt)\u0000 ', platoon: 'B\u200b' },
    })
    expect(memberIn(state, 'M-1')).toMatchObject({ name: 'F. Iyer (Lt)', platoon: 'B' })
  })

  test('two thousand characters are kept whole', () => {
    const reason = 'x'.repeat(2000)
    const state = given(crew)
      .when({ do: 'tag', element: 'C-1041', reason, matter: 'safety' })
      .records('element-tagged', { element: 'C-1041', reason, matter: 'safety' })
    expect(elementIn(state, 'C-1041').tags[0]?.reason).toHaveLength(2000)
  })

  test('JSON nested ten thousand deep is refused like any other', () => {
    const deep = JSON.parse('['.repeat(10_000) + ']'.repeat(10_000)) as unknown
    expect(parseCommand({ ...note, text: deep })).toEqual({
      refused: 'note: text must be text. Nothing was recorded.',
    })
    given(crew)
      .when({ do: 'amend', seq: 2, why: 'x', with: { name: deep } })
      .changesNothing()
    const seq = memberIn(stateOf(crew), 'M-104').seq
    given(crew)
      .when({ do: 'amend', seq, why: 'x', with: { name: deep } })
      .refuses('amend: with: name must be text. Nothing was recorded.')
      .changesNothing()
  })
})
