// Finding: by parts of words in any order, by a scan, and by a number where one code means several things.
import { describe, expect, test } from 'vitest'
import { labelled } from '../../src/domain/labels.ts'
import { bench } from './bench.ts'
import { demonstration, fitEngine } from './stations.ts'
import type { Told } from '../domain/given.ts'

const hood = (id: string, serial: string): Told => ({
  do: 'add-element',
  element: { id, kind: 'hood', serial },
})
const twins = () => fitEngine(hood('HO-7', 'S-77'), hood('HO-8', 'S-77'), hood('HO-70', 'S-70'))

describe('typed', () => {
  test.each([
    ['halv pri', /Priya Halvering/],
    ['kes wilh', /Wilhelmina Kestrow/],
    ['9071 hood', /Hood K-9071/],
    ['k9071', /Hood K-9071/],
  ])('%j finds it', (words, found) => {
    const board = bench(demonstration()).press({ type: '/' }, { type: words })
    expect(board.screen().find((line) => line.startsWith(' > '))).toMatch(found)
    expect(board.press('enter').ui.screen).toBe('card')
  })

  test('an id typed whole comes before those that only begin so', () => {
    const board = bench(twins()).press({ type: '/ho-7' })
    expect(board.screen().find((line) => line.startsWith(' > '))).toContain('HO-7 ')
    expect(board.text()).toContain('HO-70')
  })

  test('a serial finds its element, part of it as well', () => {
    expect(bench(twins()).press({ type: '/s70' }, 'enter').ui.card!.id).toBe('HO-70')
  })

  test('the key that began it types nothing when it is pressed again, and is part of a serial further on', () => {
    const board = bench(twins()).press({ type: '//ho' })
    expect([board.ui.screen, board.ui.text]).toEqual(['sheet', 'ho'])
    expect(board.press('escape', { type: 's/70' }).text()).toContain('Narrowed by "s/70": 1 of')
  })

  test('Esc empties the letters, then leaves; the card leads back to the list as it was', () => {
    const board = bench(twins()).press({ type: '/ho-7' }, 'enter', 'escape')
    expect(board.text()).toContain('Narrowed by "ho-7"')
    expect(board.press('escape').text()).not.toContain('Narrowed')
    expect(board.press('escape').ui.screen).toBe('board')
  })
})

describe('a scan that means several things', () => {
  test('lists them with numbers; a digit puts one in hand and Enter shows it', () => {
    const board = bench(twins()).press({ scan: 'S-77' })
    expect(board.text()).toContain('Read "S-77": 2 things here carry it. Which one?')
    expect(board.text()).toContain(' > 1 Hood HO-7')
    expect(board.type('2').text()).toContain(' > 2 Hood HO-8')
    expect(board.type('3').ui.message!.text).toBe('3 is no number of this list.')
    expect(board.press('enter').ui.card!.id).toBe('HO-8')
    expect(board.press('escape', 'escape').ui.screen).toBe('board')
  })

  test('is an id before it is a serial', () => {
    const { state } = fitEngine(hood('HO-7', 'HO-1'))
    expect(labelled(state, 'ho-1').map((each) => each.id)).toEqual(['HO-1'])
  })
})

describe('a scan on a list', () => {
  test('puts what it names in hand, and nothing is taken before a key', () => {
    const board = bench(fitEngine()).press({ type: 't' }, { scan: 'bo-1' })
    expect(board.screen().find((line) => line.startsWith(' > '))).toContain('Boots BO-1')
    expect(board.ui.answers).toEqual([])
    expect(board.press('enter').text()).toContain('What is wrong with boots BO-1?')
  })

  test('of what is not in it moves nothing', () => {
    const board = bench(fitEngine()).press({ type: 't' }, 'down', 'down')
    const { cursor } = board.ui
    expect(board.press({ scan: 'BO-2' }).ui.cursor).toBe(cursor)
    expect(board.ui.message!.text).toContain('this is not in the list')
  })

  test('a badge puts its member in hand', () => {
    const board = bench(fitEngine({ do: 'clear-seat', seat: 'E6-2' })).press(
      'down',
      { type: 'm' },
      { scan: 'M-105' },
      'enter',
    )
    expect(board.text()).toContain('B. Okoro')
    expect(board.press('enter').last()).toBe('member-seated')
  })

  test('is never taken as words, and what it says is cleaned', () => {
    const board = bench(fitEngine()).press({ type: 'n' }, { scan: 'ZZ\u202e-1' })
    expect(board.ui.text).toBe('')
    expect(board.ui.message!.text).toMatch(/^Read "ZZ-1": a scan is not an answer/)
  })
})
