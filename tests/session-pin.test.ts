// PINs through the one loop on real files: refused and recorded, waited for across restarts, and nowhere to be found.
import { expect, it } from 'vitest'
import type { Command } from '../src/domain/commands.ts'
import { clockAt, entriesIn, member, newStation, note, recorded, sessionIn } from './store/kept-station.ts'
import { bytesIn } from './store/station-folder.ts'

const by = 'M-104'
const PIN = '86420975'
const WRONG = '13579135'
const opens: Command = { do: 'open-tour', by, tour: 'T-1', platoon: 'B', officer: by, on: '2026-11-24' }
const handsOver = (pin?: string, at?: string): Command => ({
  do: 'hand-over',
  by,
  to: 'M-207',
  ...(pin !== undefined && { pin }),
  ...(at !== undefined && { at }),
})

it('a wrong PIN is refused and recorded, its wait survives a restart and a past "at", and the right one then hands over', async () => {
  const folder = await newStation()
  const clock = clockAt()
  let session = await sessionIn(folder, clock)
  await recorded(session, member('M-104'), member('M-207'), { do: 'set-pin', by, pin: PIN }, opens)
  const before = bytesIn(folder).length
  expect(await session.submit(handsOver())).toEqual({ refused: expect.stringContaining('give it in "pin"') })
  expect(bytesIn(folder).length).toBe(before)
  for (const tries of [1, 2, 3]) {
    expect(await session.submit(handsOver(WRONG))).toEqual({
      refused: expect.stringContaining('That is not the PIN of Member M-104 (M-104).'),
    })
    expect(entriesIn(folder).at(-1)).toMatchObject({
      type: 'pin-refused',
      by,
      data: { member: by, for: 'hand-over', tries },
    })
    clock.ms += 2 ** (tries - 1) * 1000
  }
  clock.ms -= 1
  await session.close()
  session = await sessionIn(folder, clock)
  const events = entriesIn(folder).length
  for (const at of [undefined, '2026-11-24T13:00:00Z', '2026-11-24T12:02:00Z']) {
    const answer = await session.submit(handsOver(PIN, at))
    expect(Object.keys(answer)).toEqual(['refused'])
  }
  expect(entriesIn(folder)).toHaveLength(events)
  clock.ms += 1
  expect(await session.submit(handsOver(PIN))).toMatchObject({ accepted: [events + 1] })
  expect(entriesIn(folder).at(-1)).toMatchObject({ type: 'tour-handed-over', data: { byPin: true } })
  expect(session.state.members.get(by)?.pinTries).toBeUndefined()
  await recorded(session, note('afterwards'))
  await session.close()
  const kept = bytesIn(folder).toString()
  expect(kept).not.toContain(PIN)
  expect(kept).not.toContain(WRONG)
})

it('a wrong PIN for the read-back is logged as the incoming officer’s, holds off the right one, and says nothing of the other', async () => {
  const folder = await newStation()
  const clock = clockAt()
  const session = await sessionIn(folder, clock)
  const TAKES = '24681357'
  await recorded(session, member('M-104'), member('M-207'), opens)
  await recorded(session, { do: 'set-pin', by: 'M-207', pin: TAKES }, { do: 'set-pin', by, pin: PIN })
  const readBack = (readBackPin: string, pin: string): Command => ({
    do: 'hand-over',
    by,
    to: 'M-207',
    readBack: true,
    readBackPin,
    pin,
  })
  expect(await session.submit(readBack(WRONG, WRONG))).toEqual({
    refused: expect.stringContaining('That is not the PIN of Member M-207 (M-207).'),
  })
  expect(entriesIn(folder).at(-1)).toMatchObject({ type: 'pin-refused', data: { member: 'M-207', tries: 1 } })
  expect(session.state.members.get(by)?.pinTries).toBeUndefined()
  clock.ms += 999
  expect(await session.submit(readBack(TAKES, PIN))).toEqual({
    refused: expect.stringContaining('Try again in 1 second.'),
  })
  clock.ms += 1
  expect(await session.submit(readBack(TAKES, PIN))).toHaveProperty('accepted')
  expect(entriesIn(folder).at(-1)).toMatchObject({
    type: 'tour-handed-over',
    data: { readBack: true, readBackByPin: true, byPin: true },
  })
  expect(session.state.members.get('M-207')?.pinTries).toBeUndefined()
  await session.close()
  const kept = bytesIn(folder).toString()
  for (const pin of [TAKES, PIN, WRONG]) expect(kept).not.toContain(pin)
})
