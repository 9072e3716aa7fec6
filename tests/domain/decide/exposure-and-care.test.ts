// Rules for exposures, cares and fit tests.
import { describe, expect, test } from 'vitest'
import { cared, crew, house, retired, seated, sentAway, swap } from '../alder-hollow.ts'
import { elementIn, given, memberIn, NOW, TODAY, TOMORROW, type Told } from '../given.ts'

const unknown = 'There is no element C-7 in this station.'
const gone = 'Coat shell C-1901 is retired: nothing more is recorded of it.'
const said = { at: NOW, by: 'M-104' }

const expose = (more: object) => ({ do: 'record-exposure', exposure: 'products-of-combustion', ...more })

describe('record-exposure', () => {
  test('a crew is exposed with all that is at its riding position', () => {
    const state = given(crew)
      .when(expose({ seats: ['E6-1'], incident: '26-0412' }))
      .records('exposure-recorded', {
        exposure: 'products-of-combustion',
        seats: ['E6-1'],
        elements: ['C-1041', 'H-5', 'Y-31'],
        incident: '26-0412',
      })
    expect(elementIn(state, 'H-5').exposures).toEqual([
      { ...said, seq: state.seq, exposure: 'products-of-combustion', incident: '26-0412' },
    ])
    expect(elementIn(state, 'C-1900').exposures).toEqual([])
  })

  test('a spare that stands in is exposed; the element it relieved is not, nor one that is away', () => {
    given(crew, swap('E6-1', 'C-1900', 'C-1041'), sentAway('H-5'))
      .when(expose({ seats: ['E6-1'] }))
      .records('exposure-recorded', {
        exposure: 'products-of-combustion',
        seats: ['E6-1'],
        elements: ['C-1900', 'Y-31'],
      })
  })

  test('elements can be named one by one, each counted once', () => {
    given(crew)
      .when(expose({ seats: ['E6-1'], elements: ['C-1900', 'C-1041', 'C-1900'] }))
      .records('exposure-recorded', {
        exposure: 'products-of-combustion',
        seats: ['E6-1'],
        elements: ['C-1041', 'H-5', 'Y-31', 'C-1900'],
      })
  })

  test.each([
    [crew, [], expose({}), 'Say which riding positions or which elements were exposed.'],
    [
      crew,
      [],
      expose({ seats: ['E6-9'] }),
      'There is no riding position E6-9 in this station. Nothing was recorded.',
    ],
    [crew, [], expose({ seats: ['E6-1', 'E6-2'] }), 'Nobody rides at E6-2. Nothing was recorded.'],
    [crew, [], expose({ elements: ['C-1041', 'C-7'] }), `${unknown} Nothing was recorded.`],
    [crew, [retired('C-1901')], expose({ elements: ['C-1901'] }), `${gone} Nothing was recorded.`],
    [
      house,
      [seated('M-105', 'E6-2')],
      expose({ seats: ['E6-2'] }),
      'There is no gear at E6-2. Nothing was recorded.',
    ],
  ])('recording an exposure is refused: %#', (start, more, command, words) => {
    given(start, more).when(command).refuses(words).changesNothing()
  })
})

const care = (more: object) => ({ ...cared('2026-11-20'), ...more })

describe('record-care', () => {
  const data = {
    element: 'C-1041',
    care: 'advanced-cleaning',
    on: '2026-11-20',
    result: 'serviceable',
  } as const

  test('a care is kept under the day it was done, with who did it', () => {
    const state = given(house)
      .when(care({ who: 'North Wash', note: 'twice rinsed' }))
      .records('care-recorded', { ...data, who: 'North Wash', note: 'twice rinsed' })
    expect(elementIn(state, 'C-1041').cares).toEqual([
      {
        ...said,
        seq: state.seq,
        care: 'advanced-cleaning',
        on: '2026-11-20',
        result: 'serviceable',
        who: 'North Wash',
      },
    ])
  })

  test('an unserviceable result tags its element', () => {
    const state = given(house)
      .when(care({ result: 'unserviceable' }))
      .records('care-recorded', { ...data, result: 'unserviceable' })
    expect(elementIn(state, 'C-1041').tags).toEqual([
      { ...said, seq: state.seq, reason: 'failed advanced cleaning', matter: 'safety' },
    ])
  })

  test('a care may be of today and of the month it was made, not of tomorrow and not of before', () => {
    given(house)
      .when(care({ on: TODAY }))
      .records('care-recorded', { ...data, on: TODAY })
    given(house)
      .when(care({ on: '2019-03-01' }))
      .records('care-recorded', { ...data, on: '2019-03-01' })
    given(house)
      .when(care({ on: TOMORROW }))
      .refuses('25 Nov 2026 is still to come: a care is recorded when it has been done.')
      .changesNothing()
    given(house)
      .when(care({ on: '2019-02-28' }))
      .refuses('Coat shell C-1041 was made in 2019-03: a care on 28 Feb 2019 cannot be its own.')
      .changesNothing()
  })

  test.each([
    [[], care({ element: 'C-7' }), unknown],
    [[retired('C-1901')], care({ element: 'C-1901' }), gone],
    [
      [],
      care({ element: 'Y-31', care: 'flow-test' }),
      'No flow test is done on cylinder Y-31. Its cares are: routine inspection, preliminary exposure reduction, routine cleaning, advanced cleaning, specialised cleaning, drying, repair, hydrostatic test.',
    ],
  ])('recording a care is refused: %#', (more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })
})

describe('record-fit-test', () => {
  const facepiece = { model: 'Skarrow', size: 'M' }
  const test1 = { member: 'M-104', facepiece, on: TODAY, result: 'pass' } as const
  const fitTest = (more: object) => ({ do: 'record-fit-test', ...test1, ...more })

  test('a fit test is the member’s, with the very facepiece', () => {
    const state = given(house).when(fitTest({})).records('fit-test-recorded', test1)
    expect(memberIn(state, 'M-104').fitTests).toEqual([
      { ...said, seq: state.seq, facepiece, on: TODAY, result: 'pass' },
    ])
  })

  test('a fit test entered late stands before one that was done later', () => {
    const state = given(house, fitTest({}) as Told)
      .when(fitTest({ on: '2026-02-01', result: 'fail' }))
      .records('fit-test-recorded', { ...test1, on: '2026-02-01', result: 'fail' })
    expect(memberIn(state, 'M-104').fitTests.map((each) => each.on)).toEqual(['2026-02-01', TODAY])
  })

  test.each([
    [fitTest({ member: 'M-9' }), 'There is no member M-9 in this station.'],
    [
      fitTest({ on: TOMORROW }),
      '25 Nov 2026 is still to come: a fit test is recorded when it has been done.',
    ],
  ])('recording a fit test is refused: %#', (command, words) => {
    given(house).when(command).refuses(words).changesNothing()
  })
})
