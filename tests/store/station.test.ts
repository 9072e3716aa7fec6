// A station's folder: opening it from a snapshot or from the start, and a journal of a newer format.
import { copyFileSync, cpSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { TEXT } from '../demo-station.ts'
import { readDemo } from '../../src/demo.ts'
import type { State } from '../../src/domain/state.ts'
import { openSession } from '../../src/session.ts'
import { formatLine, ZEROS } from '../../src/store/line.ts'
import { makeStation, openStation, readEvents } from '../../src/store/station.ts'
import { clockAt, FACTS, MADE_AT, member, newStation, note, recorded, sessionIn } from './kept-station.ts'
import { bytesIn, newFolder, pathIn, put } from './station-folder.ts'

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

describe('a journal of a newer format', () => {
  it('is opened for reading only, says so, and nothing in the folder changes', async () => {
    const folder = newFolder()
    const draft = { at: MADE_AT, by: 'setup', type: 'station-made', data: { ...FACTS, format: 2 } }
    const first = formatLine(draft, 1, ZEROS)
    const second = formatLine(
      { at: MADE_AT, by: 'setup', type: 'member-added', data: { member: { id: 'M-104', name: 'A' } } },
      2,
      first.hash,
    )
    put(folder, `${first.line}\n${second.line}\n`)
    const copy = newFolder()
    cpSync(folder, copy, { recursive: true })
    const session = await sessionIn(folder)
    expect(session.stopped).toMatch(/^This station's journal has format 2; this program knows format 1\./)
    expect(session.state.members.has('M-104')).toBe(true)
    expect(await session.submit(note('no'))).toEqual({ failed: session.stopped })
    await session.close()
    expect(readdirSync(folder)).toEqual(readdirSync(copy))
    expect(bytesIn(folder)).toEqual(readFileSync(pathIn(copy)))
  })
})

it('reading events of a damaged journal gives what is sound and the sentence', async () => {
  const folder = await newStation()
  await recorded(await sessionIn(folder), member('M-104'), note('changed'), note('after'))
  put(folder, bytesIn(folder).toString().replace('"changed"', '"CHANGED"'))
  const types: string[] = []
  expect(readEvents(folder, ({ type }) => types.push(type))).toEqual({
    stopped: expect.stringContaining('The journal is damaged at line 3 '),
  })
  expect(types).toEqual(['station-made', 'member-added'])
})

it('there is no station in an empty folder, and opening makes none', async () => {
  const folder = newFolder()
  expect(await openStation(folder)).toMatchObject({ why: 'none' })
  expect(existsSync(pathIn(folder))).toBe(false)
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

describe('an event that this program does not know', () => {
  const appendLine = (folder: string, type: string, data: object): void => {
    const lines = bytesIn(folder).toString().trimEnd().split('\n')
    const prev = (JSON.parse(lines.at(-1)!) as { hash: string }).hash
    const { line } = formatLine({ at: MADE_AT, by: 'M-104', type, data }, lines.length + 1, prev)
    put(folder, `${lines.join('\n')}\n${line}\n`)
  }

  it.each([
    ['of another name', 'element-recalled', { element: 'C-1041' }, 'does not know (element-recalled)'],
    ['without its data', 'seat-answered', { seat: 'E6-1' }, 'cannot read (seat-answered)'],
  ])(
    '%s opens the station for reading only: it may say that gear must not be worn',
    async (_, type, data, words) => {
      const folder = await newStation()
      appendLine(folder, type, data)
      const before = bytesIn(folder)
      const session = await sessionIn(folder)
      expect(session.stopped).toContain(words)
      expect(session.state.station).not.toBeNull()
      expect(await session.submit(member('M-104'))).toEqual({ failed: session.stopped })
      expect(bytesIn(folder)).toEqual(before)
    },
  )
})
