// Rules for a batch that comes back with its care slip filled in: all of it is taken, or none, and each care can be put right later.
import { describe, expect, test } from 'vitest'
import { amended, cared, crew, held, house, retired, sentAway } from '../alder-hollow.ts'
import { elementIn, given, NOW, stateOf, TODAY, TOMORROW, whenIn, type Told } from '../given.ts'

const care = (element: string, more: object = {}) =>
  ({ element, care: 'advanced-cleaning', on: TODAY, result: 'serviceable', ...more }) as const
const inspected = (element: string, more: object = {}) =>
  care(element, { care: 'advanced-inspection', ...more })
const batch = (elements: string[], cares: object[]): Told =>
  ({ do: 'receive-batch', elements, cares, file: 'slip.csv' }) as Told

const away = [...house, sentAway('C-1041', 'C-1900')]

describe('receive-batch', () => {
  test('one event brings the gear back and records each care with who did it', () => {
    const cares = [care('C-1041', { who: 'North Wash', note: 'twice' }), inspected('C-1041'), care('C-1900')]
    const state = given(away)
      .when(batch(['C-1041', 'C-1900', 'C-1900'], cares))
      .records('batch-received', { elements: ['C-1041', 'C-1900'], cares, file: 'slip.csv' } as never)
    expect(elementIn(state, 'C-1041')).toMatchObject({
      custody: { where: 'issued' },
      tags: [],
      cares: [
        { care: 'advanced-cleaning', on: TODAY, result: 'serviceable', who: 'North Wash', at: NOW },
        { care: 'advanced-inspection', on: TODAY, result: 'serviceable' },
      ],
    })
    expect(elementIn(state, 'C-1900')).toMatchObject({ custody: { where: 'rack' }, cares: [{ on: TODAY }] })
  })

  test('it leaves the books as the same cares and the receiving would have, one by one', () => {
    const one = stateOf(away, batch(['C-1041'], [care('C-1041', { result: 'unserviceable' })]))
    const apart = stateOf(
      away,
      { do: 'record-care', ...care('C-1041', { result: 'unserviceable' }) } as Told,
      { do: 'receive-back', elements: ['C-1041'] },
    )
    const bare = (id: string, state: typeof one) =>
      JSON.parse(JSON.stringify(elementIn(state, id)).replaceAll(/"seq":\d+/g, '"seq":0')) as object
    expect(bare('C-1041', one)).toEqual(bare('C-1041', apart))
    expect(elementIn(one, 'C-1041').tags).toMatchObject([
      { reason: 'failed advanced cleaning', matter: 'safety' },
    ])
  })

  test('what came back without a care is back, and nothing is presumed done', () => {
    const state = given(away)
      .when(batch(['C-1041'], []))
      .records('batch-received', { elements: ['C-1041'], cares: [], file: 'slip.csv' })
    expect(elementIn(state, 'C-1041')).toMatchObject({ custody: { where: 'issued' }, cares: [] })
  })

  test('a care of the day it was sent is taken', () => {
    given(away)
      .when(batch(['C-1900'], [care('C-1900')]))
      .records('batch-received', expect.anything() as never)
  })

  test.each([
    [
      'gear that is not away',
      [],
      batch(['C-1041', 'C-1901'], []),
      'Coat shell C-1901 is not away, so it cannot come back.',
    ],
    ['gear there is not', [], batch(['C-7'], []), 'There is no element C-7 in this station.'],
    [
      'retired gear',
      [retired('C-1901')],
      batch(['C-1901'], []),
      'Coat shell C-1901 is retired: nothing more is recorded of it.',
    ],
    [
      'gear held as evidence meanwhile',
      [held('C-1041')],
      batch(['C-1041'], [care('C-1041')]),
      'Coat shell C-1041 is held as evidence: injury on 22 Nov: it is not received with a batch, and it should not have been cleaned.',
    ],
    [
      'a care of gear that did not come back',
      [],
      batch(['C-1041'], [care('C-1041'), care('C-1900')]),
      'C-1900 has a care but is not among what came back.',
    ],
    [
      'the same care twice',
      [],
      batch(['C-1041'], [care('C-1041'), care('C-1041', { result: 'unserviceable' })]),
      'C-1041 has two rows for advanced cleaning.',
    ],
    [
      'a care of another kind of gear',
      [],
      batch(['C-1041'], [care('C-1041', { care: 'flow-test' })]),
      'No flow test is done on coat shell C-1041. Its cares are: routine inspection, advanced inspection, preliminary exposure reduction, routine cleaning, advanced cleaning, specialised cleaning, drying, repair.',
    ],
    [
      'a care still to come',
      [],
      batch(['C-1041'], [care('C-1041', { on: TOMORROW })]),
      '25 Nov 2026 is still to come: a care is recorded when it has been done.',
    ],
    [
      'a care of the day before it was sent',
      [],
      batch(['C-1041'], [care('C-1041', { on: '2026-11-23' })]),
      'Coat shell C-1041 was sent away on 24 Nov 2026: a care on 23 Nov 2026 was not done there.',
    ],
  ])('all of it is refused for %s', (_, more, command, words) => {
    given(away, more).when(command).refuses(`${words} Nothing was recorded.`).changesNothing()
  })
})

describe('a batch put right', () => {
  const failed = care('C-1041', { result: 'unserviceable' })
  const state = stateOf(
    away,
    batch(['C-1041', 'C-1900'], [failed, inspected('C-1041', { result: 'unserviceable' }), care('C-1900')]),
  )
  const { seq } = state

  test('one care of one element is corrected; its tag follows, and the others stay', () => {
    const after = whenIn(state)
      .when(amended(seq, { subject: 'C-1041', of: 'advanced-cleaning', result: 'serviceable' }))
      .records('event-amended', {
        seq,
        type: 'care-recorded',
        subject: 'C-1041',
        care: 'advanced-cleaning',
        why: expect.any(String) as unknown as string,
        was: { result: 'unserviceable' },
        with: { result: 'serviceable' },
      })
    const { cares, tags } = elementIn(after, 'C-1041')
    expect(cares.map((each) => [each.care, each.result]).toSorted()).toEqual([
      ['advanced-cleaning', 'serviceable'],
      ['advanced-inspection', 'unserviceable'],
    ])
    expect(tags.map((each) => each.reason)).toEqual(['failed advanced inspection'])
    expect(elementIn(after, 'C-1900')).toEqual(elementIn(state, 'C-1900'))
  })

  test('which of two cares is meant has to be said', () => {
    whenIn(state)
      .when(amended(seq, { subject: 'C-1041', result: 'serviceable' }))
      .refuses(
        `Event ${seq} records several cares of C-1041. Say which in "with": {"subject": "C-1041", "of": "advanced-cleaning"}.`,
      )
      .changesNothing()
  })

  test('one of two cares does not become the other', () => {
    whenIn(state)
      .when(amended(seq, { subject: 'C-1041', of: 'advanced-cleaning', care: 'advanced-inspection' }))
      .refuses('That event records advanced inspection of C-1041 already. Withdraw this one instead.')
      .changesNothing()
  })

  test('an element with one care in the batch needs only its name', () => {
    const after = whenIn(state)
      .when(amended(seq, { subject: 'C-1900', result: 'unserviceable' }))
      .records('event-amended', expect.objectContaining({ subject: 'C-1900' }) as never)
    expect(elementIn(after, 'C-1900').tags).toMatchObject([{ reason: 'failed advanced cleaning' }])
  })

  test('a slip that should never have been taken is withdrawn whole: no care stands, the gear is back all the same', () => {
    const after = whenIn(state)
      .when(amended(seq, { withdrawn: true }))
      .records('event-amended', {
        seq,
        type: 'care-recorded',
        subject: '',
        why: expect.any(String) as unknown as string,
        was: { elements: ['C-1041', 'C-1900'] },
        with: { withdrawn: true },
      })
    for (const id of ['C-1041', 'C-1900']) {
      expect(elementIn(after, id)).toMatchObject({ cares: [], tags: [] })
      expect(elementIn(after, id).custody.where).not.toBe('away')
    }
  })

  test('a lifted tag does not come back when something else of the care is corrected', () => {
    const lifted = stateOf(crew, cared(TODAY, 'unserviceable'), {
      do: 'lift-tag',
      element: 'C-1041',
      basis: 'mended',
    })
    const after = whenIn(lifted)
      .when(amended(lifted.seq - 1, { on: '2026-11-20' }))
      .records('event-amended', expect.anything() as never)
    expect(elementIn(after, 'C-1041').tags).toEqual([])
  })
})
