// Rules for correcting cares and exposures, and the tags that follow them.
import { describe, expect, test } from 'vitest'
import { amended, cared, house, tagged } from '../alder-hollow.ts'
import { elementIn, given, stateOf, type Told } from '../given.ts'

const START = stateOf(house).seq
/** The number of the event that comes next after the house, or after the house and so many more. */
const next = (more = 0): number => START + 1 + more
const why = 'misread'

describe('amend, a care', () => {
  const start = [...house, cared('2026-11-20')]
  const coatAfter = (...more: Told[]) => elementIn(given(start, more).state, 'C-1041')
  const failed = 'failed advanced cleaning'

  test('cares stand in the order of their days, in whatever order they were entered or amended', () => {
    const days = coatAfter(cared('2026-10-01'), amended(next(), { on: '2026-09-01' })).cares
    expect(days.map(({ seq, on }) => [seq, on])).toEqual([
      [next(), '2026-09-01'],
      [next(1), '2026-10-01'],
    ])
  })

  test('withdrawn, it never was; its tag goes with it', () => {
    expect(coatAfter(amended(next(), { withdrawn: true }))).toMatchObject({ cares: [], tags: [] })
    const failing = [...house, cared('2026-11-20', 'unserviceable'), amended(next(), { withdrawn: true })]
    expect(elementIn(given(failing).state, 'C-1041')).toMatchObject({ cares: [], tags: [] })
  })

  test('amended to unserviceable it tags its element, and back again it does not', () => {
    const worse = amended(next(), { result: 'unserviceable' })
    const better = amended(next(), { result: 'serviceable' })
    expect(coatAfter(worse).tags).toMatchObject([{ seq: next(), reason: failed, matter: 'safety' }])
    expect(coatAfter(worse, better).tags).toEqual([])
    expect(coatAfter(worse, better, worse).tags).toMatchObject([{ reason: failed }])
  })

  test('a care recorded unserviceable can be amended to serviceable; other tags stay', () => {
    const { state } = given(
      house,
      cared('2026-11-20', 'unserviceable'),
      tagged('C-1041'),
      amended(next(), { result: 'serviceable' }),
    )
    expect(elementIn(state, 'C-1041').tags.map((each) => each.reason)).toEqual(['torn seam'])
    expect(elementIn(state, 'C-1041').cares).toMatchObject([{ result: 'serviceable' }])
  })

  test('a lifted tag does not come back when only the day of the care is corrected', () => {
    const { state } = given(
      house,
      cared('2026-11-20', 'unserviceable'),
      { do: 'lift-tag', element: 'C-1041', basis: 'washed again' },
      amended(next(), { on: '2026-11-19' }),
    )
    expect(elementIn(state, 'C-1041').tags).toEqual([])
  })

  test('when the care itself is corrected, its tag names the right one', () => {
    const { state } = given(
      house,
      cared('2026-11-20', 'unserviceable'),
      amended(next(), { care: 'advanced-inspection' }),
    )
    expect(elementIn(state, 'C-1041').tags).toMatchObject([{ reason: 'failed advanced inspection' }])
  })
})

describe('amend, an exposure', () => {
  const exposed: Told = { do: 'record-exposure', exposure: 'body-fluids', elements: ['C-1041', 'H-5'] }
  const start = [...house, exposed]
  const exposures = (...more: Told[]) => {
    const { state } = given(start, more)
    return ['C-1041', 'H-5', 'C-1900'].map((id) =>
      elementIn(state, id).exposures.map((each) => each.exposure),
    )
  }

  test('withdrawn, nothing of it is left on any element, and each finds the amendment in its history', () => {
    given(start)
      .when(amended(next(), { withdrawn: true }))
      .records('event-amended', {
        seq: next(),
        type: 'exposure-recorded',
        subject: '',
        why,
        was: { elements: ['C-1041', 'H-5'] },
        with: { withdrawn: true },
      })
    expect(exposures(amended(next(), { withdrawn: true }))).toEqual([[], [], []])
    expect(exposures(amended(next(), { withdrawn: true, elements: ['C-1900'] }))).toEqual([[], [], []])
  })

  test('withdrawn for one element, it stays on the others', () => {
    expect(exposures(amended(next(), { subject: 'H-5', withdrawn: true }))).toEqual([['body-fluids'], [], []])
  })

  test('corrected elements: who was not exposed is cleared, who was is exposed once', () => {
    const corrected = amended(next(), { elements: ['C-1041', 'C-1900', 'C-1900'] })
    expect(exposures(corrected)).toEqual([['body-fluids'], [], ['body-fluids']])
  })

  test('a corrected sort of exposure holds for all of them, those added too', () => {
    expect(exposures(amended(next(), { exposure: 'water', elements: ['H-5', 'C-1900'] }))).toEqual([
      [],
      ['water'],
      ['water'],
    ])
    expect(exposures(amended(next(), { exposure: 'water' }))).toEqual([['water'], ['water'], []])
  })

  test.each([
    [{ elements: ['C-7'] }, 'There is no element C-7 in this station.'],
    [
      { subject: 'H-5', elements: ['C-1900'] },
      '"elements" says all that was exposed: give it without "subject".',
    ],
  ])('elements that cannot be so are refused: %j', (changes, words) => {
    given(start).when(amended(next(), changes)).refuses(words).changesNothing()
  })
})
