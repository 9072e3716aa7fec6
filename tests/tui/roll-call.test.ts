// The roll call: each riding position is called, its cylinder read, and the next one comes in hand by itself.
import { expect, test } from 'vitest'
import { reads } from '../domain/fit-crew.ts'
import { bench, type Bench } from './bench.ts'
import { demonstration, fitEngine, house } from './stations.ts'

const opens = { do: 'open-tour', tour: 'T-1', platoon: 'B', officer: 'M-104', on: '2026-11-24' } as const
const seats = [
  { do: 'seat-member', seat: 'E6-1', member: 'M-104' },
  { do: 'seat-member', seat: 'E6-2', member: 'M-105' },
] as const
/** Two riding positions, neither cylinder read this tour. */
const unread = (): Bench => bench(house(opens, ...seats)).type('r')

test('Enter without the reading that is needed refuses and says what to do', () => {
  const board = unread().press('enter')
  expect(board.events).toEqual([])
  expect(board.ui.message!.text).toBe(
    'Read the gauge of cylinder CY-1: type its pressure in psi, then Enter.',
  )
})

test('digits then Enter read and answer, and the next unanswered position comes in hand', () => {
  const board = unread().type('4400').press('enter')
  expect(board.events.map((event) => event.type)).toEqual(['pressure-read', 'seat-answered'])
  expect([board.ui.screen, board.view.row!.seat, board.ui.text]).toEqual(['roll-call', 'E6-2', ''])
  expect(board.ui.message!.text).toBe('Officer A. Varga answered.')
})

test('with the last answer the roll call is complete, says so and returns to the board', () => {
  const board = unread().type('4400').press('enter').type('4450').press('enter')
  expect(board.ui).toMatchObject({ screen: 'board', message: { text: 'Roll call complete.' } })
  expect(board.view.board.rollCall.complete).toBe(true)
})

test('a cylinder that was read this tour needs no second reading, but takes one', () => {
  const board = bench(fitEngine()).type('r').press('enter')
  expect(board.events.map((event) => event.type)).toEqual(['seat-answered'])
  const again = bench(fitEngine(reads('1')))
    .type('r')
    .type('4300')
    .press('enter')
  expect(again.events.map((event) => event.type)).toEqual(['pressure-read', 'seat-answered'])
})

test('letters other than f answer nothing and say what the keys are', () => {
  const board = bench(fitEngine()).press({ type: 'r' }, { type: 'q' })
  expect(board.left).toEqual([])
  expect(board.ui.message!.text).toMatch(/^Enter answers: all serviceable\. f is a finding\./)
})

test('a digit too many, a letter or a wrong digit can be taken back', () => {
  const board = unread().type('44009').press('backspace')
  expect(board.ui.text).toBe('4400')
  expect(board.press('escape').ui).toMatchObject({ text: '', screen: 'roll-call' })
  expect(board.press('escape').ui.screen).toBe('board')
})

test('up and down go to others who are seated and forget the digits typed for this one', () => {
  const board = unread().type('44').press('down')
  expect([board.view.row!.seat, board.ui.text]).toEqual(['E6-2', ''])
  expect(board.press('down').view.row!.seat).toBe('E6-2')
  expect(board.press('up').view.row!.seat).toBe('E6-1')
})

test('a finding at roll call answers the position and stays at the roll call', () => {
  const board = bench(fitEngine()).press({ type: 'r' }, { type: 'f' }, 'enter', 'enter', 'enter', 'enter')
  expect(board.last()).toBe('seat-answered')
  expect(board.ui.screen).toBe('roll-call')
})

test('a scan shows the card and answers nothing', () => {
  const board = bench(fitEngine()).press({ type: 'r' }, { scan: 'CY-1' })
  expect(board.ui.screen).toBe('card')
  expect(board.press('escape').ui.screen).toBe('roll-call')
  expect(board.events).toEqual([])
})

test('if another terminal hands the tour over meanwhile, nobody here answers', () => {
  const board = bench(house(), { ui: { screen: 'roll-call', seat: 'E6-1' } }).press('enter')
  expect(board.ui).toMatchObject({ screen: 'board', message: { text: 'No tour is open any more.' } })
  expect(board.events).toEqual([])
})

test('a whole roll is called in the demonstration with digits and Enter alone', () => {
  const board = bench(demonstration()).type('r')
  for (let call = 0; call < 5; call += 1) board.type('4400').press('enter')
  expect(board.view.board.rollCall.complete).toBe(true)
})
