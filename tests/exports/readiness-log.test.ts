// Tests of which tour a readiness log tells and what it says of it.
import { describe, expect, test } from 'vitest'
import { emptyState } from '../../src/domain/state.ts'
import { followTour, type LoggedEvent } from '../../src/exports/follow-tour.ts'
import { EXPORTED, madeOf, readinessLog } from './made.ts'
import { hashOf, instant, station, type Recorder } from './recorder.ts'
import { fullTour, house, smallTour } from './tours.ts'

const refusalOf = ({ events, head }: Recorder, tourId: string) =>
  readinessLog({ events, tourId, at: EXPORTED, headHash: head })

const openNext = (log: Recorder) =>
  log.record('27 07:00', 'M-207', {
    do: 'open-tour',
    tour: '2026-11-27-C',
    platoon: 'C',
    officer: 'M-207',
    on: '2026-11-27',
  })

describe('which tour', () => {
  test('"last" is the open tour where there is one', () => {
    const log = smallTour()
    openNext(log)
    const { tour, board } = madeOf(log)
    expect([tour.id, tour.closed, board.at]).toEqual(['2026-11-27-C', null, EXPORTED])
  })

  test('"last" is the tour closed last where none is open, whatever was recorded since', () => {
    const log = smallTour()
    const before = madeOf(log)
    log.record('25 09:00', 'M-207', { do: 'lift-tag', element: 'B-1', basis: 'new sole' })
    const { journal, ...told } = madeOf(log)
    expect({ ...told, journal: before.journal }).toEqual(before)
    expect(journal).toEqual({ ...before.journal, length: 37, head: log.head })
  })

  test('a tour named by its id reads the same when later tours have come and gone', () => {
    const log = smallTour()
    const before = madeOf(log)
    openNext(log)
    log.record('28 07:00', 'M-207', { do: 'hand-over', to: 'M-104' })
    const { journal, ...told } = madeOf(log, '2026-11-24-B')
    expect({ ...told, journal: before.journal }).toEqual(before)
    expect(journal.length).toBe(38)
    expect(journal.tourHead).toBe(before.journal.tourHead)
    expect(madeOf(log).tour.id).toBe('2026-11-27-C')
  })

  test('thousands of events after the last tour do not change the state that it left', () => {
    const log = smallTour()
    const before = madeOf(log)
    let seq = log.state.seq
    const later: LoggedEvent[] = Array.from({ length: 25_000 }, () => {
      seq += 1
      const data = { element: 'B-1', reason: `wear ${seq}`, matter: 'safety' as const }
      return { seq, at: instant('26 07:00'), by: 'M-104', type: 'element-tagged', data }
    })
    const answer = readinessLog({
      events: [...log.events, ...later],
      tourId: 'last',
      at: EXPORTED,
      headHash: log.head,
    })
    expect(answer).toEqual({ log: { ...before, journal: { ...before.journal, length: seq } } })
  })

  test('an unknown tour is refused with the last five there are', () => {
    const log = house()
    for (let day = 1; day <= 6; day++) {
      const tour = { tour: `T-${day}`, platoon: 'B', officer: 'M-104', on: `2026-11-0${day}` }
      log.record(`0${day} 10:00`, 'M-104', { do: 'open-tour', ...tour })
      log.record(`0${day} 20:00`, 'M-104', { do: 'hand-over', to: 'M-104' })
    }
    expect(refusalOf(log, 'T-9')).toEqual({
      refused:
        'There is no tour T-9 in this journal. The last tours are: T-2, T-3, T-4, T-5, T-6. Name one of them, or "last".',
    })
    expect(madeOf(log, 'T-1').tour.on).toBe('2026-11-01')
  })

  test.each(['last', 'T-1'])('a station without a tour says so when asked for %s', (tourId) => {
    expect(refusalOf(station(), tourId)).toEqual({
      refused:
        'No tour has been opened at this station yet, so there is no readiness log. Nothing was changed.',
    })
  })
})

describe('what it tells', () => {
  test('the Board is judged at the close, with its roll call, by the policy then in force', () => {
    const { board, rollCall, policy, tour } = madeOf(fullTour())
    expect(board.at).toBe(instant('25 07:00'))
    expect([rollCall.answered, rollCall.filled, rollCall.complete]).toEqual([1, 1, true])
    expect(policy.looser).toEqual([
      'advanced cleaning interval: limit 8 months, not 6 months (one washer for two stations)',
    ])
    expect([tour.handedOverTo, tour.handedOverToName]).toEqual(['M-207', 'C. Lindqvist'])
  })

  test('a stricter limit and its reason are named apart from the looser ones', () => {
    const log = house()
    const changes = [{ id: 'advanced-cleaning-interval', limit: 'P3M', reason: 'a smoky district' }]
    log.record('20 07:00', 'M-104', { do: 'adopt-policy', overlay: { name: 'Strict', changes } })
    openNext(log)
    const { policy } = madeOf(log)
    expect(policy.looser).toEqual([])
    expect(policy.otherChanges).toEqual(['advanced cleaning interval: limit 3 months (a smoky district)'])
  })

  test('early relief shows on both sides: who came before the opening, and who left before the hand-over', () => {
    const { seatings } = madeOf(fullTour())
    expect(seatings.map((each) => each.words)).toEqual([
      'E6-1: A. Varga (M-104) from 2026-11-24 06:30, before the tour opened; to the close of the tour.',
      'E6-2: B. Okoro (M-105) from 2026-11-24 07:02; to 2026-11-25 06:30, relieved early by C. Lindqvist (M-207).',
      'E6-2: C. Lindqvist (M-207) from 2026-11-25 06:30, relieving B. Okoro (M-105); to 2026-11-25 06:40.',
    ])
    expect(seatings.map((each) => [each.beforeOpening, each.relievedEarly])).toEqual([
      [true, false],
      [false, true],
      [false, false],
    ])
  })

  test('relief by a member of the same platoon is not early', () => {
    const log = house()
    log.record('24 07:00', 'M-104', {
      do: 'open-tour',
      tour: 'T-1',
      platoon: 'B',
      officer: 'M-104',
      on: '2026-11-24',
    })
    log.record('24 07:01', 'M-104', { do: 'seat-member', seat: 'E6-2', member: 'M-104' })
    log.record('24 12:00', 'M-104', { do: 'seat-member', seat: 'E6-2', member: 'M-105' })
    expect(madeOf(log).seatings.map((each) => each.words)).toEqual([
      'E6-2: A. Varga (M-104) from 2026-11-24 07:01; to 2026-11-24 12:00, relieved by B. Okoro (M-105).',
      'E6-2: B. Okoro (M-105) from 2026-11-24 12:00, relieving A. Varga (M-104); still riding.',
    ])
  })

  test('a finding is followed by all that was done about its element, and by nothing else', () => {
    const [boots, mask, spare] = madeOf(fullTour()).findings
    expect([boots!.words, boots!.from]).toEqual(['Boots B-1 at E6-1: sole separation (safety).', 'roll-call'])
    expect(boots!.done.map((each) => each.words)).toEqual([
      'Swapped boots S-900 in at E6-1, B-1 out: sole separation.',
      'Repair of boots B-1 on 24 Nov 2026 by Brook Works, serviceable.',
      'Lifted the tag on boots B-1 (sole separation): sole glued and pressed.',
      'Swapped back boots B-1 at E6-1, S-900 out.',
    ])
    expect([mask!.words, mask!.from, mask!.done]).toEqual([
      'Facepiece F-1: failed function check (safety).',
      'care',
      [],
    ])
    expect([spare!.from, spare!.matter]).toEqual(['tag', 'compliance'])
  })

  test('an answer stands only while its member still rides there', () => {
    const answers = madeOf(fullTour()).entries.filter((each) => each.section === 'roll-call')
    expect(answers.map((each) => each.details.length)).toEqual([0, 1])
  })

  test('both versions of an amendment stay, and the amended event names the one that amends it', () => {
    const { entries } = madeOf(fullTour())
    const [incident, note] = entries.filter((each) => each.type === 'event-amended')
    expect(incident!.amendment).toMatchObject({ was: { incident: '26-0412' }, with: { incident: '26-0421' } })
    expect(note!.details).toEqual([
      'It had said: text Hydrant out at Mill Lane. (2026-11-24 09:40, by M-104).',
    ])
    const amended = entries.find((each) => each.seq === note!.amendment!.seq)
    expect([amended!.words, amended!.amendedBy]).toEqual(['Note: Hydrant out at Mill Lane.', [note!.seq]])
  })

  test('what is amended after the close is told apart and changes nothing that was known at the close', () => {
    const log = smallTour()
    const before = madeOf(log)
    const reading = log.events.find((each) => each.type === 'pressure-read')!
    const amend = { do: 'amend', seq: reading.seq, why: 'misread', with: { psi: 4300 } }
    log.record('26 07:00', 'M-104', amend)
    const { laterAmendments, entries, board } = madeOf(log)
    expect(laterAmendments.map((each) => each.words)).toEqual([
      'Amended event 34 (Y-1): psi 4300, was 4400. misread.',
    ])
    expect(entries.find((each) => each.seq === reading.seq)!.amendedBy).toEqual([37])
    expect(board).toEqual(before.board)
  })

  test('an amendment of what was recorded before the opening or after the close is not of this tour', () => {
    const log = smallTour()
    const earlier = log.events.find((each) => each.type === 'element-added')!
    const later = log.record('25 09:00', 'M-104', { do: 'read-pressure', element: 'Y-1', psi: 4100 })
    const why = 'misread'
    log.record('26 07:00', 'M-104', { do: 'amend', seq: earlier.seq, why, with: { maker: 'Fen Mill' } })
    log.record('26 07:01', 'M-104', { do: 'amend', seq: later.seq, why, with: { psi: 4000 } })
    expect(madeOf(log).laterAmendments).toEqual([])
  })

  test('open items say who opened them and whether the tour acknowledged them', () => {
    const { openItems } = madeOf(fullTour())
    expect(openItems.map((each) => [each.id, each.acknowledged?.at ?? null])).toEqual([
      ['away-C-1', null],
      ['tag-R-1', null],
      ['tag-H-1', instant('24 07:01')],
      ['held-N-1', null],
      ['tag-F-1', null],
      ['exposure-42', null],
      ['check-42', null],
    ])
  })

  test('the journal is named by its length and head, and by the hash of the last line of the tour', () => {
    const log = smallTour()
    const closing = hashOf({ ...log.events.at(-1)!, hash: undefined } as LoggedEvent)
    openNext(log)
    expect(madeOf(log, '2026-11-24-B').journal).toEqual({
      length: 37,
      head: log.head,
      tourEndsAt: 36,
      tourHead: closing,
      seal: null,
    })
  })

  test('a hash that is not at hand is null, unless the last line of the tour is the head', () => {
    const log = smallTour()
    const bare = log.events.map((event): LoggedEvent => ({ ...event, hash: undefined }))
    const asked = { tourId: '2026-11-24-B', at: EXPORTED, headHash: log.head }
    const made = readinessLog({ events: bare, ...asked })
    expect(made).toMatchObject({ log: { journal: { tourHead: log.head } } })
    const next = openNext(log)
    const later = readinessLog({ events: [...bare, next], ...asked, headHash: log.head })
    expect(later).toMatchObject({ log: { journal: { head: log.head, tourHead: null } } })
  })

  test('the walk leaves the station it was given alone', () => {
    const log = fullTour()
    const before = structuredClone(log.events)
    madeOf(log)
    expect(log.events).toEqual(before)
    expect(followTour('T-1').end()).toEqual({
      course: undefined,
      state: emptyState(),
      tours: [],
      length: 0,
    })
  })
})
