// A table answers like a Map, and what is set in one copy never shows in another.
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Source } from '../../src/domain/places.ts'
import { forkOf, Table } from '../../src/domain/table.ts'

type Does = 'set' | 'delete' | 'fork' | 'change'
type Act = { copy: number; key: string; does: Does }
const acts: fc.Arbitrary<Act[]> = fc.array(
  fc.record({
    copy: fc.nat(5),
    key: fc.integer({ min: 0, max: 400 }).map((number) => `G-${number}`),
    does: fc.constantFrom<Does>('set', 'set', 'change', 'change', 'delete', 'fork'),
  }),
  { maxLength: 300 },
)
const sorted = (map: Map<string, unknown>) => [...map].toSorted(([a], [b]) => (a < b ? -1 : 1))

type Box = { says: number }
const numbers = (boxes: Iterable<Box>): number[] => [...boxes].map((box) => box.says).toSorted()

function sourceOf<V>(pairs: [string, V][]): Source<V> {
  const keys = pairs.map(([key]) => key)
  const find = (key: string) => (keys.includes(key) ? keys.indexOf(key) : undefined)
  return { count: keys.length, value: (slot) => pairs[slot]![1], find, keys: () => keys }
}

function agree(table: Table<Box>, map: Map<string, Box>): void {
  expect(sorted(table)).toEqual(sorted(map))
  expect(table.size).toBe(map.size)
  expect([...table.keys()].toSorted()).toEqual([...map.keys()].toSorted())
  expect(numbers(table.values())).toEqual(numbers(map.values()))
}

test('whatever is set, changed in place, deleted and forked, each copy agrees with a Map of its own', () => {
  const start = Array.from({ length: 300 }, (_, at): [string, Box] => [`G-${at}`, { says: at }])
  fc.assert(
    fc.property(acts, fc.boolean(), (all, isFound) => {
      const first = new Table(isFound ? sourceOf(start) : start)
      const copies = [{ table: first, map: new Map(start) }]
      all.forEach(({ copy, key, does }, at) => {
        const { table, map } = copies[copy % copies.length]!
        if (does === 'fork') copies.push({ table: table.fork(), map: new Map(map) })
        else if (does === 'set') {
          table.set(key, { says: at })
          map.set(key, { says: at })
        } else if (does === 'change') {
          const mine = table.own(key, (box) => ({ ...box }))
          expect(mine).toEqual(map.get(key))
          if (mine) map.set(key, { says: (mine.says = at) })
        } else expect(table.delete(key)).toBe(map.delete(key))
        expect([table.get(key), table.has(key)]).toEqual([map.get(key), map.has(key)])
      })
      for (const { table, map } of copies) agree(table, map)
    }),
    { numRuns: 150 },
  )
})

describe('a table', () => {
  test('keeps the order in which its keys came', () => {
    const table = new Table<number>([
      ['b', 1],
      ['a', 2],
    ])
    const copy = table.fork().set('c', 3)
    table.set('d', 4).set('b', 5)
    expect([...table]).toEqual([
      ['b', 5],
      ['a', 2],
      ['d', 4],
    ])
    expect([...copy]).toEqual([
      ['b', 1],
      ['a', 2],
      ['c', 3],
    ])
  })

  test('asks its source for a value once, when it is first wanted, and for a key it does not have never', () => {
    const asked: number[] = []
    const source = sourceOf(['a', 'b', 'c'].map((key): [string, number] => [key, 0]))
    const table = new Table({ ...source, value: (slot: number) => asked.push(slot) })
    const copy = table.fork()
    expect([table.has('a'), table.has('z'), table.size]).toEqual([true, false, 3])
    expect(asked).toEqual([])
    table.get('b')
    copy.get('b')
    copy.set('c', 9)
    expect([table.get('z'), copy.get('c')]).toEqual([undefined, 9])
    expect(asked).toEqual([1])
    expect([table.pendingSlot('a'), table.pendingSlot('b'), copy.pendingSlot('c')]).toEqual([
      0,
      undefined,
      undefined,
    ])
  })

  test('that was found asks for all keys when they are wanted in their order, and keeps behind them what came since', () => {
    let asked = 0
    const source = sourceOf<number>([
      ['a', 1],
      ['b', 2],
    ])
    const table = new Table({ ...source, keys: () => (asked++, source.keys()) })
    const copy = table.fork().set('c', 3).set('b', 4)
    copy.delete('a')
    expect([copy.get('c'), copy.has('a'), copy.size, table.has('c'), asked]).toEqual([3, false, 2, false, 0])
    table.set('d', 5)
    expect([table.newest(2), copy.newest(9), asked]).toEqual([[2, 5], [4, 3], 0])
    expect([...copy]).toEqual([
      ['b', 4],
      ['c', 3],
    ])
    expect([...table]).toEqual([
      ['a', 1],
      ['b', 2],
      ['d', 5],
    ])
    expect(asked).toBe(1)
  })

  test('copies a value to be changed once, and again once it was forked or somebody else set it', () => {
    const given = { says: 1 }
    const table = new Table([['a', given]])
    const own = (from: Table<Box>) => from.own('a', (box) => ({ ...box }))!
    const mine = own(table)
    expect([mine === given, own(table) === mine, table.get('a') === mine]).toEqual([false, true, true])
    const copy = table.fork()
    const [here, there] = [own(table), own(copy)]
    expect(new Set([mine, here, there]).size).toBe(3)
    table.set('a', given)
    expect(own(table)).not.toBe(given)
    expect(table.own('z', () => given)).toBeUndefined()
  })

  test('made from any map has what it had and leaves it alone', () => {
    const map = new Map([['a', 1]])
    const table = forkOf(map).set('b', 2)
    expect([[...map], [...table]]).toEqual([
      [['a', 1]],
      [
        ['a', 1],
        ['b', 2],
      ],
    ])
    expect([...forkOf(table)]).toEqual([...table])
  })

  test('that is cleared is empty, and its copies are not', () => {
    const table = new Table([['a', 1] as const])
    const copy = table.fork()
    table.clear()
    expect([table.size, table.get('a'), copy.get('a')]).toEqual([0, undefined, 1])
  })

  test('is walked like a Map', () => {
    const seen: unknown[] = []
    const table = new Table([['a', 1] as const])
    for (const [key, value] of table) seen.push([key, value])
    for (const entry of table.entries()) seen.push(entry)
    for (const [key, value] of Object.entries(Object.fromEntries(table))) seen.push([key, value])
    expect(seen).toEqual([
      ['a', 1],
      ['a', 1],
      ['a', 1],
    ])
  })
})
