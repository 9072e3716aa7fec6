// The invented stations that are measured: they must be what the program itself could have recorded, and the same each time.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { makeStation } from '../../scripts/bench/stations/make.ts'
import { replay } from '../../src/domain/evolve.ts'
import type { Event } from '../../src/domain/events.ts'
import { emptyState } from '../../src/domain/state.ts'
import { openStation, readEvents } from '../../src/store/station.ts'
import { verifyJournal } from '../../src/store/verify.ts'

const SIZE = { events: 1_500, seats: 8, elements: 300 }
const DAY = '2026-11-25'
let folder = ''
const inFolder = (name: string): string => join(folder, name)
const journal = (name: string): Buffer => readFileSync(join(inFolder(name), 'journal.jsonl'))

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'bayboard-bench-test-'))
  await makeStation(inFolder('one'), SIZE, DAY)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('a measured station has exactly as many events as asked for, and verifies', () => {
  const verified = verifyJournal(inFolder('one'))
  expect(verified).toMatchObject({ kind: 'verified', lines: SIZE.events, faults: [] })
  expect(verified.kind === 'verified' && verified.torn).toBeFalsy()
})

test('it is the same to the byte on every machine', async () => {
  await makeStation(inFolder('two'), SIZE, DAY)
  expect(journal('two').equals(journal('one'))).toBe(true)
})

test('two measurements that make the same station at once do not disturb each other', async () => {
  await Promise.all([1, 2].map(() => makeStation(inFolder('shared'), SIZE, DAY)))
  expect(journal('shared').equals(journal('one'))).toBe(true)
  expect(readdirSync(folder).filter((name) => name.startsWith('shared'))).toEqual(['shared'])
})

test('it holds years of work of every usual sort, and ends in an open tour with everybody seated', () => {
  const events: Event[] = []
  readEvents(inFolder('one'), (event) => events.push(event))
  const state = replay(emptyState(), events)
  expect([...new Set(events.map((each) => each.type))]).toEqual(
    expect.arrayContaining([
      'seat-answered',
      'pressure-read',
      'element-tagged',
      'element-swapped',
      'exposure-recorded',
      'care-recorded',
      'fit-test-recorded',
      'tour-handed-over',
    ]),
  )
  expect(state.tour?.on).toBe(DAY)
  expect([...state.seats.values()].every((seat) => seat.member !== null)).toBe(true)
  expect([state.seats.size, state.elements.size]).toEqual([SIZE.seats, SIZE.elements])
})

test('its snapshot is believed, and stands as many events back as a board that is left leaves it', async () => {
  const keeper = await openStation(inFolder('one'))
  if ('sentence' in keeper) throw new Error(keeper.sentence)
  expect(keeper.kept?.seq).toBe(SIZE.events - 100)
  keeper.close()
})
