// The one table of keys: every command has a key or a stated reason for none, and no key means two things.
import { expect, test } from 'vitest'
import { COMMAND_NAMES, type CommandName } from '../../src/domain/commands.ts'
import { ACTIONS, ACTION_GROUPS, KEY_LINE, LOG_ACTIONS, LOOKING, WITHOUT_KEY } from '../../src/tui/keymap.ts'
import { keyLine } from '../../src/tui/panels/board.ts'
import { keyLines } from '../../src/tui/panels/reading.ts'
import { bench, type Press } from './bench.ts'
import { tags } from '../domain/fit-crew.ts'
import { demonstration, fitEngine, nobodySeated } from './stations.ts'

const HELMET = { do: 'add-element', element: { id: 'HE-9', kind: 'helmet', made: '2024-05' } } as const
const enter = (times: number): Press[] => Array.from({ length: times }, () => 'enter')
const type = (words: string): Press => ({ type: words })

/** Somebody detailed in, with a hood. */
const DETAIL: Press[] = [
  'end',
  type('m'),
  type('not on'),
  'enter',
  type('D. Ilvane'),
  'enter',
  type('M-501'),
  ...enter(2),
  type('hood'),
  'enter',
  type('HO-501'),
  'enter',
  type('that is all'),
  ...enter(4),
]

/** For each command the keys that give it, from a station where it makes sense. */
const KEYS: Partial<Record<CommandName, [() => ReturnType<typeof fitEngine>, Press[]]>> = {
  issue: [() => fitEngine(HELMET), [type('i'), ...enter(3)]],
  'return-to-rack': [fitEngine, [type('y'), ...enter(2)]],
  'open-tour': [nobodySeated, [type('o'), ...enter(3)]],
  'seat-member': [() => fitEngine({ do: 'clear-seat', seat: 'E6-1' }), [type('m'), ...enter(2)]],
  'clear-seat': [fitEngine, [type('c'), 'enter']],
  'add-member': [fitEngine, DETAIL],
  'add-element': [fitEngine, DETAIL],
  answer: [fitEngine, [type('r'), 'enter']],
  'read-pressure': [fitEngine, [type('p'), type('4400'), ...enter(2)]],
  tag: [fitEngine, [type('t'), ...enter(4), 'escape']],
  'lift-tag': [() => fitEngine(tags('HE-1')), [type('u'), 'enter', type('sound'), ...enter(2)]],
  swap: [() => fitEngine(HELMET, tags('HE-1')), [type('s'), ...enter(3)]],
  'swap-back': [
    () => fitEngine(HELMET, { do: 'swap', seat: 'E6-1', out: 'HE-1', in: 'HE-9' }),
    [type('b'), ...enter(2)],
  ],
  'record-exposure': [fitEngine, [type('e'), ...enter(4), 'escape']],
  'record-care': [fitEngine, [type('k'), ...enter(4), type('North Wash'), ...enter(2)]],
  'record-fit-test': [fitEngine, [type('j'), ...enter(5)]],
  'send-away': [fitEngine, [type('w'), ...enter(2), type('North Wash'), ...enter(2)]],
  'receive-back': [
    () => fitEngine({ do: 'hold', element: 'HE-1', reason: 'struck' }),
    [type('v'), ...enter(2)],
  ],
  hold: [fitEngine, [type('d'), 'enter', type('struck'), ...enter(2)]],
  retire: [fitEngine, [type('z'), 'enter', type('old'), 'enter', type('cut up'), ...enter(2)]],
  note: [fitEngine, [type('n'), type('Quiet.'), ...enter(2)]],
  amend: [fitEngine, [type('n'), type('Quiet.'), ...enter(2), type('l-'), type('wrong'), ...enter(2)]],
  acknowledge: [() => fitEngine(tags('HE-1')), [type('a'), ...enter(2)]],
  'set-pin': [fitEngine, [type('#'), 'enter', type('4711'), 'enter', type('4711'), ...enter(2)]],
  'hand-over': [fitEngine, [type('h'), 'enter', 'down', ...enter(2)]],
}

test.each(COMMAND_NAMES)('%s is given by keys alone, or it is said why not', (name) => {
  const keys = KEYS[name]
  expect(keys === undefined).toBe(WITHOUT_KEY[name] !== undefined)
  if (!keys) return
  const [station, presses] = keys
  const board = bench(station()).press(...presses)
  expect(board.commands.map((each) => each.do)).toContain(name)
  expect(board.ui.screen === 'sheet').toBe(false)
})

test('no two keys are the same, and none is one that looks or moves', () => {
  const keys = [...ACTIONS, ...LOOKING].map((each) => each.key)
  expect(new Set(keys).size).toBe(keys.length)
  for (const key of keys) expect([...key]).toHaveLength(1)
  for (const key of keys) expect(key).not.toMatch(/\d|\s/)
})

test('no two keys of the log are the same, and the log names every one of them', () => {
  const keys = LOG_ACTIONS.map((each) => each.key)
  expect(new Set(keys).size).toBe(keys.length)
  const foot = bench(fitEngine()).type('l').screen().at(-1)!
  for (const key of keys) expect(foot).toContain(` ${key} `)
})

test('no two actions have the same id or the same words on the key line', () => {
  const all = [...ACTIONS, ...LOOKING]
  expect(new Set(all.map((each) => each.id)).size).toBe(all.length)
  expect(new Set(all.map((each) => each.label)).size).toBe(all.length)
})

test('every action is in one group of the help, with its key', () => {
  expect(ACTION_GROUPS.flatMap((group) => group.actions)).toEqual([...ACTIONS])
  const help = keyLines().join('\n')
  for (const { key, help: words } of [...ACTIONS, ...LOOKING]) {
    const line = help.split('\n').find((each) => each.startsWith(`  ${key} `) && each.includes(words))
    expect(line, key).toBeDefined()
  }
})

test.each([80, 100, 120, 200])('at %i columns the key line fits and ends with all keys and quit', (width) => {
  for (const first of [undefined, 'open-tour', 'seat-member'] as const) {
    const line = keyLine(width, first)
    expect(line.length).toBeLessThanOrEqual(width - 2)
    expect(line).toMatch(/ {2}\? all keys {2}q quit$/)
  }
})

test('the key line starts with what is next: the tour, the crew, then the roll', () => {
  expect(keyLine(80, 'open-tour')).toMatch(/^o open tour {2}r roll call/)
  expect(keyLine(80, 'seat-member')).toMatch(/^m seat {2}r roll call/)
  expect(keyLine(80)).toMatch(/^r roll call/)
})

test('with room enough the key line shows every key of the board', () => {
  const shown = keyLine(400).split('  ')
  for (const { key, label, id } of [...ACTIONS, ...LOOKING]) {
    expect(shown, id).toContain(`${key} ${label}`)
  }
  expect(KEY_LINE.slice(-2)).toEqual(['help', 'quit'])
})

test('the help can be read to its end with the keys it names, at the smallest size', () => {
  const board = bench(demonstration()).type('?')
  const seen = new Set<string>()
  for (let page = 0; page < 30; page += 1) {
    for (const line of board.screen()) seen.add(line.trim())
    board.press('page-down')
  }
  for (const title of ['Looking', 'Signs', 'Policy in force', 'Cautions', 'Without a key'])
    expect(seen).toContain(title)
})
