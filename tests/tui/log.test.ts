// The log: what was withdrawn or amended says so, the event in hand stays in hand, and a withdrawal is looked at before it is made.
import { expect, test } from 'vitest'
import type { Event } from '../../src/domain/events.ts'
import { logEntries } from '../../src/tui/log-entries.ts'
import { fitCrew, FIT, reads, sendsAway } from '../domain/fit-crew.ts'
import { journalOf, NOW, type Told } from '../domain/given.ts'
import { bench, type Bench } from './bench.ts'
import { demonstrationAfter, fitEngine } from './stations.ts'

const noted = (): Bench =>
  ['First.', 'Second.', 'Third.'].reduce(
    (board, words) => board.press({ type: 'n' }).write(words).press('enter'),
    bench(fitEngine()),
  )

test('a line that was withdrawn says by which event, and the one in hand stays in hand', () => {
  const board = noted().press({ type: 'l' }, 'down', { type: '-' }).write('wrong rig').press('enter')
  const last = board.events.at(-1)!.seq
  const inHand = board.screen().find((line) => line.startsWith('> '))!
  expect(inHand).toContain(`(withdrawn by #${last})`)
  expect(inHand).toContain('Note: Second.')
  expect(board.text()).toContain('As first recorded: Note: Second.')
  expect(board.text()).toMatch(new RegExp(`As amended by #${last} [^]*: withdrawn. Why:\\s+wrong rig`))
})

test('the last look at a withdrawal shows what the event says and why it is withdrawn', () => {
  const board = noted().press({ type: 'l' }, 'down', 'down', { type: '-' }).write('wrong rig')
  expect(board.text()).toContain('Note: First.')
  expect(board.text()).toContain('Because: wrong rig.')
  expect(board.press('escape').text()).toMatch(/Why is event \d+ withdrawn\?/)
  expect(board.press('escape').ui.screen).toBe('log')
})

test('a card that was scanned at the log leads back to the log, at the same event', () => {
  const board = noted().press({ type: 'l' }, 'down', 'down')
  const before = board.text()
  expect(board.press({ scan: 'HE-1' }).ui.screen).toBe('card')
  expect(board.press('escape').text()).toBe(before)
})

test('a line that was amended says so, and one element of a crew taken out is named', () => {
  const amends = (seq: number, change: Record<string, unknown>): Told => ({
    do: 'amend',
    seq,
    why: 'misread',
    with: { ...change },
  })
  const first = journalOf(FIT).length
  const events: Event[] = journalOf(
    FIT,
    reads('1', 4300),
    { do: 'record-exposure', exposure: 'water', seats: ['E6-1'] },
    amends(first + 1, { psi: 4400 }),
    amends(first + 2, { subject: 'HO-1', withdrawn: true }),
  )
  const entries = logEntries(events.toReversed(), fitCrew())
  const became = (seq: number) => entries.find((each) => each.seq === seq)!.became
  expect(became(first + 1)).toBe(`amended by #${first + 3}`)
  expect(became(first + 2)).toBe(`withdrawn for HO-1 by #${first + 4}`)
  expect(became(first)).toBeUndefined()
})

/** The log as it is after these steps, on the screen. */
function logAfter(...steps: Told[]): Bench {
  const events = journalOf(FIT, ...steps)
  const state = fitCrew(...steps)
  const log = logEntries(events.toReversed(), state)
  return bench({ state, at: NOW }, { ui: { screen: 'log', log, entry: log[0]!.seq } })
}

test('a pressure that was misread is corrected by a sheet; both versions are seen before and after', () => {
  const board = bench(fitEngine()).press({ type: 'p' }).write('4300').press('enter', { type: 'l' })
  const read = board.events[0]!.seq
  board.press({ type: 'c' }, 'enter')
  expect(board.text()).toContain('(it says: 4300)')
  board.write('4400').write('misread the gauge')
  expect(board.text()).toContain('As recorded: #')
  expect(board.text()).toContain('As amended: Pressure in psi: 4400, was 4300.')
  expect(board.text()).toContain('Because: misread the gauge')
  board.press('enter')
  expect(board.commands.at(-1)).toMatchObject({ do: 'amend', seq: read, with: { psi: 4400 } })
  board.press('down')
  expect(board.text()).toContain('As first recorded: Read 4300 psi on cylinder CY-1.')
  expect(board.text()).toContain(`As amended by #${read + 1} (`)
  expect(board.press('enter').text()).toMatch(/psi 4400, was\s+4300\. Why: misread the gauge/)
  expect(board.press('escape').ui.screen).toBe('log')
})

test.each([
  ['4300', 'That is what it says now.'],
  ['full', '"full" is not a whole number.'],
  ['9000', 'far more than CY-1 is rated for'],
])('a correction to %j is refused before it is confirmed', (value, words) => {
  const board = bench(fitEngine()).press({ type: 'p' }).write('4300').press('enter', { type: 'lc' }, 'enter')
  expect(board.write(value).ui.message!.text).toContain(words)
  expect(board.events).toHaveLength(1)
})

test('a wrong label is corrected at the keyboard', () => {
  const board = logAfter({ do: 'add-element', element: { id: 'HE-9', kind: 'helmet', made: '2014-05' } })
  board.type('c').pick('month').write('2024-05').write('read the wrong label').press('enter')
  expect(board.state.elements.get('HE-9')!.made).toBe('2024-05')
})

test('one element that was not there is taken out of the exposure of a crew', () => {
  const board = logAfter({ do: 'record-exposure', exposure: 'water', seats: ['E6-1'] })
  board.type('c').pick('HE-1', 'withdraw').write('it was on the rack').press('enter')
  expect(board.state.elements.get('HE-1')!.exposures).toEqual([])
  expect(board.state.elements.get('HO-1')!.exposures).toHaveLength(1)
})

test('of two cares that one batch recorded for one element, the one that is meant is corrected or withdrawn', () => {
  const cares = (['advanced-cleaning', 'drying'] as const).map((care) => ({
    element: 'HO-1',
    care,
    on: '2026-11-23',
    result: 'serviceable' as const,
  }))
  const sent = { ...sendsAway('HO-1'), at: '2026-11-20T08:00:00.000-05:00' }
  const steps: Told[] = [sent, { do: 'receive-batch', elements: ['HO-1'], cares }]
  const sorts = (board: Bench): string[] =>
    board.state.elements
      .get('HO-1')!
      .cares.filter((each) => each.on >= '2026-11-01')
      .map((each) => `${each.care} ${each.on}`)
  const corrected = logAfter(...steps)
    .type('c')
    .pick('drying', 'day it was done')
  corrected.write('2026-11-22').write('read the slip wrong').press('enter')
  expect(sorts(corrected)).toEqual(['drying 2026-11-22', 'advanced-cleaning 2026-11-23'])
  const withdrawn = logAfter(...steps)
    .type('c')
    .pick('drying', 'withdraw')
    .write('never dried')
    .press('enter')
  expect(sorts(withdrawn)).toEqual(['advanced-cleaning 2026-11-23'])
})

test('of two cleanings of one element in a file the one of the day that is meant is corrected', () => {
  const cares = ['2026-10-01', '2026-11-01'].map((on) => ({
    element: 'HO-1',
    care: 'advanced-cleaning' as const,
    on,
    result: 'serviceable' as const,
  }))
  const file = { members: [], elements: [], fitTests: [], changes: [] }
  const board = logAfter({ do: 'import-records', file: 'cares.csv', ...file, cares }).type('c')
  expect(board.text()).toContain('advanced cleaning 2026-11-01')
  board.pick('2026-11-01', 'day it was done').write('2026-11-02').write('misread').press('enter')
  expect(
    board.state.elements
      .get('HO-1')!
      .cares.slice(-2)
      .map((each) => each.on),
  ).toEqual(['2026-10-01', '2026-11-02'])
})

test('what was done is not corrected but undone, and an answer is called again: the log says which', () => {
  const acts = logAfter({ do: 'clear-seat', seat: 'E6-2' }).type('c')
  expect(acts.ui.message!.text).toMatch(/cannot be amended any more/)
  const answers = logAfter({ do: 'answer', seat: 'E6-1' }).type('c')
  expect(answers.ui.message!.text).toMatch(/withdraw event \d+ with -, and call E6-1 again/)
})

test('only one member: the title says so, the others are gone, and Esc shows all before it leaves', () => {
  const board = noted().press({ type: 'c' }, 'enter', { type: 'l' })
  const all = board.ui.log.length
  board.press({ type: 's' }).pick('E6-1')
  expect(board.text()).toContain('The log of riding position E6-1 only, newest first: 1. Esc shows all')
  expect(board.screen().filter((line) => line.includes('Note:'))).toEqual([])
  expect(board.press('escape').ui).toMatchObject({ screen: 'log', filter: null })
  expect(board.ui.log).toHaveLength(all)
  expect(board.press('escape').ui.screen).toBe('board')
})

test('a record read whole names all that it is about, where its line names only the first few', () => {
  const board = logAfter({ do: 'record-exposure', exposure: 'water', seats: ['E6-1', 'E6-2'] })
  expect(board.ui.log[0]!.text).not.toContain('CY-2')
  expect(board.press('enter').text()).toMatch(/It is about: E6-1, E6-2, [^]*CY-2\./)
})

test('a choice of what to show that is left with Esc changes nothing', () => {
  const board = noted().type('l')
  const before = board.text()
  for (const key of ['t', 's', 'e', 'm']) expect(board.press({ type: key }, 'escape').text()).toBe(before)
})

test('the log is shown only in part also while no tour is open, and nobody is asked who they are', () => {
  const board = bench(demonstrationAfter({ do: 'hand-over', by: 'M-901', to: 'M-912' })).type('lm')
  expect(board.text()).toContain('Show the log of which member?')
})
