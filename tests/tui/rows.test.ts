// The rows of the first screen: under which rig they stand, whose answer still holds, and what a column is in words.
import { describe, expect, test } from 'vitest'
import { KINDS, wordOf } from '../../src/domain/kinds.ts'
import { answers } from '../domain/fit-crew.ts'
import type { Told } from '../domain/given.ts'
import { spoken } from '../../src/tui/text-mode/spoken.ts'
import { bench, SMALL } from './bench.ts'
import { demonstration, fitEngine } from './stations.ts'

const WIDE = { columns: 120, rows: 40 }
const exposed: Told = { do: 'record-exposure', exposure: 'products-of-combustion', seats: ['E6-2'] }

describe("a rig's own line", () => {
  test.each(['E9-1', 'E9-6', 'L9-3', 'L9-6'])('stands above its riding positions with %s in hand', (seat) => {
    const board = bench(demonstration(), { ui: { seat } })
    const lines = board.screen()
    const { rig, row } = board.view
    const head = lines.findIndex((line) => line.startsWith(` ${rig!.name} ${rig!.words}`))
    const inHand = lines.findIndex((line) => line.startsWith('> ') && line.includes(row!.position))
    expect(head).toBeGreaterThan(-1)
    expect(head).toBeLessThan(inHand)
  })
})

describe('the answer of a riding position', () => {
  const rowOf = (name: string, unicode: boolean): string =>
    bench(fitEngine(answers('E6-1'), answers('E6-2'), exposed), { unicode })
      .screen()
      .find((line) => /^. (Officer|Driver)/.test(line) && line.includes(name))!

  test.each([true, false])('is ticked only while its gear is what it spoke of (unicode %s)', (unicode) => {
    const tick = unicode ? '✓' : 'a'
    expect(rowOf('A. Varga', unicode)).toMatch(new RegExp(`${tick} \\S{12}`))
    expect(rowOf('B. Okoro', unicode)).toMatch(/~ \S{12}/)
  })
  test('is said to be older than its gear in words, on the panel and in the text mode', () => {
    const board = bench(fitEngine(answers('E6-1'), answers('E6-2'), exposed)).press('down')
    expect(board.text()).toContain('gear changed since')
    const told = spoken(board.view, board.ui).choices.map((each) => each.label)
    expect(told[0]).not.toContain('changed')
    expect(told[1]).toContain('answered, but gear has changed since')
  })
})

test('what has changed since roll call is told whole beside the note of a looser rule, however long the names', () => {
  const name = 'Bartholomew Featherstonehaugh-Montgomery'
  const overlay = {
    name: 'Alder Hollow',
    changes: [{ id: 'advanced-cleaning-interval', limit: 'P24M', reason: 'own washer' }],
    add: [],
  }
  const long = (id: string) => ({ do: 'add-member', member: { id, name, platoon: 'B', sizes: {} } }) as const
  const board = bench(
    fitEngine(
      { do: 'adopt-policy', overlay },
      long('M-701'),
      { do: 'seat-member', seat: 'E6-3', member: 'M-701' },
      ...['E6-1', 'E6-2', 'E6-3'].map(answers),
      { do: 'record-exposure', exposure: 'water', seats: ['E6-1', 'E6-2', 'E6-3'] },
    ),
  )
  const text = board.text().replaceAll(/\s+/g, ' ')
  expect(text).toContain('1 looser rule, see ?')
  expect(text).toMatch(/Gear has changed since they answered: .*\. r calls them again\./)
})

describe('left and right say a column in words', () => {
  test.each([SMALL, WIDE])('every one in its turn, and then none, at $columns x $rows', (size) => {
    const board = bench(demonstration(), { size })
    for (const kind of KINDS) {
      board.press('right')
      const { places } = board.view.row!
      const { element } = places.find((each) => each.kind === kind)!
      expect(board.ui.kind).toBe(kind)
      const words = board
        .screen()
        .filter((each) => each.startsWith('>'))
        .at(-1)!
      expect(words.toLowerCase(), kind).toContain(wordOf(kind))
      expect(words).toContain(element)
    }
    expect(board.press('right').ui.kind).toBeNull()
    expect(board.press('left').ui.kind).toBe('cylinder')
    expect(board.press('escape').ui.kind).toBeNull()
  })
  test('with its state and the reason, also of a riding position that has many', () => {
    const board = bench(demonstration(), { ui: { seat: 'E9-5', kind: 'hood' } })
    expect(board.text()).toMatch(
      /> Column O, hood K-9071, made 2021-10: out of service: exposed to products of/,
    )
  })
  test('and say that none is needed where a riding position asks for none', () => {
    const board = bench(demonstration(), { ui: { seat: 'L9-5', kind: 'boots' } })
    expect(board.text()).toContain('> Column B, boots: none is needed here.')
  })
})
