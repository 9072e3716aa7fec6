// What is found by searching the journal's bytes is what reading all of it finds: nothing about an id is ever left out.
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { deskOf } from '../../src/cli/desk.ts'
import { eventsAbout } from '../../src/cli/history.ts'
import { aboutOf } from '../../src/domain/about.ts'
import type { Event } from '../../src/domain/events.ts'
import { passing } from '../../src/domain/log-filter.ts'
import type { Session } from '../../src/session.ts'
import { realFiles, type Files } from '../../src/store/files.ts'
import { formatLine, sha256, ZEROS } from '../../src/store/line.ts'
import { entriesNaming } from '../../src/store/search.ts'
import { readEvents } from '../../src/store/station.ts'
import { anyActs, anyTour, journalAfter, RUNS } from '../domain/any-commands.ts'
import { bytesIn, newFolder, put } from './station-folder.ts'

/** The events as lines of a journal, each after the one before. */
function written(events: readonly Event[], folder = newFolder()): string {
  let prev = ZEROS
  const lines = events.map((event, at) => {
    const { line, hash } = formatLine(event, at + 1, prev)
    prev = hash
    return `${line}\n`
  })
  put(folder, lines.join(''))
  return folder
}

function readWhole(folder: string, id: string): Event[] {
  const events: Event[] = []
  readEvents(folder, (event) => {
    if (aboutOf(event).includes(id)) events.push(event)
  })
  return events
}

it('any tours, with imports and amendments: the same events for every id', () => {
  fc.assert(
    fc.property(anyTour, anyActs, (commands, acts) => {
      for (const journal of [journalAfter(commands), journalAfter(acts)]) {
        const folder = written(journal)
        const ids = new Set([...journal.flatMap(aboutOf), 'C-1', 'nobody'])
        for (const id of ids) expect(eventsAbout(folder, id, Infinity), id).toEqual(readWhole(folder, id))
      }
    }),
    { ...RUNS, numRuns: 25 },
  )
})

it('any tours, with corrections: the log of one element, member, seat or tour is what a reading of all of it gives', () => {
  fc.assert(
    fc.property(anyTour, anyActs, (commands, acts) => {
      for (const journal of [journalAfter(commands), journalAfter(acts)]) {
        const folder = written(journal)
        const desk = deskOf({} as Session, folder, new URL('file:///nowhere/'))
        const ids = [...new Set([...journal.flatMap(aboutOf), ...journal.map(({ by }) => by)])]
        for (const by of ['tour', 'seat', 'element', 'member'] as const) {
          for (const id of ids) {
            const wanted = journal.filter(passing({ by, id }))
            expect(seqs(desk.newest(500, { by, id })), `${by} ${id}`).toEqual(seqs(wanted).toReversed())
          }
        }
      }
    }),
    { ...RUNS, numRuns: 15 },
  )
})

it('a correction that names only the event it corrects is in the log of what that was about', () => {
  const withdrawal: Event = {
    ...note('', 3),
    type: 'event-amended',
    data: {
      seq: 2,
      type: 'element-tagged',
      subject: '',
      why: 'the wrong coat',
      was: {},
      with: { withdrawn: true },
    },
  }
  const folder = written([...made(), tag('C-1', 2), withdrawal, tag('C-2', 4)])
  const desk = deskOf({} as Session, folder, new URL('file:///nowhere/'))
  expect(seqs(desk.newest(9, { by: 'element', id: 'C-1' }))).toEqual([3, 2])
})

const note = (text: string, seq: number): Event => ({
  seq,
  at: '2026-11-24T07:02:11.482-05:00',
  by: 'M-104',
  type: 'note-made',
  data: { text },
})
const tag = (element: string, seq: number): Event => ({
  ...note('', seq),
  type: 'element-tagged',
  data: { element, reason: 'torn', matter: 'safety' },
})
const made = (): Event[] => [
  {
    ...note('', 1),
    type: 'station-made',
    data: { format: 1, name: 'Alder', timeZone: 'UTC', rotation: '24/48', starts: '07:00', policy: 'x' },
  },
]
const seqs = (events: readonly { seq: number }[]): number[] => events.map((each) => each.seq)

describe('the search', () => {
  it('does not take the beginning of a longer id for it, nor a mention in a note for an event about it', () => {
    const folder = written([...made(), tag('C-10', 2), tag('C-1', 3), note('about "C-1" and C-1', 4)])
    expect(seqs(eventsAbout(folder, 'C-1', Infinity))).toEqual([3])
  })

  it('finds an id that another program wrote by the numbers of its letters', () => {
    const folder = written([...made(), tag('C-1', 2), tag('C-2', 3)])
    const [first, second] = bytesIn(folder).toString().split('\n')
    const body = second!.replace('"C-1"', '"\\u0043-1"').slice(0, -75)
    const hash = sha256(body)
    put(folder, `${first}\n${body},"hash":"${hash}"}\n`)
    expect(seqs(eventsAbout(folder, 'C-1', Infinity))).toEqual([2])
  })

  it('goes no further than what the session has taken in', () => {
    const folder = written([...made(), tag('C-1', 2), tag('C-1', 3)])
    expect(seqs(eventsAbout(folder, 'C-1', 2))).toEqual([2])
  })

  it('leaves an unfinished last line alone', () => {
    const folder = written([...made(), tag('C-1', 2), tag('C-1', 3)])
    put(folder, bytesIn(folder).subarray(0, -5))
    expect(seqs(eventsAbout(folder, 'C-1', Infinity))).toEqual([2])
  })

  it('gives way to reading from the start when a line it found was changed', () => {
    const folder = written([...made(), tag('C-1', 2), tag('C-1', 3), tag('C-1', 4)])
    put(folder, bytesIn(folder).toString().replace('"seq":3', '"seq":7'))
    expect(entriesNaming(folder, ['C-1'], Infinity)).toBeUndefined()
    expect(seqs(eventsAbout(folder, 'C-1', Infinity))).toEqual([2])
  })

  it('does not mind where a reading ends: a few bytes at a time give the same', () => {
    const folder = written([
      ...made(),
      ...Array.from({ length: 30 }, (_, at) => tag(at % 3 ? 'C-2' : 'C-1', at + 2)),
    ])
    for (const most of [1, 7, 64, 1000]) {
      const files: Files = {
        ...realFiles,
        read: (fd, into, position) => realFiles.read(fd, into.subarray(0, most), position),
      }
      expect(entriesNaming(folder, ['C-1'], Infinity, files)?.map((each) => each.seq)).toEqual(
        seqs(readWhole(folder, 'C-1')),
      )
    }
  })

  it('says nothing where there is no journal', () => {
    expect(entriesNaming(newFolder(), ['C-1'], Infinity)).toBeUndefined()
  })
})
