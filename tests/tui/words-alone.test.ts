// Words alone carry the meaning: symbol, word and place tell every state without any colour.
import { expect, test } from 'vitest'
import { SIGNS, type Shown } from '../../src/domain/signs.ts'
import { boardScreen } from '../../src/tui/panels/board.ts'
import { COLOURS } from '../../src/tui/theme.ts'
import { bench } from './bench.ts'
import { demonstration, fitEngine } from './stations.ts'

const shown = Object.keys(SIGNS) as Shown[]

test('every state has its own word, its own symbol and its own ASCII symbol of one cell', () => {
  for (const name of ['symbol', 'ascii', 'word'] as const) {
    expect(new Set(shown.map((each) => SIGNS[each][name])).size).toBe(shown.length)
  }
  for (const each of shown) {
    expect([...SIGNS[each].symbol]).toHaveLength(1)
    expect(SIGNS[each].ascii).toMatch(/^[!-~]$/)
  }
})

test.each([true, false])('without tones the first screen still tells each state (unicode %s)', (unicode) => {
  const board = bench(demonstration(), { unicode })
  const lines = board.screen({ columns: 120, rows: 40 })
  for (const row of board.view.rows) {
    const line = lines.find((each) => each.includes(` ${row.seat} `))!
    const sign = SIGNS[row.state]
    expect(line, row.seat).toContain(`${unicode ? sign.symbol : sign.ascii} ${sign.word}`)
    if (row.state !== 'unfilled') expect(line).toContain(row.name)
  }
})

test('whoever may not ride is named with the reason in words at the smallest size, or named as out of sight', () => {
  for (const seat of ['E9-1', 'E9-6', 'L9-1', 'L9-6']) {
    const board = bench(demonstration(), { ui: { seat } })
    const text = board.text()
    for (const row of board.view.rows.filter((each) => each.member !== null && !each.fit))
      expect(text, `${seat} ${row.name}`).toContain(row.name)
  }
})

test('the board is quiet where all is well: a riding position that is ready has no colour at all', () => {
  const { view, ui } = bench(demonstration())
  const ready = view.rows.filter((row) => row.state === 'ready')
  const lines = boardScreen(view, ui, { columns: 120, rows: 40 })
  const coloured = lines
    .filter((line) => line.some((span) => span.tone && COLOURS[span.tone] !== undefined && span.text.trim()))
    .map((line) => line.map((span) => span.text).join(''))
  expect(ready.length).toBeGreaterThan(3)
  for (const row of ready)
    expect(
      coloured.filter((text) => text.includes(` ${row.seat} `)),
      row.seat,
    ).toEqual([])
  expect(coloured.join('\n')).toContain('Hood K-9071')
})

test('what is ready only by a looser rule says so, and what the published base would say', () => {
  const overlay = {
    name: 'Alder Hollow',
    changes: [{ id: 'advanced-cleaning-interval', limit: 'P1M', reason: 'own washer' }],
    add: [],
  }
  const looser = { ...overlay, changes: [{ ...overlay.changes[0]!, limit: 'P24M' as const }] }
  const words = /Only by a looser rule: .* under the published base it would be expired\./
  // Cleaned on 1 September 2026: six months are over on 2 March 2027, two years are not.
  const state = (changed: typeof overlay) => fitEngine({ do: 'adopt-policy', overlay: changed })
  const at = '2027-03-02T09:00:00.000-05:00'
  expect(
    bench({ ...state(looser), at })
      .text()
      .replaceAll(/\s+/g, ' '),
  ).toMatch(words)
  expect(
    bench({ ...state(overlay), at })
      .text()
      .replaceAll(/\s+/g, ' '),
  ).not.toMatch(words)
})
