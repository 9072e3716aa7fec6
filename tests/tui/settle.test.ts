// Settling: a tag leads to the spares at once, each says whom it leaves without, and the board says when one's own is back.
import { describe, expect, test } from 'vitest'
import { garment, sendsAway, tags } from '../domain/fit-crew.ts'
import type { Told } from '../domain/given.ts'
import { bench, type Bench } from './bench.ts'
import { fitEngine } from './stations.ts'

const gloves = (set: string): Told[] => garment('gloves', set)
const tagGloves = (board: Bench): Bench =>
  board.press({ type: 't' }).pick('gloves', 'hole').pick('safety').press('enter')

test('a tag shows the spares that fit in its place at once, and takes none by itself', () => {
  const board = tagGloves(bench(fitEngine(...gloves('8'), ...gloves('9'))))
  expect(board.text()).toContain('Spare gloves: A. Varga can wear 2 of 2. Which goes in?')
  expect(board.press('enter', 'enter').last()).toBe('element-tagged')
  board.press('down', 'enter', 'enter')
  expect(board.events.at(-1)).toMatchObject({ type: 'element-swapped', data: { out: 'GL-1' } })
})

test('the keys of the board leave the offer and do what they do there', () => {
  const board = tagGloves(bench(fitEngine(...gloves('9')))).type('r')
  expect(board.ui.screen).toBe('roll-call')
})

test('s goes into the spares of what was tagged, never to the question which element; it takes none', () => {
  const board = tagGloves(bench(fitEngine(tags('HO-1'), ...gloves('8'), ...gloves('9')))).type('s')
  expect(board.text()).toMatch(/> fits: GL-8/)
  expect(board.last()).toBe('element-tagged')
  board.press('enter', 'enter')
  expect(board.events.at(-1)).toMatchObject({ type: 'element-swapped', data: { out: 'GL-1', in: 'GL-8' } })
})

test('what was tagged and what the keys do with its spares are in sight together', () => {
  const board = tagGloves(bench(fitEngine(...gloves('9'))))
  expect(board.screen().slice(-2)).toEqual([
    ' Tagged GL-1 out of service.',
    ' up, down or s chooses   Enter takes   Esc or another key leaves it for now',
  ])
  expect(board.press('escape').ui).toMatchObject({ screen: 'board', answers: [] })
  expect(board.type('s').text()).toContain('Swap which element?')
})

test('where no spare is left, it is said who stays unfit', () => {
  const board = tagGloves(bench(fitEngine()))
  expect(board.text()).toContain('The rack has no spare gloves. Officer stays unfit.')
  expect(board.screen().at(-1)).toBe(' Esc or a key of the board goes back')
})

test('a tag of what is worn elsewhere offers nothing', () => {
  const board = bench(fitEngine(...gloves('9')))
    .press({ type: 't' })
    .pick('another', 'gl2', 'hole')
    .pick('safety')
  expect(board.press('enter').ui.screen).toBe('board')
})

describe('whom a spare leaves without', () => {
  test('the last that fits somebody else says so in the list and in the last look', () => {
    const board = tagGloves(bench(fitEngine(...gloves('9'))))
    expect(board.text()).toContain('leaves no spare gloves for B. Okoro')
    expect(board.press('down', 'enter').text()).toContain('It leaves no spare gloves for B. Okoro.')
  })
  test('with another one left for them it says nothing', () => {
    expect(tagGloves(bench(fitEngine(...gloves('8'), ...gloves('9')))).text()).not.toContain(
      'leaves no spare',
    )
  })
  test('a spare that fits nobody else is not the last of anything', () => {
    const large: Told[] = garment('gloves', '9', { size: '82W' })
    const wears: Told = { do: 'amend', seq: 2, why: 'measured', with: { sizes: { gloves: '82W' } } }
    const board = tagGloves(bench(fitEngine(...large, wears)))
    expect(board.text()).toMatch(/fits: GL-9 +size 82W, exact/)
    expect(board.text()).not.toContain('leaves no spare')
  })
})

describe('somebody’s own gear that is back while a spare stands in', () => {
  const away: Told[] = [
    ...gloves('9'),
    sendsAway('GL-1'),
    { do: 'swap', seat: 'E6-1', in: 'GL-9', out: 'GL-1' },
  ]
  const back: Told = { do: 'receive-back', elements: ['GL-1'] }

  test('is said on the board as soon as it is here and fit, and b gives it back', () => {
    expect(bench(fitEngine(...away)).text()).not.toContain('Back and fit')
    const board = bench(fitEngine(...away, back))
    expect(board.text()).toContain('Back and fit: gloves GL-1 of A. Varga. b on that row swaps it back.')
    expect(board.type('b').text()).toContain('own: GL-1, here and fit')
    board.press('enter', 'enter')
    expect(board.last()).toBe('swap-reversed')
    expect(board.text()).not.toContain('Back and fit')
  })
  test('is not said while it is tagged, or may not be worn by its dates', () => {
    expect(bench(fitEngine(...away, back, tags('GL-1'))).text()).not.toContain('Back and fit')
    const exposed: Told = { do: 'record-exposure', exposure: 'products-of-combustion', elements: ['GL-1'] }
    expect(bench(fitEngine(...away, back, exposed)).text()).not.toContain('Back and fit')
  })
  test('is not said of somebody who does not ride', () => {
    expect(bench(fitEngine(...away, back, { do: 'clear-seat', seat: 'E6-1' })).text()).not.toContain(
      'Back and fit',
    )
  })
  test('a layer comes back with the layers it belongs to', () => {
    const layers = ['coat-shell', 'coat-liner', 'drag-rescue-device'] as const
    const spares = layers.flatMap((kind) => garment(kind, '9'))
    const own = ['CS-1', 'CL-1', 'DR-1']
    const swaps = ['CS', 'CL', 'DR'].map((id): Told => ({
      do: 'swap',
      seat: 'E6-1',
      out: `${id}-1`,
      in: `${id}-9`,
    }))
    const all: Told[] = [...spares, ...own.map(sendsAway), ...swaps]
    expect(bench(fitEngine(...all, { do: 'receive-back', elements: own })).text()).toContain(
      'Back and fit: coat shell CS-1 of A. Varga and 2 more.',
    )
    expect(bench(fitEngine(...all, { do: 'receive-back', elements: ['CL-1'] })).text()).not.toContain(
      'Back and fit',
    )
  })
})
