// PINs at the board: typed unseen, never scanned, asked for at the hand-over, and asked again where one was wrong.
import { describe, expect, test } from 'vitest'
import { bench, type Bench } from './bench.ts'
import { fitEngine, nobodySeated } from './stations.ts'

const withPin = (): Bench =>
  bench(fitEngine()).press(
    { type: '#' },
    'enter',
    { type: '4711' },
    'enter',
    { type: '4711' },
    'enter',
    'enter',
  )
const handsOver = (): Bench => withPin().press({ type: 'h' }, 'enter', 'down', 'enter')

describe('setting a PIN', () => {
  test('asks for it twice, records it once, and shows none of its digits', () => {
    const board = bench(fitEngine()).press({ type: '#' }, 'enter', { type: '4711' })
    expect(board.text()).toContain(' > ****')
    expect(board.text()).not.toContain('4711')
    board.press('enter', { type: '4711' }, 'enter')
    expect(board.text()).not.toContain('4711')
    expect(board.press('enter').commands).toEqual([{ do: 'set-pin', by: 'M-104', pin: '4711' }])
    expect(board.ui.answers).toEqual([])
  })
  test.each([
    ['123', 'A PIN is 4 to 12 digits.'],
    ['1234567890123', 'A PIN is 4 to 12 digits.'],
    ['12a4', 'A PIN is 4 to 12 digits.'],
  ])('%s is not one', (text, words) => {
    expect(bench(fitEngine()).press({ type: '#' }, 'enter', { type: text }, 'enter').ui.message!.text).toBe(
      words,
    )
  })
  test('what is typed the second time has to be the same', () => {
    const board = bench(fitEngine()).press(
      { type: '#' },
      'enter',
      { type: '4711' },
      'enter',
      { type: '4712' },
      'enter',
    )
    expect(board.ui.message!.text).toContain('That is not the same.')
  })
  test('whoever has one gives it before a new one', () => {
    expect(withPin().press({ type: '#' }, 'enter').text()).toContain('The PIN of A. Varga (M-104) now?')
  })
  test('without a tour it asks whose it is, and nothing else of who is there', () => {
    expect(bench(nobodySeated()).type('#').text()).toContain('Whose PIN is set?')
  })
})

describe('handing over with a PIN', () => {
  test('asks for the PIN of whoever hands over, after the read-back', () => {
    const board = handsOver()
    expect(board.text()).toContain('The PIN of A. Varga (M-104)?')
    board.press({ type: '4711' }, 'enter', 'enter')
    expect(board.commands.at(-1)).toMatchObject({ do: 'hand-over', pin: '4711', readBack: true })
  })
  test('without one of their own nobody is asked', () => {
    expect(bench(fitEngine()).press({ type: 'h' }, 'enter', 'down', 'enter').text()).toContain('signs off')
  })
  test('a scan is never a PIN, and what was scanned is not shown', () => {
    const board = handsOver().press({ scan: '4711' })
    expect(board.ui).toMatchObject({ text: '', message: { text: 'A scan is not a PIN. Type it.' } })
    expect(board.text()).not.toContain('4711')
  })
})
