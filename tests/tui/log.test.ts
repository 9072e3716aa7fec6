// The log: what was withdrawn or amended says so, the event in hand stays in hand, and a withdrawal is looked at before it is made.
import { expect, test } from 'vitest'
import type { Event } from '../../src/domain/events.ts'
import { logEntries } from '../../src/tui/log-entries.ts'
import { fitCrew, FIT, reads } from '../domain/fit-crew.ts'
import { journalOf, type Told } from '../domain/given.ts'
import { bench, type Bench } from './bench.ts'
import { fitEngine } from './stations.ts'

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
  expect(board.screen().filter((line) => line.includes('(withdrawn'))).toHaveLength(2)
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
