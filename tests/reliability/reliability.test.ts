// A sample of the campaign that `npm run reliability` runs whole: the promises hold, and the checks are shown to fail.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { buildInto, builtStore } from './build.ts'
import * as check from './checks.ts'
import { callsOfTour, CODES, tourWithFault } from './faults.ts'
import { deadHolder, stoppedHolder, together } from './forks.ts'
import { filledDisk, hasSmallDisks } from './full-disk.ts'
import { hasStrace, recoveryKilledAt, tourKilledAt } from './kills.ts'
import { runSeed } from './model.ts'
import { store } from './store.ts'
import { VARIANTS } from './variants.ts'

const place = mkdtempSync(join(tmpdir(), 'bayboard-reliability-'))
let program = ''
beforeAll(async () => {
  // Every store that is built listens to the same signals.
  process.setMaxListeners(0)
  program = await buildInto(place, 'tests/reliability/child.ts')
})
afterAll(() => rmSync(place, { recursive: true, force: true }))

test('whenever the power goes, what comes back is the model after k events, acknowledged <= k <= issued', async () => {
  for (let seed = 1; seed <= 25; seed++) expect([seed, await runSeed(store, seed)]).toEqual([seed, undefined])
}, 60_000)

describe('a promise is kept', () => {
  test.each<[string, check.Check]>([
    ['an event is written whole, then synced, and only then accepted', check.orderOfCalls],
    ['a disk that says no once ends the recording', check.oneFault],
    ['every changed bit is noticed (a sample)', check.bitFlips(20, 131)],
    ['damage is said and not repaired', check.damage],
    ['a torn tail is set aside to the byte (a sample)', check.tornTail(25)],
    ['the clock decides no order', check.clockSteps],
    ['the head is looked at again under the lock', check.headAgain],
    ['one at a time has the lock', check.oneAtATime],
    ['nothing raw drives a terminal', check.escapes],
    ['no cell of CSV acts as a formula', check.formulas],
    ['a seal tells what was altered or shortened', check.seals],
  ])('%s', async (_, promise) => expect(await promise(store)).toBeUndefined())
})

describe('found out is a store that', () => {
  test.each(VARIANTS.map((variant) => [variant.does, variant] as const))(
    '%s',
    async (_, { changes, caughtBy }) => {
      expect(await caughtBy(await builtStore(place, changes))).toEqual(expect.any(String))
    },
  )
})

test('a disk that says no at any call of a tour, for ever: what was accepted is there, and the next start goes on', async () => {
  for (const [index, [call, times]] of [...(await callsOfTour())].entries()) {
    for (let nth = 1; nth <= times; nth += 5) {
      const fault = { call, nth, code: CODES[(index + nth) % CODES.length]!, forEver: true }
      expect([fault, await tourWithFault(fault)]).toEqual([fault, undefined])
    }
  }
}, 60_000)

test('a key is not made where the journal cannot be read just then', async () => {
  expect(await tourWithFault({ call: 'read', code: 'EIO', nth: 7 })).toBeUndefined()
})

describe('real processes', () => {
  test('two with thirty events each fork nothing', async () =>
    expect(await together(program, 2, 30)).toBeUndefined())
  test('one that is stopped with the lock in hand and goes on later appends nothing', async () =>
    expect(await stoppedHolder(program)).toBeUndefined())
  test('one that died with the lock in hand holds nobody up once it is stale', async () =>
    expect(await deadHolder(program)).toBeUndefined())
})

describe.skipIf(!hasStrace)('needs strace: a process that is killed at a system call', () => {
  test.each([
    { call: 'write', nth: 3 },
    { call: 'fdatasync', nth: 2 },
    { call: 'rename', nth: 1 },
  ])('of a tour, $call number $nth, has everything there that it had said', async (point) =>
    expect(await tourKilledAt(point, program)).toBeUndefined(),
  )
  test('of a recovery, and again at another, has set the torn bytes aside', async () => {
    const points = [
      { call: 'ftruncate', nth: 1 },
      { call: 'fdatasync', nth: 1 },
    ]
    expect(await recoveryKilledAt(points, program)).toBeUndefined()
  })
})

describe.skipIf(!hasSmallDisks)('needs a name space with a small disk:', () => {
  test('a disk that really fills up loses nothing that was accepted', () =>
    expect(filledDisk(program, '64k')).toBeUndefined())
})
