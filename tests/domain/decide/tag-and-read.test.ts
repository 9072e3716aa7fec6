// Rules for tags and for the pressure of a cylinder.
import { describe, expect, test } from 'vitest'
import { crew, house, retired, sentAway, tagged } from '../alder-hollow.ts'
import { elementIn, given, NOW, stateOf, type Told } from '../given.ts'

const unknown = 'There is no element C-7 in this station.'
const gone = 'Coat shell C-1901 is retired: nothing more is recorded of it.'
const said = { at: NOW, by: 'M-104' }

describe('tag', () => {
  test('a tag takes an element out of service, with its reason', () => {
    const state = given(house)
      .when(tagged('C-1041'))
      .records('element-tagged', { element: 'C-1041', reason: 'torn seam', matter: 'safety' })
    expect(elementIn(state, 'C-1041').tags).toEqual([
      { ...said, seq: state.seq, reason: 'torn seam', matter: 'safety' },
    ])
  })

  test('a second reason is a second tag', () => {
    const state = given(house, tagged('C-1041'))
      .when(tagged('C-1041', 'burn hole'))
      .records('element-tagged', { element: 'C-1041', reason: 'burn hole', matter: 'safety' })
    expect(elementIn(state, 'C-1041').tags.map((each) => each.reason)).toEqual(['torn seam', 'burn hole'])
  })

  test.each([
    [[], tagged('C-7'), unknown],
    [[retired('C-1901')], tagged('C-1901'), gone],
    [[tagged('C-1041')], tagged('C-1041'), 'Coat shell C-1041 is already tagged for that: torn seam.'],
  ])('tagging is refused: %#', (more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })
})

const lift = (element: string): Told => ({ do: 'lift-tag', element, basis: 'seam sewn and inspected' })

describe('lift-tag', () => {
  test('every tag is lifted on the stated basis, and the event keeps what they said', () => {
    const state = given(house, tagged('C-1041'), tagged('C-1041', 'burn hole'))
      .when(lift('C-1041'))
      .records('tag-lifted', {
        element: 'C-1041',
        basis: 'seam sewn and inspected',
        reasons: ['torn seam', 'burn hole'],
      })
    expect(elementIn(state, 'C-1041').tags).toEqual([])
  })

  test('a tag that came after those that were read is not lifted with them', () => {
    const first = stateOf(house).seq + 1
    const read = { ...lift('C-1041'), tags: [first] } as Told
    given(house, tagged('C-1041'))
      .when(read)
      .records('tag-lifted', {
        element: 'C-1041',
        basis: 'seam sewn and inspected',
        reasons: ['torn seam'],
      })
    given(house, tagged('C-1041'), tagged('C-1041', 'burn hole'))
      .when(read)
      .refuses('Coat shell C-1041 has another tag, not read yet: burn hole. Read it first.')
      .changesNothing()
  })

  test.each([
    [[], lift('C-7'), unknown],
    [[tagged('C-1901'), retired('C-1901')], lift('C-1901'), gone],
    [[], lift('C-1041'), 'Coat shell C-1041 has no tag to lift.'],
  ])('lifting is refused: %#', (more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })
})

const read = (element: string, psi: number): Told => ({ do: 'read-pressure', element, psi })

describe('read-pressure', () => {
  test('a reading is kept, with the tour it was made in', () => {
    const state = given(crew)
      .when(read('Y-31', 4400))
      .records('pressure-read', { element: 'Y-31', psi: 4400, tour: '2026-11-24-B' })
    expect(elementIn(state, 'Y-31').readings).toEqual([{ ...said, seq: state.seq, psi: 4400 }])
    given(house).when(read('Y-31', 0)).records('pressure-read', { element: 'Y-31', psi: 0 })
  })

  test.each([-60, -5.5, 0, 80])('the temperature of the cylinder is kept with it: %d C', (celsius) => {
    const state = given(house)
      .when({ ...read('Y-31', 4100), celsius })
      .records('pressure-read', { element: 'Y-31', psi: 4100, celsius })
    expect(elementIn(state, 'Y-31').readings).toEqual([{ ...said, seq: state.seq, psi: 4100, celsius }])
  })

  test.each([
    [-61, 'is colder than any apparatus floor'],
    [81, 'is hotter than any cylinder may be'],
  ])('a temperature of %d C is refused', (celsius, words) => {
    given(house)
      .when({ ...read('Y-31', 4100), celsius })
      .refuses(`read-pressure: celsius ${words}. Nothing was recorded.`)
      .changesNothing()
  })

  test('up to a quarter over the rated pressure is a reading; more is a misread gauge', () => {
    given(house).when(read('Y-31', 5625)).records('pressure-read', { element: 'Y-31', psi: 5625 })
    given(house)
      .when(read('Y-31', 5626))
      .refuses('5626 psi is far more than Y-31 is rated for (4500). Read the gauge again.')
      .changesNothing()
  })

  test.each([
    [[], read('C-7', 1), unknown],
    [[retired('C-1901')], read('C-1901', 1), gone],
    [[], read('C-1041', 1), 'Coat shell C-1041 holds no pressure: only a cylinder is read.'],
  ])('reading is refused: %#', (more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })

  test('the gauge of a cylinder that is away cannot be read', () => {
    const away = { ...sentAway('Y-31'), for: 'hydrostatic-test' } as Told
    given(crew, away)
      .when(read('Y-31', 4400))
      .refuses('Cylinder Y-31 is away at North Wash for hydrostatic test: its gauge cannot be read.')
      .changesNothing()
  })
})
