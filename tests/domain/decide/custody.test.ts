// Rules for gear that goes away, comes back, is held or is retired.
import { describe, expect, test } from 'vitest'
import { crew, held, house, retired, seated, sentAway, swap, tagged, tourOpen } from '../alder-hollow.ts'
import { elementIn, given, NOW, type Told } from '../given.ts'

const unknown = 'There is no element C-7 in this station.'
const gone = 'Coat shell C-1901 is retired: nothing more is recorded of it.'

describe('send-away', () => {
  test('gear that is sent away is away until it is received back, and stays its member’s own', () => {
    const state = given(house)
      .when(sentAway('C-1041', 'C-1900', 'C-1041'))
      .records('elements-sent-away', {
        elements: ['C-1041', 'C-1900'],
        to: 'North Wash',
        for: 'advanced-cleaning',
      })
    expect(elementIn(state, 'C-1041')).toMatchObject({
      issuedTo: 'M-104',
      custody: { where: 'away', to: 'North Wash', for: 'advanced-cleaning', since: { at: NOW } },
    })
  })

  test.each([
    [[], sentAway('C-1041', 'C-7'), `${unknown} Nothing was recorded.`],
    [[retired('C-1901')], sentAway('C-1901'), `${gone} Nothing was recorded.`],
    [
      [sentAway('C-1900')],
      sentAway('C-1041', 'C-1900'),
      'Coat shell C-1900 is already away at North Wash for advanced cleaning. Nothing was recorded.',
    ],
    [
      [held('C-1900')],
      sentAway('C-1900'),
      'Coat shell C-1900 is already held as evidence: injury on 22 Nov. Nothing was recorded.',
    ],
    [
      [],
      { ...sentAway('C-1041'), for: 'hydrostatic-test' },
      'No hydrostatic test is done on coat shell C-1041. Nothing was recorded.',
    ],
  ])('sending away is refused: %#', (more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })
})

const receive = (...elements: string[]): Told => ({ do: 'receive-back', elements })

describe('receive-back', () => {
  test('gear back from being held as evidence is tagged until somebody has looked it over', () => {
    const state = given(house, held('C-1041'), sentAway('C-1900'))
      .when(receive('C-1041', 'C-1900'))
      .records('elements-received-back', { elements: ['C-1041', 'C-1900'] })
    const tag = { reason: 'back from being held, not looked over since', matter: 'safety', at: NOW }
    expect(elementIn(state, 'C-1041').tags).toMatchObject([tag])
    expect(elementIn(state, 'C-1900').tags).toEqual([])
  })

  test('gear that was held by mistake never left: it comes back as it was, and its record says so', () => {
    const mistaken = { ...receive('C-1041'), byMistake: true }
    const before = given(house, held('C-1041'))
    const state = before
      .when(mistaken)
      .records('elements-received-back', { elements: ['C-1041'], byMistake: true })
    expect(elementIn(state, 'C-1041').tags).toEqual([])
    given(house)
      .when(mistaken)
      .refuses('Coat shell C-1041 is not away, so it cannot come back. Nothing was recorded.')
      .changesNothing()
  })

  test('what was sent for repair comes back with where and when it was sent; what was sent by mistake never left', () => {
    const repair = { ...sentAway('C-1041'), for: 'repair' } as Told
    const before = given(house, repair)
    const back = before.when(receive('C-1041')).records('elements-received-back', { elements: ['C-1041'] })
    const { custody } = elementIn(before.state, 'C-1041')
    expect(custody.where).toBe('away')
    expect(elementIn(back, 'C-1041').fromRepair).toMatchObject({
      at: NOW,
      place: 'to' in custody && custody.to,
      sent: 'since' in custody && custody.since,
    })
    const never = given(house, repair)
      .when({ ...receive('C-1041'), byMistake: true })
      .records('elements-received-back', { elements: ['C-1041'], byMistake: true })
    expect(elementIn(never, 'C-1041')).toEqual(elementIn(given(house).state, 'C-1041'))
  })

  test('what was away when it was held by mistake is away still', () => {
    const away = elementIn(given(house, sentAway('C-1041')).state, 'C-1041').custody
    const state = given(house, sentAway('C-1041'), held('C-1041'))
      .when({ ...receive('C-1041'), byMistake: true })
      .records('elements-received-back', { elements: ['C-1041'], byMistake: true })
    expect(elementIn(state, 'C-1041').custody).toEqual(away)
    expect(away.where).toBe('away')
  })

  test('gear comes back to whoever it belongs to: a member, a rig, the rack', () => {
    const state = given(house, sentAway('C-1041', 'Y-31', 'C-1900'), held('H-6'))
      .when(receive('C-1041', 'Y-31', 'C-1900', 'H-6', 'H-6'))
      .records('elements-received-back', { elements: ['C-1041', 'Y-31', 'C-1900', 'H-6'] })
    expect(['C-1041', 'Y-31', 'C-1900', 'H-6'].map((id) => elementIn(state, id).custody.where)).toEqual([
      'issued',
      'rig',
      'rack',
      'rack',
    ])
  })

  test('a spare that stands in comes back to the place it stands in', () => {
    const state = given(crew, swap('E6-1', 'C-1900', 'C-1041'), sentAway('C-1900'))
      .when(receive('C-1900'))
      .records('elements-received-back', { elements: ['C-1900'] })
    expect(elementIn(state, 'C-1900').custody).toEqual({ where: 'issued' })
  })

  test.each([
    [[], receive('C-7'), `${unknown} Nothing was recorded.`],
    [[retired('C-1901')], receive('C-1901'), `${gone} Nothing was recorded.`],
    [
      [sentAway('C-1900')],
      receive('C-1900', 'C-1041'),
      'Coat shell C-1041 is not away, so it cannot come back. Nothing was recorded.',
    ],
  ])('receiving back is refused: %#', (more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })
})

describe('hold', () => {
  test('held gear is evidence: it is nobody’s to wear, and its owner is not forgotten', () => {
    const state = given(house)
      .when(held('C-1041'))
      .records('element-held', { element: 'C-1041', reason: 'injury on 22 Nov' })
    expect(elementIn(state, 'C-1041')).toMatchObject({
      issuedTo: 'M-104',
      custody: { where: 'held', reason: 'injury on 22 Nov', since: { at: NOW } },
    })
  })

  test.each([
    [[], held('C-7'), unknown],
    [[retired('C-1901')], held('C-1901'), gone],
    [[held('C-1041')], held('C-1041'), 'Coat shell C-1041 is already held as evidence: injury on 22 Nov.'],
  ])('holding is refused: %#', (more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })
})

describe('retire', () => {
  const data = { element: 'C-1041', reason: 'ten years old', disposal: 'cut up' }

  test('a retired element leaves its member and keeps its history', () => {
    const state = given(house, tagged('C-1041')).when(retired('C-1041')).records('element-retired', data)
    expect(elementIn(state, 'C-1041')).toMatchObject({
      issuedTo: null,
      custody: { where: 'retired', reason: 'ten years old', disposal: 'cut up', since: { at: NOW } },
    })
    expect(elementIn(state, 'C-1041').tags).toHaveLength(1)
    expect(state.issued.has('M-104 coat-shell')).toBe(false)
  })

  test('a spare retired while it stands in leaves the place to the member’s own', () => {
    const state = given(house, tourOpen, seated(), swap('E6-1', 'C-1900', 'C-1041'))
      .when(retired('C-1900'))
      .records('element-retired', { ...data, element: 'C-1900' })
    expect(state.standIns.size).toBe(0)
    expect(state.issued.get('M-104 coat-shell')).toEqual(['C-1041'])
  })

  test.each([
    [[], retired('C-7'), unknown],
    [[retired('C-1901')], retired('C-1901'), 'Coat shell C-1901 is already retired.'],
    [
      [held('C-1041')],
      retired('C-1041'),
      'Coat shell C-1041 is held as evidence: injury on 22 Nov. Receive it back before retiring it.',
    ],
  ])('retiring is refused: %#', (more, command, words) => {
    given(house, more).when(command).refuses(words).changesNothing()
  })
})
