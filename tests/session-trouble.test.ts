// The one loop where the journal is torn or damaged or the disk says no: it says so, stops, and loses nothing that was accepted.
import { appendFileSync, existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { Event } from '../src/domain/events.ts'
import { openSession, type Keeper } from '../src/session.ts'
import {
  clockAt,
  entriesIn,
  FACTS,
  MADE_AT,
  member,
  newStation,
  note,
  notesIn,
  recorded,
  sessionIn,
} from './store/kept-station.ts'
import { failingFiles } from './store/failing-files.ts'
import { bytesIn, pathIn, put } from './store/station-folder.ts'

describe('an unfinished last line', () => {
  it('is left alone by opening, set aside at the first turn, and the event says where it is', async () => {
    const folder = await newStation()
    const whole = bytesIn(folder)
    appendFileSync(pathIn(folder), '{"seq":2,"at":"2026')
    const session = await sessionIn(folder)
    expect(session.stopped).toBeUndefined()
    expect(bytesIn(folder).length).toBe(whole.length + 19)
    expect(await session.submit(member('M-104'))).toEqual({ accepted: [3] })
    const [, recovery] = entriesIn(folder)
    expect(recovery).toMatchObject({ seq: 2, by: 'setup', type: 'journal-recovered', data: { bytes: 19 } })
    const file = String(recovery!.data['file'])
    expect(readFileSync(join(folder, file), 'utf8')).toBe('{"seq":2,"at":"2026')
    expect(readdirSync(folder).filter((name) => name.startsWith('journal.torn-'))).toEqual([file])
  })
})

describe('a board that opens after a crash', () => {
  it('sets the unfinished line aside at once, without waiting for something to record', async () => {
    const folder = await newStation()
    appendFileSync(pathIn(folder), '{"seq":2,')
    const session = await sessionIn(folder)
    await session.begin()
    expect(entriesIn(folder).map((each) => each.type)).toEqual(['station-made', 'journal-recovered'])
    expect(session.state.seq).toBe(2)
  })

  it('records nothing when nothing was left unfinished', async () => {
    const folder = await newStation()
    const whole = bytesIn(folder)
    const session = await sessionIn(folder)
    await session.begin()
    expect(bytesIn(folder)).toEqual(whole)
  })
})

describe('a damaged journal', () => {
  it('shows what is sound, says so in a standing line, refuses everything as failed and changes nothing', async () => {
    const folder = await newStation()
    const before = await sessionIn(folder)
    await recorded(before, member('M-104'), member('M-105'), note('lost'))
    const damaged = Buffer.from(bytesIn(folder).toString().replace('Member M-105', 'Member M-106'))
    put(folder, damaged)
    const session = await sessionIn(folder)
    expect([...session.state.members.keys()]).toEqual(['M-104'])
    expect(session.stopped).toContain('The journal is damaged at line 3 ')
    expect(await session.submit(note('no'))).toEqual({ failed: session.stopped })
    await session.close()
    expect(bytesIn(folder)).toEqual(damaged)
    expect(existsSync(join(folder, 'snapshot.json'))).toBe(false)
  })

  it('that is damaged while it is open is told to the watchers at the next look', async () => {
    const folder = await newStation()
    const session = await sessionIn(folder)
    let calls = 0
    session.watch(() => calls++)
    appendFileSync(pathIn(folder), 'not a line of a journal\n')
    session.look()
    expect(session.stopped).toContain('damaged at line 2')
    session.look()
    expect(calls).toBe(1)
  })
})

describe('a failing disk', () => {
  it.each([
    ['that is full', { call: 'write', code: 'ENOSPC' } as const, 'the disk is full (ENOSPC)'],
    ['that takes part of a line', { call: 'write', short: 20 } as const, 'only 20 of'],
    ['that cannot sync', { call: 'fdatasync', code: 'EIO' } as const, 'the disk reported an error (EIO)'],
  ])(
    '%s fails the command and stops the session for good; what was accepted is safe',
    async (_, fault, words) => {
      const folder = await newStation()
      await recorded(await sessionIn(folder), member('M-104'), note('kept'))
      // Once only: the second command would succeed if the session tried.
      const session = await sessionIn(folder, clockAt(), failingFiles(fault).files)
      const [first, second] = await Promise.all([session.submit(note('one')), session.submit(note('two'))])
      expect(first).toEqual({ failed: expect.stringContaining(words) })
      expect(second).toEqual(first)
      expect(session.stopped).toBe('failed' in first ? first.failed : '')
      expect(notesIn(session)).toEqual(['kept'])
      const size = statSync(pathIn(folder)).size
      expect(await session.submit(note('three'))).toEqual(first)
      session.look()
      expect(notesIn(session)).toEqual(['kept'])
      expect(statSync(pathIn(folder)).size).toBe(size)
      const next = await sessionIn(folder)
      expect(notesIn(next).slice(0, 1)).toEqual(['kept'])
      await recorded(next, note('goes on'))
      expect(notesIn(next).at(-1)).toBe('goes on')
    },
  )
})

describe('a mistake of the program itself', () => {
  it('answers everybody who waits, stops, and keeps what was accepted', async () => {
    let appends = 0
    const keeper: Keeper = {
      kept: undefined,
      head: { seq: 0, hash: '' },
      stopped: undefined,
      alone: async (work) => ({
        value: work({
          append: (event) => {
            if (++appends > 1) throw new Error('a mistake')
            return { event: { ...event, seq: appends } as Event }
          },
          recover: () => undefined,
        }),
      }),
      catchUp: (deliver) => {
        if (appends === 0) deliver({ seq: 1, at: MADE_AT, by: 'setup', type: 'station-made', data: FACTS })
        return undefined
      },
      keep: async () => undefined,
      close: () => undefined,
    }
    const session = openSession(keeper, clockAt())
    const answers = await Promise.all([member('M-104'), member('M-105'), note('third')].map(session.submit))
    expect(answers[0]).toEqual({ accepted: [1] })
    expect(answers.slice(1)).toEqual([{ failed: session.stopped }, { failed: session.stopped }])
    expect(session.stopped).toContain('a mistake')
    expect(await session.submit(note('later'))).toEqual({ failed: session.stopped })
    await session.close()
  })
})
