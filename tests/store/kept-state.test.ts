// The state that a station keeps for its next start: when it is kept, and that it is believed only where it is right.
import { copyFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { TEXT } from '../demo-station.ts'
import { readDemo } from '../../src/demo.ts'
import type { Command } from '../../src/domain/commands.ts'
import type { State } from '../../src/domain/state.ts'
import { openSession } from '../../src/session.ts'
import { makeStation, openStation } from '../../src/store/station.ts'
import { clockAt, member, newStation, note, recorded, rig, seat, sessionIn } from './kept-station.ts'
import { bytesIn, newFolder, put } from './station-folder.ts'

const SNAPSHOT = 'snapshot.json'

async function keptIn(folder: string): Promise<State | undefined> {
  const keeper = await openStation(folder)
  if ('sentence' in keeper) throw new Error(keeper.sentence)
  keeper.close()
  return keeper.kept
}

describe('a snapshot only saves time', () => {
  let folder = ''
  let replayed: State
  beforeAll(async () => {
    folder = newFolder()
    const nowMs = Date.parse('2026-11-25T12:45:00Z')
    const { station, madeAt, commands } = readDemo(TEXT, nowMs, 'America/New_York')
    expect(await makeStation(folder, station, madeAt)).toBeUndefined()
    const session = await sessionIn(folder, () => nowMs)
    await recorded(session, ...commands)
    replayed = session.state
    await session.close()
  }, 60_000)

  const copied = (): string => {
    const copy = newFolder()
    for (const name of [SNAPSHOT, 'journal.jsonl']) copyFileSync(join(folder, name), join(copy, name))
    return copy
  }
  const stateIn = async (place: string): Promise<State> => (await sessionIn(place)).state

  it('whole, the state starts from it and is that of the session that kept it', async () => {
    expect(await keptIn(folder)).toBeDefined()
    expect(await stateIn(folder)).toEqual(replayed)
  })

  it('deleted, the journal alone gives the same state', async () => {
    const copy = copied()
    rmSync(join(copy, SNAPSHOT))
    expect(await keptIn(copy)).toBeUndefined()
    expect(await stateIn(copy)).toEqual(replayed)
  })

  it.each([
    ['empty', () => ''],
    ['garbage', () => '\u0000\u0001{"format":1,'],
    ['cut short', (text: string) => text.slice(0, -100)],
    ['changed in one letter', (text: string) => text.replace('Engine 9', 'Engine 8')],
    ['of another version', (text: string) => text.replace(/"version":"\d+"/, '"version":"0"')],
    ['standing at another event', (text: string) => text.replace(/"seq":\d+/, '"seq":7')],
  ])('%s, it is not believed and the state is the same', async (_, change) => {
    const copy = copied()
    const text = readFileSync(join(copy, SNAPSHOT), 'utf8')
    const changed = change(text)
    expect(changed).not.toBe(text)
    writeFileSync(join(copy, SNAPSHOT), changed)
    expect(await keptIn(copy)).toBeUndefined()
    expect(await stateIn(copy)).toEqual(replayed)
  })

  /** With one letter changed in what lies behind the first part. */
  const spoilt = (): string => {
    const copy = copied()
    const text = readFileSync(join(copy, SNAPSHOT), 'utf8')
    const at = text.lastIndexOf('"kind":"')
    writeFileSync(join(copy, SNAPSHOT), `${text.slice(0, at)}"kinb":"${text.slice(at + 8)}`)
    return copy
  }

  it('spoilt in what is read later, the state is the same, and the next start has a sound one', async () => {
    const copy = spoilt()
    const changed = readFileSync(join(copy, SNAPSHOT))
    expect((await keptIn(copy))?.seq).toBe(replayed.seq)
    const session = await sessionIn(copy)
    expect(session.state).toEqual(replayed)
    await session.close()
    expect(readFileSync(join(copy, SNAPSHOT)).equals(changed)).toBe(false)
    expect(readFileSync(join(copy, SNAPSHOT)).equals(readFileSync(join(folder, SNAPSHOT)))).toBe(true)
  })

  it('spoilt in what is read later, with a journal that does not reach so far any more, nothing is made up', async () => {
    const copy = spoilt()
    const { state } = await sessionIn(copy)
    put(copy, bytesIn(copy).subarray(0, -5))
    expect(() => [...state.elements]).toThrow('is damaged, and the journal that it was made from is too')
  })

  it('of another station, it is not believed', async () => {
    const other = await newStation()
    const session = await sessionIn(other)
    await recorded(session, member('M-104'))
    await session.close()
    const copy = copied()
    copyFileSync(join(other, SNAPSHOT), join(copy, SNAPSHOT))
    expect(await keptIn(copy)).toBeUndefined()
    expect(await stateIn(copy)).toEqual(replayed)
  })

  it('standing past a changed byte, it is not believed and the damage is said', async () => {
    const copy = copied()
    const text = bytesIn(copy).toString()
    put(copy, text.replace('"size":"44x32"', '"size":"44x34"'))
    const session = await sessionIn(copy)
    expect(session.stopped).toMatch(/^The journal is damaged at line \d+ /)
    expect(await session.submit(note('no'))).toEqual({ failed: session.stopped })
  })

  it('newer than the journal, as after a journal was brought back from a copy, it is not believed', async () => {
    const copy = copied()
    const lines = bytesIn(copy).toString().split('\n')
    put(copy, `${lines.slice(0, 500).join('\n')}\n`)
    expect(await keptIn(copy)).toBeUndefined()
    const shorter = await stateIn(copy)
    expect(shorter.seq).toBe(500)
    rmSync(join(copy, SNAPSHOT))
    expect(await stateIn(copy)).toEqual(shorter)
  })

  it('older than the journal, the rest is read on from it', async () => {
    const copy = copied()
    const session = await sessionIn(copy)
    const by = session.state.tour!.officer
    await recorded(session, { do: 'note', by, text: 'after the snapshot' })
    // Left without closing, as when the power goes: the snapshot is not kept again.
    expect((await keptIn(copy))?.seq).toBe(session.state.seq - 1)
    expect(await stateIn(copy)).toEqual(session.state)
  })
})

it('keeps a snapshot after many events without being closed', async () => {
  const folder = await newStation()
  const keeper = await openStation(folder)
  if ('sentence' in keeper) throw new Error(keeper.sentence)
  const session = openSession(keeper, clockAt())
  await recorded(session, member('M-104'), ...Array.from({ length: 1_000 }, (_, n) => note(`note ${n}`)))
  await expect
    .poll(async () => (await keptIn(folder))?.seq ?? 0, { timeout: 30_000 })
    .toBeGreaterThanOrEqual(1_000)
  await session.close()
  expect((await keptIn(folder))?.seq).toBe(1_002)
}, 60_000)

it('keeps a snapshot at the end where another tour is open or none is any more, so that the next start has its crew and verdicts at hand', async () => {
  const folder = await newStation()
  const first = await sessionIn(folder)
  await recorded(first, member('M-104'), rig)
  await first.close()
  const kept = (await keptIn(folder))!.seq
  const second = await sessionIn(folder)
  await recorded(second, note('few events are not worth it'))
  await second.close()
  expect((await keptIn(folder))!.seq).toBe(kept)
  const third = await sessionIn(folder)
  const opening: Command = {
    do: 'open-tour',
    tour: 'T-1',
    platoon: 'B',
    officer: 'M-104',
    on: '2026-11-24',
    by: 'M-104',
  }
  await recorded(third, opening, seat('M-104'))
  await third.close()
  expect((await keptIn(folder))!.seq).toBe(third.state.seq)
  const fourth = await sessionIn(folder)
  await recorded(fourth, note('still the same tour'))
  await fourth.close()
  expect((await keptIn(folder))!.seq).toBe(third.state.seq)
  const fifth = await sessionIn(folder)
  await recorded(fifth, { do: 'hand-over', to: 'M-104', by: 'M-104' })
  await fifth.close()
  expect((await keptIn(folder))!.seq).toBe(fifth.state.seq)
})
