// No frame is taller than rows - 1 or wider than the glass, whatever the size, the screen and the names.
import * as fc from 'fast-check'
import stringWidth from 'string-width'
import { expect, test } from 'vitest'
import { linesFor } from '../../src/tui/screens.ts'
import type { Size } from '../../src/tui/panels/frame.ts'
import { stateOf, NOW, type Told } from '../domain/given.ts'
import { anyToken } from './any-keys.ts'
import { bench, type Bench, type Standing } from './bench.ts'
import { demonstration } from './stations.ts'

const NAMES = [
  'Bartholomew Featherstonehaugh-Montgomery-Worthington III of the Long Name',
  '消防署の隊長・山田太郎左衛門之丞',
  'A\u0301nge\u0301lica 👩‍🚒 N\u0303andu\u0301',
  'X',
  'UnbrokenNameWithoutAnySpaceThatIsMuchLongerThanAnyColumnOfAnyBoardWouldEverAllowFor',
]

/** Rigs of many riding positions, each filled by somebody with nothing but a name. */
function crowded(rigs: number, seats: number): Standing {
  const told: Told[] = []
  for (let rig = 1; rig <= rigs; rig += 1) {
    const ids = Array.from({ length: seats }, (_, at) => `R${rig}-${at + 1}`)
    told.push({
      do: 'add-rig',
      rig: {
        id: `R${rig}`,
        name: `${NAMES[rig % NAMES.length]} ${rig}`,
        minimum: 4,
        seats: ids.map((id, at) => ({
          id,
          position: at % 3 ? 'Nozzle' : NAMES[at % NAMES.length]!,
          critical: true,
        })),
      },
    })
    for (const [at, seat] of ids.entries()) {
      const id = `M-${rig}-${at}`
      const member = { id, name: `${NAMES[at % NAMES.length]} ${rig}.${at}`, platoon: 'B', rank: NAMES[1]! }
      told.push({ do: 'add-member', member }, { do: 'seat-member', by: 'M-1-0', seat, member: id })
    }
  }
  const opens: Told = {
    do: 'open-tour',
    by: 'M-1-0',
    tour: '2026-11-24-B',
    platoon: 'B',
    officer: 'M-1-0',
    on: '2026-11-24',
  }
  const gear: Told[] = (['gloves', 'hood', 'boots'] as const).flatMap((kind): Told[] => [
    {
      do: 'add-element',
      element: { id: `${kind}-${'9'.repeat(30)}`, kind, size: NAMES[0]!, model: NAMES[1]! },
    },
    { do: 'issue', element: `${kind}-${'9'.repeat(30)}`, to: 'M-1-0', by: 'M-1-0' },
    {
      do: 'tag',
      element: `${kind}-${'9'.repeat(30)}`,
      reason: NAMES.join(' '),
      matter: 'safety',
      by: 'M-1-0',
    },
  ])
  return { state: stateOf(...told, ...gear, opens), at: NOW }
}

const sixteen = crowded(2, 16)
const twoHundred = crowded(10, 20)
const STATIONS: Standing[] = [sixteen, twoHundred, demonstration()]

/** Lines too many, and the lines that are too wide. */
function outside(board: Bench, size: Size): string[] {
  const lines = linesFor(board.view, board.ui, size).map((line) => line.map((span) => span.text).join(''))
  const wide = lines.filter((text) => stringWidth(text) > size.columns)
  return lines.length > size.rows - 1 ? [`${lines.length} lines`, ...wide] : wide
}

const anySize = fc.record({
  columns: fc.oneof(fc.constant(80), fc.integer({ min: 80, max: 300 })),
  rows: fc.oneof(fc.constant(24), fc.integer({ min: 24, max: 100 })),
})

test('no frame leaves the glass, whatever is on it and whatever its size', () => {
  fc.assert(
    fc.property(
      fc.nat({ max: STATIONS.length - 1 }),
      fc.array(anyToken, { maxLength: 12 }),
      anySize,
      fc.boolean(),
      fc.option(fc.constantFrom(...NAMES, NAMES.join(' ')), { nil: undefined }),
      (which, tokens, size, unicode, stopped) => {
        const facts = stopped === undefined ? { unicode, size } : { unicode, size, stopped }
        const board = bench(STATIONS[which]!, facts)
        expect(outside(board, size)).toEqual([])
        expect(outside(board.press(...tokens), size)).toEqual([])
      },
    ),
    { numRuns: 150, seed: 11 },
  )
})

test('two hundred riding positions can all be brought in hand, and the one in hand is always in sight', () => {
  const board = bench(twoHundred)
  const seen = new Set<string>()
  for (let press = 0; press < 200; press += 1) {
    const row = board.view.row!
    seen.add(row.seat)
    const line = board.screen().find((each) => each.startsWith('> '))
    expect(line).toContain(row.name.slice(0, 6))
    board.press('down')
  }
  expect(seen.size).toBe(200)
})

test('wider and taller shows more riding positions, never fewer', () => {
  const count = (size: Size): number =>
    bench(sixteen, { size })
      .screen()
      .filter((line) => line.includes('missing') && /^[> ] {1}/.test(line)).length
  const small = count({ columns: 80, rows: 24 })
  expect(count({ columns: 100, rows: 30 })).toBeGreaterThan(small)
  expect(count({ columns: 120, rows: 60 })).toBeGreaterThan(count({ columns: 100, rows: 30 }))
})
