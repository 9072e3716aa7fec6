// What was judged when the books were kept is taken up in the next run only where judging now would say the same.
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assessKept, verdictsToKeep, type FoundVerdicts } from '../../src/domain/assess/kept.ts'
import { assess, assessNow } from '../../src/domain/assess.ts'
import type { Event } from '../../src/domain/events.ts'
import { apply, fork, replay } from '../../src/domain/evolve.ts'
import { policyOf } from '../../src/domain/policy/in-force.ts'
import { emptyState, place, type State } from '../../src/domain/state.ts'
import type { Instant } from '../../src/domain/time.ts'
import { pack } from '../../src/store/packed-state.ts'
import { linesFor } from '../../src/tui/screens.ts'
import { startUi } from '../../src/tui/ui-state.ts'
import { believe, judgeAfresh, viewOf } from '../../src/tui/view.ts'
import { give, usual } from '../demo-station.ts'
import { unpacked } from '../unpacked.ts'
import { anyActs, anyTour, journalAfter, RUNS } from './any-commands.ts'
import { fitCrew } from './fit-crew.ts'
import { NOW, TODAY } from './given.ts'
import { overlay } from './overlay.ts'

const anew = (state: State): State => unpacked(pack(state))!

/** As the next run finds them: the books unread, the verdicts as text. */
const keptOf = (state: State, at: Instant): FoundVerdicts => ({
  books: anew(state),
  verdicts: JSON.parse(JSON.stringify(verdictsToKeep(state, at))) as FoundVerdicts['verdicts'],
})

const SIZES = [
  { columns: 80, rows: 24 },
  { columns: 170, rows: 50 },
]
const framesOf = (state: State, at: Instant): string[] =>
  SIZES.map((size) =>
    JSON.stringify(
      linesFor(viewOf({ state, at, stopped: undefined, unicode: true, size }, startUi), startUi, size),
    ),
  )

/** The evening before, the day of the tour from its first moment to its last, the day it is relieved on, and later ones. */
const TIMES: Instant[] = [
  '2026-11-23T20:00:00.000-05:00',
  '2026-11-24T00:00:00.000-05:00',
  NOW,
  '2026-11-24T23:59:59.999-05:00',
  '2026-11-25T00:00:00.000-05:00',
  '2026-11-25T07:00:00.000-05:00',
  '2026-11-26T08:00:00.000-05:00',
  '2027-05-20T08:00:00.000-05:00',
]
/** Of the same day, when something more is recorded. */
const LATER: Instant = '2026-11-24T08:30:00.000-05:00'
const SAID = { seq: 900, at: LATER, by: 'M-104' }
const anyTime = fc.constantFrom(NOW, NOW, NOW, NOW, NOW, NOW, ...TIMES)

describe('a first frame from what was judged as the books were kept is to the letter the one that judging gives', () => {
  /** How often nothing was taken up, and how many riding positions were and were not where something was. */
  function comparing() {
    const seen = { none: 0, believed: 0, judged: 0 }
    const compare = (found: FoundVerdicts, state: State, at: Instant): void => {
      const kept = assessKept(found, state, at)
      const whole = assess(anew(state), policyOf(state), at)
      const bare = (one: typeof whole) =>
        one.rigs.map(({ seats, ...rig }) => ({
          ...rig,
          seats: seats.map(({ seat, state, fit, answered, changed }) => [
            seat,
            state,
            fit,
            answered,
            changed,
          ]),
        }))
      if (!kept) seen.none++
      else {
        expect(bare(kept)).toEqual(bare(whole))
        const taken = new Set(assessNow(state, at, kept).rigs.flatMap((rig) => rig.seats))
        for (const seat of kept.rigs.flatMap((rig) => rig.seats))
          seen[taken.has(seat) ? 'judged' : 'believed']++
      }
      believe(found, state, at)
      expect(framesOf(state, at)).toEqual(framesOf(anew(state), at))
      expect(judgeAfresh()).toBe(kept !== undefined)
      expect(framesOf(state, at)).toEqual(framesOf(anew(state), at))
    }
    return { seen, compare }
  }

  it('whatever was recorded since, and on whatever day', () => {
    const { seen, compare } = comparing()
    const few = fc.nat({ max: 9 })
    fc.assert(
      fc.property(anyTour, anyActs, few, anyTime, anyTime, (commands, acts, back, keptAt, at) => {
        for (const each of [commands, acts]) {
          const events = journalAfter(each)
          const cut = events.length - back
          const found = keptOf(replay(emptyState(), events.slice(0, cut)), keptAt)
          compare(found, replay(found.books, events.slice(cut)), at)
        }
      }),
      { ...RUNS, numRuns: 150 },
    )
    // Otherwise this would compare nothing with nothing.
    expect(Math.min(...Object.values(seen))).toBeGreaterThan(30)
  })

  it('at any point of the demonstration, from its setting up to its roll call', () => {
    const { demo, at: now } = usual()
    const { seen, compare } = comparing()
    const books = fork(emptyState())
    apply(books, { seq: 1, at: demo.madeAt, by: 'setup', type: 'station-made', data: demo.station })
    const points = demo.commands.map((command) => {
      give(books, command)
      return fork(books)
    })
    const days = fc.constantFrom(now, now, `2026-11-24${now.slice(10)}`, `2026-11-26${now.slice(10)}`)
    fc.assert(
      fc.property(fc.nat({ max: 250 }), fc.nat({ max: 15 }), days, days, (back, after, keptAt, at) => {
        const point = demo.commands.length - 1 - back
        const found = keptOf(points[point]!, keptAt)
        const state = fork(found.books)
        for (const command of demo.commands.slice(point + 1).slice(0, after)) give(state, command)
        compare(found, state, at)
      }),
      { ...RUNS, numRuns: 80 },
    )
    expect(Math.min(...Object.values(seen))).toBeGreaterThan(30)
  })
})

describe('what was judged as the books were kept', () => {
  const crew = fitCrew()
  const believedIn = (state: State, found: FoundVerdicts, at: Instant = NOW): string[] | undefined => {
    const kept = assessKept(found, state, at)
    if (!kept) return undefined
    const again = assessNow(state, at, kept).rigs.flatMap((rig) => rig.seats)
    return kept.rigs
      .flatMap((rig) => rig.seats)
      .flatMap((each) => (again.includes(each) ? [] : [each.seat.id]))
  }
  const seats = [...crew.seats.values()].filter((each) => each.member !== null).map((each) => each.id)
  const after = (found: FoundVerdicts, type: Event['type'], data: object): State =>
    replay(found.books, [{ seq: crew.seq + 1, at: LATER, by: 'M-104', type, data } as Event])

  it('is taken up from that day to the one on which whoever comes on is relieved, and on no other', () => {
    let found = keptOf(crew, NOW)
    const on = (at: Instant) => believedIn(found.books, found, at)
    expect(on('2026-11-23T23:59:59.999-05:00')).toBeUndefined()
    expect(on('2026-11-24T00:00:00.000-05:00')).toEqual(seats)
    expect(on('2026-11-25T23:59:59.999-05:00')).toEqual(seats)
    expect(on('2026-11-26T00:00:00.000-05:00')).toBeUndefined()
    found = keptOf({ ...crew, station: { ...crew.station!, rotation: '48/96' } }, NOW)
    expect(on('2026-11-26T23:59:59.999-05:00')).toEqual(seats)
    expect(on('2026-11-27T00:00:00.000-05:00')).toBeUndefined()
  })

  it('says of the next day what that day will say: a limit that falls in the night is not missed', () => {
    const [id] = seats
    const worn = assessNow(crew, NOW).rigs[0]!.seats.find((each) => each.seat.id === id)!
    const helmet = worn.places.find((each) => each.kind === 'helmet')!.element!
    // Ten years from 1 December 2016: the last day it may be worn is 30 November 2026.
    const old = replay(crew, [])
    old.elements.set(helmet.id, { ...helmet, made: '2016-12' })
    const found = keptOf(old, '2026-11-30T22:00:00.000-05:00')
    const stateAt = (at: Instant) =>
      assessKept(found, found.books, at)!.rigs[0]!.seats.find((each) => each.seat.id === id)!.state
    const fresh = (at: Instant) =>
      assessNow(anew(old), at).rigs[0]!.seats.find((each) => each.seat.id === id)!.state
    const [eve, day] = ['2026-11-30T23:00:00.000-05:00', '2026-12-01T07:00:00.000-05:00'] as const
    expect(stateAt(eve)).toBe(fresh(eve))
    expect(stateAt(day)).toBe(fresh(day))
    expect(stateAt(day)).toBe('expired')
    expect(stateAt(eve)).not.toBe('expired')
  })

  it('is judged again where an element was tagged since, and only there', () => {
    const found = keptOf(crew, NOW)
    const [first] = seats
    const element = assessNow(crew, NOW).rigs[0]!.seats[0]!.places.find((each) => each.element)!.element!.id
    const state = after(found, 'element-tagged', { element, reason: 'torn', matter: 'safety' })
    expect(believedIn(state, found)).toEqual(seats.filter((each) => each !== first))
    expect(assessKept(found, state, NOW)!.rigs[0]!.seats[0]!.state).toBe('out-of-service')
  })

  const [id] = seats
  const { member } = crew.seats.get(id!)!
  const helmet = crew.issued.get(place(member!, 'helmet'))![0]!
  const touched: Record<string, (draft: State) => unknown> = {
    'its member': ({ members }) => members.set(member!, { ...members.get(member!)! }),
    'what it is': (draft) => draft.seats.set(id!, { ...draft.seats.get(id!)! }),
    'its answer': ({ tour }) => tour!.answers.set(id!, { ...SAID, member: member!, findings: [] }),
    'what its member was issued': ({ issued }) => issued.set(place(member!, 'helmet'), [helmet]),
    'what it was issued itself': ({ issued }) => issued.set(place(id!, 'air-pack'), []),
    'what stands in': ({ standIns }) =>
      standIns.set(place(member!, 'helmet'), {
        ...SAID,
        kind: 'helmet',
        holder: member!,
        element: helmet,
        own: null,
        seat: id!,
      }),
    'an element of it': ({ elements }) => elements.set(helmet, { ...elements.get(helmet)! }),
  }
  it.each(Object.keys(touched))('is judged again where a record has been replaced since: %s', (what) => {
    const found = keptOf(crew, NOW)
    const draft = fork(found.books)
    expect(believedIn(draft, found)).toEqual(seats)
    touched[what]!(draft)
    expect(believedIn(draft, found)).toEqual(seats.slice(1))
  })

  it('is not taken up under other rules of the department, or in another tour', () => {
    const found = keptOf(crew, NOW)
    expect(
      believedIn(
        after(found, 'policy-adopted', {
          overlay: overlay({ id: 'advanced-inspection-interval', limit: 'P5Y' }),
        }),
        found,
      ),
    ).toBeUndefined()
    const opened = { tour: 'T-new', platoon: 'B', officer: 'M-104', on: TODAY, relieved: [] }
    expect(believedIn(after(found, 'tour-opened', opened), found)).toBeUndefined()
  })

  it('is not taken up where the books are another reading of the journal', () => {
    expect(believedIn(anew(crew), keptOf(crew, NOW))).toEqual([])
  })
})
