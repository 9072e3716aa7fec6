// The screens as the officer sees them, kept as text; UPDATE_GOLDEN=1 rewrites them, and whoever does so reads every change.
import { describe, expect, test } from 'vitest'
import type { Size } from '../../src/tui/panels/frame.ts'
import { bench, SMALL, type Bench } from './bench.ts'
import { drawn, kept } from './golden.ts'
import type { Told } from '../domain/given.ts'
import { demonstration, demonstrationAfter, fitEngine, nobodySeated, noRig } from './stations.ts'

const SIZES: Size[] = [SMALL, { columns: 100, rows: 30 }, { columns: 120, rows: 40 }]
const STOPPED =
  'The disk is full: the last act was not recorded. All that is shown is safe. Make room, then open the board again.'

/** Two makers used one serial. */
const TWINS = ['HO-7', 'HO-8'].map((id): Told => ({
  do: 'add-element',
  element: { id, kind: 'hood', serial: 'S-77' },
}))
const demo = (): Bench => bench(demonstration())
const irons = (): Bench => demo().press('tab', 'down', 'down')
const offDuty = (): Bench => bench(demonstrationAfter({ do: 'hand-over', by: 'M-901', to: 'M-912' }))

/** The pressures of the five that have not answered. */
const ROLL = Array.from({ length: 5 }, () => [{ type: '4400' }, 'enter'] as const).flat()
const detailed = (): Bench => demo().press({ type: 'm' }).pick('not on the books')
const brought = (): Bench =>
  detailed()
    .write('Wren Halloway')
    .write('M-990')
    .write('coat 44x32, boots 11D')
    .pick('hood')
    .write('K-9901 2024-05')
    .pick('helmet')
    .write('H-9901 2023-02')
const fire = (): Bench =>
  demo().press({ type: 'e' }, 'enter').pick('combustion').write('26-0412').press('enter')
const MENDED = {
  do: 'record-care',
  by: 'M-901',
  element: 'L-9091',
  care: 'repair',
  on: '2026-11-25',
  result: 'serviceable',
  who: 'Cleaning bench (invented)',
} as const
/** The officer's hood was away and is back, while a spare stands in. */
const ownBack = (): Bench =>
  bench(
    demonstrationAfter(
      { do: 'send-away', by: 'M-901', elements: ['K-9011'], to: 'Cleaning bench (invented)', for: 'drying' },
      { do: 'swap', by: 'M-901', seat: 'E9-1', out: 'K-9011', in: 'K-971' },
      { do: 'receive-back', by: 'M-901', elements: ['K-9011'] },
    ),
  )
const SCREENS: [name: string, board: () => Bench][] = [
  ['first-screen', demo],
  ['first-screen-irons-in-hand', irons],
  ['roll-call', () => demo().type('r')],
  ['roll-call-of-a-missing-element', () => demo().press('end', { type: 'r' })],
  [
    'roll-call-again',
    () =>
      demo()
        .press({ type: 'r' }, ...ROLL)
        .press({ type: 'r' }),
  ],
  ['swap-1-which-element', () => irons().type('s')],
  ['swap-2-which-spare', () => irons().press({ type: 's' }, 'enter')],
  ['swap-3-confirm', () => irons().press({ type: 's' }, 'enter', 'enter')],
  ['tag-confirm', () => demo().press({ type: 't' }, 'enter', 'enter', 'enter')],
  ['open-items', () => demo().type('a')],
  ['tag-then-spares', () => demo().press({ type: 't' }, 'enter', 'enter', 'enter', 'enter')],
  ['seat-on-a-trade', () => demo().press({ type: 'm' }).pick('asantreyl')],
  ['detailed-in-sizes', () => detailed().write('Wren Halloway').write('M-990')],
  ['detailed-in-gear', brought],
  ['detailed-in-gear-line', () => brought().pick('boots').press({ scan: 'B-9901' })],
  [
    'detailed-in-confirm',
    () => brought().pick('that is all').write('2026-09-01').write('2026-10-01').press('escape', 'enter'),
  ],
  ['exposure-then-bags', fire],
  ['bags-confirm', () => fire().press('down', 'down', 'enter', 'enter', 'enter')],
  ['care-results', () => fire().press('escape', { type: 'k' }).pick('all that is').press('enter', 'enter')],
  ['lift-basis', () => bench(demonstrationAfter(MENDED)).press({ type: 'u' }).pick('L-9091')],
  ['set-a-pin', () => demo().press({ type: '#' }, 'enter', { type: '4711' })],
  ['own-gear-is-back', ownBack],
  ['no-tour', offDuty],
  ['open-tour-platoon', () => offDuty().type('o')],
  ['open-tour-confirm', () => offDuty().press({ type: 'o' }, 'enter', 'enter')],
  ['hand-over-read-back', () => demo().press({ type: 'h' }, 'enter')],
  [
    'hand-over-read-back-end',
    () => demo().press({ type: 'h' }, 'enter', ...Array.from({ length: 9 }, () => 'page-down' as const)),
  ],
  ['hand-over-confirm', () => demo().press({ type: 'h' }, 'enter', 'down', 'enter')],
  ['open-items-next', () => demo().press({ type: 'a' }, 'enter')],
  ['open-items-stop', () => demo().press({ type: 'a' }, 'enter', 'enter', 'end', 'enter')],
  ['open-items-confirm', () => demo().press({ type: 'a' }, 'enter', 'end', 'enter')],
  ['note', () => demo().press({ type: 'n' }, { type: 'Hydrant at Mill Lane is frozen.' })],
  ['log', () => demo().press({ type: 'n' }, { type: 'Hose bed checked.' }, 'enter', 'enter', { type: 'l' })],
  ['deadlines', () => demo().type('.')],
  ['coverage', () => demo().type('+')],
  ['coverage-of-an-empty-rack', () => bench(fitEngine()).type('+')],
  [
    'log-corrected',
    () => {
      const board = demo().press({ type: 'n' }, { type: 'Hose bed checked.' }, 'enter', 'enter', {
        type: 'lc',
      })
      return board.press('enter').write('Hose bed loaded.').write('said wrong').press('enter', 'down')
    },
  ],
  [
    'log-correct-confirm',
    () =>
      demo()
        .press({ type: 'n' }, { type: 'Hose bed checked.' }, 'enter', 'enter', { type: 'lc' }, 'enter')
        .write('Hose bed loaded.')
        .write('said wrong'),
  ],
  [
    'log-of-one-position',
    () =>
      demo()
        .press({ type: 'n' }, { type: 'Hose bed checked.' }, 'enter', 'enter', 'down', { type: 'c' }, 'enter')
        .press({ type: 'ls' })
        .pick('E9-2'),
  ],
  [
    'undo-confirm',
    () => demo().press({ type: 't' }, 'enter', 'enter', 'enter', 'enter', 'escape', { type: '-' }),
  ],
  ['find', () => demo().press({ type: '/kes wil' })],
  ['scan-means-several', () => bench(fitEngine(...TWINS)).press({ scan: 'S-77' })],
  ['card', () => demo().press({ scan: 'K-9071' })],
  ['card-taught', () => demo().press({ scan: 'C-9091' }, 'tab')],
  ['help', () => demo().type('?')],
  ['help-end', () => demo().press({ type: '?' }, 'end')],
  ['refused', () => demo().type('b')],
  ['no-rig', () => bench(noRig())],
  ['nobody-seated', () => bench(nobodySeated())],
  ['journal-cannot-be-written', () => bench(demonstration(), { stopped: STOPPED })],
]

describe.each(SCREENS)('%s', (name, board) => {
  test.each(SIZES)('at $columns x $rows', (size) => {
    const now = drawn(board(), size)
    expect(now).toEqual(kept(name, now, size))
  })
})

describe('where the locale is not UTF-8', () => {
  test('the first screen is ASCII', () => {
    const now = drawn(bench(demonstration(), { unicode: false }), SMALL)
    expect(now).toEqual(kept('first-screen-ascii', now, SMALL))
  })

  // The demonstration's names are plain ASCII, so nothing here may be beyond it.
  test.each(SCREENS.map(([name]) => name))('%s holds nothing beyond ASCII but names', (name) => {
    const board = SCREENS.find(([each]) => each === name)![1]()
    const { state, at } = board.view
    const same = bench({ state, at }, { unicode: false, ui: board.ui })
    expect(drawn(same, SMALL).join('')).toMatch(/^[ -~]*$/)
  })
})

describe('a window too small for the board', () => {
  test.each([
    [79, 24],
    [80, 23],
  ])('%i x %i gets one sentence that says what is needed, and how to leave', (columns, rows) => {
    const said = [`The board needs 80x24; this is ${columns}x${rows}: enlarge it, or Ctrl-C to leave.`]
    expect(drawn(demo(), { columns, rows })).toEqual(said)
  })

  test('a narrow one has it in lines, as many as it can show below each other', () => {
    expect(drawn(demo(), { columns: 40, rows: 10 })).toEqual([
      'The board needs 80x24; this is 40x10:',
      'enlarge it, or Ctrl-C to leave.',
    ])
    expect(drawn(demo(), { columns: 40, rows: 2 })).toHaveLength(1)
    expect(drawn(demo(), { columns: 1, rows: 1 })).toHaveLength(1)
  })

  test('keeps what the officer was doing', () => {
    const board = irons().press({ type: 's' }, 'enter')
    const before = drawn(board, SMALL)
    drawn(board, { columns: 79, rows: 24 })
    expect(drawn(board, SMALL)).toEqual(before)
  })
})

test('a standing line says that nothing can be recorded, on every screen', () => {
  for (const [name, board] of SCREENS.filter(([each]) => !/^no-rig|^nobody/.test(each))) {
    const { state, at } = board().view
    const text = drawn(bench({ state, at }, { stopped: STOPPED, ui: board().ui }), SMALL).join('\n')
    expect(text, name).toContain('NOTHING CAN BE RECORDED. The disk is full')
  }
})
