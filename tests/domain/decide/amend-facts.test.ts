// Rules for correcting what is on record of an element or a member, and notes.
import { describe, expect, test } from 'vitest'
import { amended, crew, house, tagged } from '../alder-hollow.ts'
import { elementIn, given, memberIn, stateOf, type Told } from '../given.ts'

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
const why = 'misread'

describe('amend, an element', () => {
  test('a corrected label date is the date from then on', () => {
    const seq = seqOf('C-1041')
    const state = given(house)
      .when(amended(seq, { made: '2018-03', edition: '1971-2018' }))
      .records('event-amended', {
        seq,
        type: 'element-added',
        subject: 'C-1041',
        why,
        was: { made: '2019-03', edition: null },
        with: { made: '2018-03', edition: '1971-2018' },
      })
    expect(elementIn(state, 'C-1041')).toEqual({
      ...elementIn(stateOf(house), 'C-1041'),
      made: '2018-03',
      edition: '1971-2018',
    })
  })

  const imported: Told = {
    do: 'import-gear',
    file: 'gear.csv',
    members: [{ id: 'M-400', name: 'E. Novak' }],
    elements: [
      { id: 'C-9', kind: 'coat-shell', made: '2020-01' },
      { id: 'C-10', kind: 'coat-shell', made: '2020-01' },
    ],
  }

  test('one element of an import is named by its subject; the others stay as they came', () => {
    const state = given(house, imported)
      .when(amended(next(), { subject: 'C-10', made: '2019-12' }))
      .records('event-amended', {
        seq: next(),
        type: 'element-added',
        subject: 'C-10',
        why,
        was: { made: '2020-01' },
        with: { made: '2019-12' },
      })
    expect(elementIn(state, 'C-10').made).toBe('2019-12')
    expect(elementIn(state, 'C-9').made).toBe('2020-01')
    given(house, imported)
      .when(amended(next(), { subject: 'M-400', platoon: 'A' }))
      .records('event-amended', {
        seq: next(),
        type: 'member-added',
        subject: 'M-400',
        why,
        was: { platoon: null },
        with: { platoon: 'A' },
      })
  })

  test('without a subject an import is about too many things', () => {
    given(house, imported)
      .when(amended(next(), { made: '2019-12' }))
      .refuses(`Event ${next()} is about several things. Say which in "with": {"subject": "C-9"}.`)
      .changesNothing()
  })

  test('the reason of a tag is corrected, or the tag withdrawn', () => {
    const start = [...house, tagged('C-1041')]
    const mended = given(start, amended(next(), { reason: 'burn hole' })).state
    expect(elementIn(mended, 'C-1041').tags).toMatchObject([{ seq: next(), reason: 'burn hole' }])
    const without = given(start, amended(next(), { withdrawn: true })).state
    expect(elementIn(without, 'C-1041').tags).toEqual([])
  })

  test('a corrected reading is the reading; withdrawn, the one before it stands', () => {
    const start = [...house, read(4400), read(440)]
    const psi = (more: Told) => elementIn(given(start, more).state, 'Y-31').readings.map((each) => each.psi)
    expect(psi(amended(next(1), { psi: 4350 }))).toEqual([4400, 4350])
    expect(psi(amended(next(1), { withdrawn: true }))).toEqual([4400])
    const { readings } = elementIn(given(start, amended(next(1), { celsius: -5 })).state, 'Y-31')
    expect(readings.map((each) => each.celsius)).toEqual([undefined, -5])
  })
})

describe('amend, a member and a note', () => {
  test('one measure corrected leaves the others as they were', () => {
    const seq = memberIn(stateOf(house), 'M-104').seq
    const state = given(house)
      .when(amended(seq, { sizes: { coat: '46x32' } }))
      .records('event-amended', {
        seq,
        type: 'member-added',
        subject: 'M-104',
        why,
        was: { sizes: { coat: '44x32', gloves: '76W' } },
        with: { sizes: { coat: '46x32', gloves: '76W' } },
      })
    expect(memberIn(state, 'M-104').sizes).toEqual({ coat: '46x32', gloves: '76W' })
  })

  test('a corrected name leaves the member in their riding position', () => {
    const { state } = given(crew, amended(memberIn(stateOf(house), 'M-104').seq, { name: 'A. Varga-Lowe' }))
    expect(memberIn(state, 'M-104')).toMatchObject({ name: 'A. Varga-Lowe', seat: 'E6-1' })
  })

  test('a fit test is corrected or withdrawn', () => {
    const start = [...house, fitTest]
    const failing = given(start, amended(next(), { result: 'fail' })).state
    expect(memberIn(failing, 'M-104').fitTests).toMatchObject([{ seq: next(), result: 'fail' }])
    const without = given(start, amended(next(), { withdrawn: true })).state
    expect(memberIn(without, 'M-104').fitTests).toEqual([])
  })

  test('a note is corrected or withdrawn', () => {
    const start: Told[] = [...house, { do: 'note', text: 'hydrant 12 frozen' }]
    const texts = (more: Told) => given(start, more).state.notes.map((each) => each.text)
    expect(texts(amended(next(), { text: 'hydrant 21 frozen' }))).toEqual(['hydrant 21 frozen'])
    expect(texts(amended(next(), { withdrawn: true }))).toEqual([])
  })
})
