// The formats of the journal: each one there ever was is read for ever, from a journal that was written then and is never written again.
import { copyFileSync, existsSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, test } from 'vitest'
import { JOURNAL_FORMAT, readingOf, type Upcaster } from '../../src/store/formats.ts'
import type { Entry } from '../../src/store/line.ts'
import { verifyJournal } from '../../src/store/verify.ts'
import { bytesIn, newFolder, pathIn } from './station-folder.ts'
import { note, recorded, sessionIn } from './kept-station.ts'

const fixture = (format: number): string => join(import.meta.dirname, 'formats', `format-${format}.jsonl`)
const FORMATS = Array.from({ length: JOURNAL_FORMAT }, (_, index) => index + 1)

/** What the journal of each format said when it was written, in words of the trade that no change of the program's own shapes touches. */
const SAID: Readonly<Record<number, object>> = {
  1: {
    events: 34,
    station: 'Larch Hill',
    members: ['M-104', 'M-105', 'M-207'],
    tours: ['T-1', 'T-9'],
    tags: ['soiled', 'torn seam'],
    note: 'Señal é 火 kept as it is',
    policy: 'Larch Hill',
  },
}

test.each(FORMATS)(
  'a number without its fixture would be found: format %i has one, and what it said',
  (format) => {
    expect(existsSync(fixture(format))).toBe(true)
    expect(SAID).toHaveProperty(String(format))
  },
)

describe.each(FORMATS)('a journal of format %i', (format) => {
  const copied = (): string => {
    const folder = newFolder()
    copyFileSync(fixture(format), pathIn(folder))
    return folder
  }

  it('verifies, is open for recording, and says what it said when it was written', async () => {
    const folder = copied()
    expect(verifyJournal(folder)).toMatchObject({ faults: [] })
    const session = await sessionIn(folder)
    const { state } = session
    expect(session.stopped).toBeUndefined()
    expect({
      events: state.seq,
      station: state.station?.name,
      members: [...state.members.keys()],
      tours: [...state.tours.keys()],
      tags: state.elements.get('H-5')?.tags.map(({ reason }) => reason),
      note: state.notes.at(-1)?.text,
      policy: state.overlay?.name,
    }).toEqual(SAID[format])
  })

  it('is appended to and not written anew', async () => {
    const folder = copied()
    const before = bytesIn(folder)
    const session = await sessionIn(folder)
    await recorded(session, note('goes on'))
    await session.close()
    expect(bytesIn(folder).subarray(0, before.length).equals(before)).toBe(true)
  })
})

describe('an older format', () => {
  const entry: Entry = { seq: 3, at: 't', by: 'M-104', type: 'noted', data: {}, prev: '', hash: '' }
  const renames =
    (from: string, to: string): Upcaster =>
    (each) =>
      each.type === from ? { ...each, type: to } : each
  const upcasters = new Map([
    [1, renames('noted', 'note-taken')],
    [2, renames('note-taken', 'note-made')],
  ])

  it('is read through each step up to the present one', () => {
    const reading = readingOf(1, 3, upcasters)
    expect(reading.kind === 'through' && reading.upcast(entry)).toEqual({ ...entry, type: 'note-made' })
    const later = readingOf(2, 3, upcasters)
    expect(later.kind === 'through' && later.upcast(entry)).toEqual(entry)
  })

  it('that is the present one goes by untouched, and one without a step, newer, or no number is unknown', () => {
    expect(readingOf(3, 3, upcasters)).toEqual({ kind: 'as-it-is' })
    for (const format of [0, 4, 1.5, '1', null, NaN, Infinity, -1]) {
      expect(readingOf(format, 3, upcasters)).toEqual({ kind: 'unknown' })
    }
  })
})
