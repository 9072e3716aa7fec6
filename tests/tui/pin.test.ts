// PINs at the board: typed unseen, never scanned, asked for at the hand-over, and asked again where one was wrong.
import { describe, expect, test } from 'vitest'
import { bench, type Bench } from './bench.ts'
import type { Told } from '../domain/given.ts'
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
    expect(board.text()).not.toContain('****')
    board.press({ type: '4711' }, 'enter', 'enter')
    expect(board.commands).toEqual([{ do: 'set-pin', by: 'M-104', pin: '4711' }])
  })
  test('digits that are no PIN are gone from the line, so that what is typed next is the whole PIN', () => {
    const board = bench(fitEngine()).press({ type: '#' }, 'enter', { type: '123' }, 'enter')
    board.press({ type: '4711' }, 'enter', { type: '4711' }, 'enter', 'enter')
    expect(board.commands).toEqual([{ do: 'set-pin', by: 'M-104', pin: '4711' }])
  })
  test('whoever has one gives it before a new one', () => {
    expect(withPin().press({ type: '#' }, 'enter').text()).toContain('The PIN of A. Varga (M-104) now?')
  })
  test('without a tour it asks whose it is, and nothing else of who is there', () => {
    expect(bench(nobodySeated()).type('#').text()).toContain('Whose PIN is set?')
  })
})

test('the list of whose PIN is set starts with the officer on duty, whoever stands before them', () => {
  const others = ['Abel Aas', 'Zoe Zorn'].map((name, at): Told => ({
    do: 'add-member',
    member: { id: `M-80${at}`, name, rank: 'Chief', platoon: 'A' },
  }))
  const board = bench(fitEngine(...others)).type('#')
  expect(board.screen().find((line) => line.startsWith(' > '))).toContain('A. Varga (M-104)')
})

describe('a tour whose officer and whose next officer have PINs', () => {
  const WITH_PINS: Told[] = [
    { do: 'add-member', member: { id: 'M-300', name: 'C. Lark', rank: 'Captain', platoon: 'C' } },
    { do: 'set-pin', by: 'M-300', pin: '2222' },
    { do: 'set-pin', by: 'M-104', pin: '4711' },
  ]
  const board = (): Bench => bench(fitEngine(...WITH_PINS))

  test('asks the incoming officer first, who has read it back, then whoever signs off', () => {
    const asked = board().press({ type: 'h' }, 'enter', 'down', 'enter')
    expect(asked.text()).toContain('The PIN of C. Lark (M-300), who has read this back?')
    asked.press({ type: '2222' }, 'enter')
    expect(asked.text()).toContain('The PIN of A. Varga (M-104)?')
    asked.press({ type: '4711' }, 'enter')
    expect(asked.text()).toContain('A. Varga (M-104) signs off and hands tour')
    for (const pin of ['2222', '4711']) expect(asked.text()).not.toContain(pin)
    asked.press('enter')
    expect(asked.commands.at(-1)).toMatchObject({
      do: 'hand-over',
      by: 'M-104',
      to: 'M-300',
      readBack: true,
      readBackPin: '2222',
      pin: '4711',
    })
    expect(asked.ui.answers).toEqual([])
  })

  test('is signed off by the next officer where its own is ill, with one PIN', () => {
    const ill = board().press({ type: 'h' }, 'enter', 'down', 'down')
    expect(ill.text()).toContain('> The same, but somebody else signs off for A. Varga (M-104)')
    ill.press('enter')
    expect(ill.text()).toContain('Who signs off, with a PIN of their own?')
    ill.press('enter')
    expect(ill.text()).toContain('The PIN of C. Lark (M-300)?')
    ill.press({ type: '2222' }, 'enter')
    expect(ill.text().replaceAll(/\s+/g, ' ')).toContain(
      'C. Lark (M-300) signs off for A. Varga (M-104) and hands tour 2026-11-24-B over to C. Lark (M-300)?',
    )
    ill.press('enter')
    expect(ill.commands.at(-1)).toMatchObject({ do: 'hand-over', by: 'M-300', to: 'M-300', pin: '2222' })
  })

  test('asks its officer for theirs before a first PIN of somebody else', () => {
    const first = board().press({ type: '#' }).pick('okoro')
    expect(first.text()).toContain('The PIN of A. Varga (M-104), for a first one of B. Okoro (M-105)?')
    first.press({ type: '4711' }, 'enter', { type: '8888' }, 'enter', { type: '8888' }, 'enter', 'enter')
    expect(first.commands).toEqual([{ do: 'set-pin', by: 'M-105', pin: '8888', officerPin: '4711' }])
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
