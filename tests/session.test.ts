// The one loop on real files: what is accepted is on disk, what is refused leaves no trace, and two programs never contradict.
import { describe, expect, it } from 'vitest'
import {
  clockAt,
  entriesIn,
  member,
  newStation,
  note,
  notesIn,
  recorded,
  rig,
  seat,
  sessionIn,
  ZONE,
} from './store/kept-station.ts'
import { bytesIn } from './store/station-folder.ts'

/** Every note in the file; the books keep only the newest. */
const notesOf = (folder: string) =>
  entriesIn(folder).flatMap(({ type, data }) => (type === 'note-made' ? [String(data['text'])] : []))
const lastIn = (folder: string) => entriesIn(folder).at(-1)!

describe('a command', () => {
  it('is answered as accepted when its event is in the file', async () => {
    const folder = await newStation()
    const session = await sessionIn(folder)
    expect(await session.submit(member('M-104'))).toEqual({ accepted: [2] })
    expect(lastIn(folder)).toMatchObject({
      seq: 2,
      at: '2026-11-24T07:00:00.000-05:00',
      by: 'setup',
      type: 'member-added',
    })
    expect(session.head.hash).toBe((lastIn(folder) as { hash?: string }).hash)
  })

  it('that is refused changes no byte and no state, and is answered in words', async () => {
    const folder = await newStation()
    const session = await sessionIn(folder)
    await recorded(session, member('M-104'))
    const [bytes, state] = [bytesIn(folder), session.state]
    expect(await session.submit(member('M-104'))).toEqual({
      refused: 'M-104 is already the member Member M-104. Nothing was added.',
    })
    expect(bytesIn(folder)).toEqual(bytes)
    expect(session.state).toBe(state)
  })

  it('waits its turn: many given at once are recorded in the order given, more than one turn takes', async () => {
    const folder = await newStation()
    const session = await sessionIn(folder)
    await recorded(session, member('M-104'))
    const texts = Array.from({ length: 150 }, (_, index) => `note ${index}`)
    const answers = await Promise.all(texts.map((text) => session.submit(note(text))))
    expect(answers).toEqual(texts.map((_, index) => ({ accepted: [index + 3] })))
    expect(notesOf(folder)).toEqual(texts)
    const { state } = session
    await session.close()
    expect((await sessionIn(folder)).state).toEqual(state)
  })

  it('calls the watchers when it is done, until they stop watching', async () => {
    const session = await sessionIn(await newStation())
    const seen: number[] = []
    const stop = session.watch(() => seen.push(session.state.seq))
    await recorded(session, member('M-104'))
    await expect.poll(() => seen, { timeout: 5_000 }).toEqual([2])
    stop()
    await recorded(session, member('M-105'))
    await session.close()
    expect(seen).toEqual([2])
  })
})

describe('"at"', () => {
  it('may name the past: the event keeps that instant, in the zone of the station, and says when it was recorded', async () => {
    const folder = await newStation()
    const session = await sessionIn(folder, clockAt('2026-11-24T12:00:00Z'))
    await recorded(session, member('M-104'), note('late', '2026-11-17T12:30:00Z'))
    expect(lastIn(folder)).toMatchObject({
      seq: 3,
      at: '2026-11-17T07:30:00.000-05:00',
      data: { text: 'late', recordedAt: '2026-11-24T07:00:00.000-05:00' },
    })
  })

  it.each([
    ['a minute ago is the same moment', '2026-11-24T11:59:00Z', undefined],
    ['more than a minute ago is late', '2026-11-24T11:58:59.999Z', '2026-11-24T07:00:00.000-05:00'],
  ])('%s', async (_, at, recordedAt) => {
    const folder = await newStation()
    const session = await sessionIn(folder, clockAt('2026-11-24T12:00:00Z'))
    await recorded(session, member('M-104'), note('then', at))
    expect(lastIn(folder).data['recordedAt']).toBe(recordedAt)
  })

  it('two minutes ahead is another machine’s clock, one millisecond more is refused as still to come', async () => {
    const folder = await newStation()
    const session = await sessionIn(folder, clockAt('2026-11-24T12:00:00Z'))
    await recorded(session, member('M-104'), note('ahead', '2026-11-24T12:02:00Z'))
    const bytes = bytesIn(folder)
    expect(await session.submit(note('too far', '2026-11-24T12:02:00.001Z'))).toEqual({
      refused:
        '2026-11-24T12:02:00.001Z is still to come: "at" may name the past, not the future. Nothing was recorded.',
    })
    expect(bytesIn(folder)).toEqual(bytes)
  })

  it('never decides the order: a clock that steps back an hour, or to another year, reorders and loses nothing', async () => {
    const folder = await newStation()
    const clock = clockAt('2026-11-24T12:00:00Z')
    const session = await sessionIn(folder, clock)
    await recorded(session, member('M-104'), note('first'))
    clock.ms -= 3_600_000
    await recorded(session, note('second'))
    clock.ms = Date.parse('2016-01-01T00:00:00Z')
    await recorded(session, note('third'))
    await session.close()
    expect(entriesIn(folder).map(({ seq }) => seq)).toEqual([1, 2, 3, 4, 5])
    expect(lastIn(folder).at).toBe('2015-12-31T19:00:00.000-05:00')
    expect(notesIn(await sessionIn(folder))).toEqual(['first', 'second', 'third'])
  })

  it('in the hour that comes twice keeps its own offset', async () => {
    const folder = await newStation()
    const clock = clockAt('2027-11-07T05:30:00Z')
    const session = await sessionIn(folder, clock)
    await recorded(session, member('M-104'))
    clock.ms += 3_600_000
    await recorded(session, note('again half past one'))
    expect(
      entriesIn(folder)
        .slice(1)
        .map(({ at }) => at),
    ).toEqual(['2027-11-07T01:30:00.000-04:00', '2027-11-07T01:30:00.000-05:00'])
  })
})

describe('two sessions on one station', () => {
  it('see each other’s work when they look, and only then call their watchers', async () => {
    const folder = await newStation()
    const [one, other] = [await sessionIn(folder), await sessionIn(folder)]
    let calls = 0
    other.watch(() => calls++)
    other.look()
    expect(calls).toBe(0)
    await recorded(one, member('M-104'))
    expect(other.state.members.size).toBe(0)
    other.look()
    expect(other.state.members.get('M-104')?.platoon).toBe('B')
    expect(calls).toBe(1)
    expect(other.head).toEqual(one.head)
  })

  it('decide again against the newest state: who was seated by one is refused to the other, with the reason', async () => {
    const folder = await newStation()
    const [one, other] = [await sessionIn(folder), await sessionIn(folder)]
    await recorded(one, member('M-104'), rig)
    other.look()
    await recorded(one, seat('M-104'))
    const bytes = bytesIn(folder)
    expect(other.state.members.get('M-104')?.seat).toBeNull()
    expect(await other.submit(seat('M-104'))).toEqual({
      refused: 'Member M-104 already rides at E6-1.',
    })
    expect(other.state.members.get('M-104')?.seat).toBe('E6-1')
    expect(bytesIn(folder)).toEqual(bytes)
  })

  it('given commands at the same time lose none and end in the same state', async () => {
    const folder = await newStation()
    const [one, other] = [await sessionIn(folder), await sessionIn(folder)]
    await recorded(one, member('M-104'))
    const texts = (name: string) => Array.from({ length: 40 }, (_, index) => note(`${name} ${index}`))
    await Promise.all([recorded(one, ...texts('one')), recorded(other, ...texts('other'))])
    for (const each of [one, other]) each.look()
    expect(one.state).toEqual(other.state)
    const notes = notesOf(folder)
    expect(notes).toHaveLength(80)
    for (const name of ['one', 'other']) {
      const own = notes.filter((text) => text.startsWith(`${name} `))
      expect(own).toEqual(texts(name).map((each) => (each as { text: string }).text))
    }
  })
})

it('tells the time in the zone of the station', async () => {
  const session = await sessionIn(await newStation(), clockAt('2026-07-01T12:00:00Z'))
  expect(session.now()).toBe('2026-07-01T08:00:00.000-04:00')
  expect(session.state.station?.timeZone).toBe(ZONE)
})
