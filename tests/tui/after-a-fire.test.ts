// After a working fire the gear of a whole crew goes away, comes back and is cared for in a few keys.
import { expect, test } from 'vitest'
import { garment, sendsAway, tags } from '../domain/fit-crew.ts'
import type { Told } from '../domain/given.ts'
import { bench, type Bench } from './bench.ts'
import { fitEngine } from './stations.ts'

/** Both riding positions exposed: twelve elements each. */
const burnt = (): Bench =>
  bench(fitEngine({ do: 'record-exposure', exposure: 'products-of-combustion', seats: ['E6-1', 'E6-2'] }))
const CREW = 'All that is out of service in the crew of Engine 6 (24)'

test('all that is out of service at the riding position or in its crew is offered, with how many that are', () => {
  for (const key of ['w', 'k']) {
    const text = burnt().type(key).text()
    expect(text).toContain('All that is out of service here (12)')
    expect(text).toContain(CREW)
  }
})

test('one element alone is not offered as a group', () => {
  expect(
    bench(fitEngine(tags('HE-1')))
      .type('w')
      .text(),
  ).not.toContain('All that is out of service')
})

test('a whole crew is sent, received and cared for: one command away, one back, one care for each', () => {
  const board = burnt().press({ type: 'w' }).pick('in the crew').press('enter').write('North Wash')
  expect(board.text()).toContain('Send 24 elements to North Wash for advanced cleaning?')
  expect(board.text()).toContain('CS-1, CL-1, DR-1')
  board.press('enter')
  expect(board.events).toMatchObject([{ type: 'elements-sent-away', data: { for: 'advanced-cleaning' } }])
  board.press({ type: 'v' })
  expect(board.text()).toContain('Everything from North Wash (24)')
  board.press('enter')
  expect(board.text()).toContain('24 elements have come back?')
  expect(board.text()).toContain('CS-1, CL-1, DR-1')
  board.press('enter')
  expect(board.last()).toBe('elements-received-back')
  board
    .press({ type: 'k' })
    .pick('in the crew')
    .press('enter', 'enter')
    .pick('serviceable')
    .write('North Wash')
  expect(board.text()).toContain('Advanced cleaning of 24 elements on 2026-11-24, serviceable?')
  expect(board.text()).toContain('May ride again: A. Varga, B. Okoro.')
  board.press('enter')
  expect(board.events.slice(2).map((event) => event.type)).toEqual(
    Array.from({ length: 24 }, () => 'care-recorded'),
  )
  expect(board.view.board.headline).toContain('Everybody seated may ride')
})

test('the care that the open exposures ask for comes first, and only cares that every element takes are offered', () => {
  const wet = bench(fitEngine({ do: 'record-exposure', exposure: 'water', seats: ['E6-1'] }))
  const lines = wet.press({ type: 'k' }).pick('all that is').screen()
  expect(lines.find((line) => line.startsWith(' > '))).toContain('Drying')
  expect(lines.join('\n')).not.toMatch(/Hydrostatic test|Flow test|Complete liner|Advanced inspection/)
  const liner = bench(fitEngine()).press({ type: 'k' }).pick('coat liner').text()
  expect(liner).toContain('Complete liner inspection')
})

test('each place has its own line, and what is alone at a place comes back by itself', () => {
  const more = [sendsAway('GL-1'), sendsAway('HO-1'), garment('hood', '8')].flat()
  const alone: Told = { do: 'send-away', elements: ['HO-8'], to: 'Mill Lane', for: 'repair' }
  const text = bench(fitEngine(...more, alone))
    .type('v')
    .text()
  expect(text).toContain('Everything from North Wash (2)')
  expect(text).not.toContain('Everything from Mill Lane')
  expect(text).toContain('Hood HO-8')
})

test('care of what is away can be recorded for everything at one place', () => {
  const board = bench(fitEngine(sendsAway('GL-1'), sendsAway('HO-1'))).press({ type: 'k' })
  board
    .pick('everything away')
    .pick('advanced cleaning')
    .press('enter')
    .pick('serviceable')
    .write('North Wash')
  expect(board.press('enter').commands.map((each) => 'element' in each && each.element)).toEqual([
    'HO-1',
    'GL-1',
  ])
})

test('a group that another terminal saw to meanwhile leaves nothing to confirm', () => {
  const { ui } = burnt().press({ type: 'w' }).pick('in the crew')
  const late = bench(fitEngine(), { ui })
  expect(late.text()).toContain('It was seen to meanwhile. Esc goes back.')
  expect(late.press('enter', 'enter').events).toEqual([])
})
