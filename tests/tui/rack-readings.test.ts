// Cylinders on the rack are read where they hang: by list or by scan, and before a swap is given up.
import { expect, test } from 'vitest'
import { cylinder, reads } from '../domain/fit-crew.ts'
import { bench } from './bench.ts'
import { fitEngine } from './stations.ts'

const rack = fitEngine(...cylinder('8'), ...cylinder('9'))

test('a spare cylinder is read on the rack, and then the next one is offered until none is left', () => {
  const board = bench(rack).press({ type: 'p' })
  expect(board.text()).toContain('Which cylinder is read? 2 cylinders on the rack to be read.')
  expect(board.text()).toMatch(/> Cylinder CY-1 +at E6-1, last read 4500 psi/)
  expect(board.text()).toMatch(/Cylinder CY-8 +on the rack, to be read, never read/)
  board.press('down', 'enter')
  expect(board.text()).toContain('Pressure of cylinder CY-8 on the rack, rated 4500 psi')
  board.write('4400').press('enter')
  expect(board.text()).toContain('Which cylinder is read? 1 cylinder on the rack to be read.')
  board.press('enter')
  expect(board.ui.screen).toBe('sheet')
  board.press('down', 'enter').write('4300').press('enter')
  expect(board.events.map(({ data }) => data)).toMatchObject([
    { element: 'CY-8', psi: 4400 },
    { element: 'CY-9', psi: 4300 },
  ])
  expect(board.ui.screen).toBe('board')
})

test('a pressure typed where a cylinder is chosen brings none in hand, whatever it read before', () => {
  const typed = (text: string) => bench(rack).press({ type: 'p' }, { type: text })
  expect(typed('4500').text()).toContain('Nothing here has that.')
  expect(typed('4500').press('enter').ui.answers).toEqual([])
  expect(typed('8').text()).toMatch(/> Cylinder CY-8/)
  expect(typed('rack').text()).toContain('Narrowed by "rack": 2 of 4')
})

test('a scan puts any cylinder of the station in hand, that of another riding position too', () => {
  const read = (code: string) => bench(rack).press({ type: 'p' }, { scan: code }, 'enter').text()
  expect(read('CY-9')).toContain('Pressure of cylinder CY-9 on the rack')
  expect(read('CY-2')).toContain('Pressure of cylinder CY-2 at E6-2')
})

test('a riding position takes a cylinder, it wears none; what only has to be read is said with its key', () => {
  const spares = (...more: Parameters<typeof fitEngine>) =>
    bench(fitEngine(...cylinder('9'), ...more))
      .press({ type: 's' })
      .pick('cylinder')
      .text()
  expect(spares()).toContain('Spare cylinder: E6-1 can take 0 of 1. 1 to be read first: p. Which goes in?')
  expect(spares(reads('9'))).toContain('Spare cylinder: E6-1 can take 1 of 1. Which goes in?')
})
