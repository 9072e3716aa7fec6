// Rules for corrections: a record of fact is amended and both stay visible; an act is undone by its opposite.
import { describe, expect, test } from 'vitest'
import { amended, cared, crew, house, seated, sentAway, swap, tagged } from '../alder-hollow.ts'
import { elementIn, given, stateOf, TOMORROW, type Told } from '../given.ts'

const START = stateOf(house).seq
/** The number of the event that comes next after the house, or after the house and so many more. */
const next = (more = 0): number => START + 1 + more
const seqOf = (id: string): number => elementIn(stateOf(house), id).seq
const read = (psi: number): Told => ({ do: 'read-pressure', element: 'Y-31', psi })
const fitTest: Told = {
  do: 'record-fit-test',
  member: 'M-104',
  facepiece: { model: 'Skarrow', size: 'M' },
  on: '2026-02-01',
  result: 'pass',
}
const answered: Told = {
  do: 'answer',
  seat: 'E6-1',
  findings: [
    { element: 'C-1041', point: 'burn hole', matter: 'safety' },
    { element: 'C-1041', point: 'trim loose', matter: 'safety' },
  ],
}
const why = 'misread'

describe('amend', () => {
  test('the amendment says what was said and what is said now', () => {
    const state = given(house, cared('2026-11-20'))
      .when(amended(next(), { on: '2026-11-19', who: 'North Wash' }))
      .records('event-amended', {
        seq: next(),
        type: 'care-recorded',
        subject: 'C-1041',
        why,
        was: { on: '2026-11-20', who: null },
        with: { on: '2026-11-19', who: 'North Wash' },
      })
    expect(elementIn(state, 'C-1041').cares).toMatchObject([
      { seq: next(), on: '2026-11-19', who: 'North Wash' },
    ])
  })

  test('amended twice, the second says what the first had made of it', () => {
    given(house, read(4300), amended(next(), { psi: 4400 }))
      .when(amended(next(), { psi: 4500 }))
      .records('event-amended', {
        seq: next(),
        type: 'pressure-read',
        subject: 'Y-31',
        why,
        was: { psi: 4400 },
        with: { psi: 4500 },
      })
  })

  test.each([
    ['an event to come', [], { seq: START + 1 }, `There is no event ${START + 1}: the journal has ${START}.`],
    ['nothing said', [tagged('C-1041')], { with: {} }, 'An amendment must say in "with" what changes.'],
    [
      'an id',
      [],
      { seq: seqOf('C-1041'), with: { id: 'C-2' } },
      'amend: with: It holds something not asked for: id. Nothing was recorded.',
    ],
    [
      'another element than the event is about',
      [tagged('C-1041')],
      { with: { subject: 'C-1900', reason: 'soiled' } },
      `Event ${next()} is not about that. It is about: C-1041.`,
    ],
    [
      'a date to come',
      [cared('2026-11-20')],
      { with: { on: TOMORROW } },
      '25 Nov 2026 is still to come: a care is recorded when it has been done.',
    ],
    [
      'a care of another kind of gear',
      [cared('2026-11-20')],
      { with: { care: 'flow-test' } },
      'No flow test is done on coat shell C-1041. Its cares are: routine inspection, advanced inspection, preliminary exposure reduction, routine cleaning, advanced cleaning, specialised cleaning, drying, repair.',
    ],
    [
      'more than the cylinder holds',
      [read(4400)],
      { with: { psi: 5626 } },
      '5626 psi is far more than Y-31 is rated for (4500). Read the gauge again.',
    ],
    [
      'a label that cannot be so',
      [],
      { seq: seqOf('C-1041'), with: { made: '2027-01' } },
      'C-1041 was not amended: it was made in 2027-01, which is still to come.',
    ],
    [
      'a fit test to come',
      [fitTest],
      { with: { on: TOMORROW } },
      'A fit test is recorded when it has been done.',
    ],
  ])('amending is refused: %s', (_title, more, command, words) => {
    given(house, more)
      .when({ do: 'amend', seq: next(), why, with: { on: '2026-11-01' }, ...command })
      .refuses(words)
      .changesNothing()
  })

  test.each([
    ['a swap', [swap('E6-1', 'C-1900', 'C-1041')]],
    ['a riding position', [seated('M-105', 'E6-2')]],
    ['gear sent away', [sentAway('C-1041')]],
  ])('an act is undone by its opposite, not amended: %s', (_title, act) => {
    const seq = stateOf(crew).seq + 1
    given(crew, act)
      .when(amended(seq, { in: 'C-1901' }))
      .refuses(
        `Event ${seq} cannot be amended any more. If it was something done, such as a swap or a seat, do the opposite; if a newer record stands in its place, amend that one; else write a note.`,
      )
      .changesNothing()
  })

  test('an answer with two findings on one element is not amended: which is meant cannot be told', () => {
    const seq = stateOf(crew).seq + 1
    given(crew, answered)
      .when(amended(seq, { reason: 'soiled' }))
      .refuses(`Event ${seq} says several things of C-1041: lift its tag and tag it again instead.`)
      .changesNothing()
  })

  test('what was withdrawn is gone and cannot be amended', () => {
    given(house, tagged('C-1041'), amended(next(), { withdrawn: true }))
      .when(amended(next(), { reason: 'soiled' }))
      .changesNothing()
  })

  test('an answer that found nothing can be withdrawn: the riding position is to be called again', () => {
    const seq = stateOf(crew).seq + 1
    const calm: Told = { do: 'answer', seat: 'E6-1' }
    const state = given(crew, calm)
      .when(amended(seq, { withdrawn: true }))
      .records('event-amended', {
        seq,
        type: 'seat-answered',
        subject: 'E6-1',
        why,
        was: {},
        with: { withdrawn: true },
      })
    expect(state.tour!.answers.has('E6-1')).toBe(false)
    // Nothing was looked at, so no routine inspection may be counted from it.
    expect(elementIn(stateOf(crew, calm), 'C-1041').called?.seq).toBe(seq)
    expect(elementIn(state, 'C-1041').called).toBeUndefined()
    given(crew, calm)
      .when(amended(seq, { findings: [] }))
      .refuses('amend: with: withdrawn must be true. Nothing was recorded.')
      .changesNothing()
  })
})
