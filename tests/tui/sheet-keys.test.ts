// How an action asks: a list narrows and moves, words are checked, the last look is confirmed, Esc goes one step back.
import { describe, expect, test } from 'vitest'
import { KINDS, POINT_WORDS, pointsOf, wordOf } from '../../src/domain/kinds.ts'
import { bench, type Bench, type Press } from './bench.ts'
import { demonstration, fitEngine } from './stations.ts'

const engine = (): Bench => bench(fitEngine())
const inHand = (board: Bench) => board.screen().find((line) => line.startsWith(' > '))

describe('a list', () => {
  test('moves with the arrows and around, by pages to its ends and no further', () => {
    const board = engine().type('t')
    expect(inHand(board)).toContain('Coat shell CS-1')
    expect(inHand(board.press('down'))).toContain('Coat liner CL-1')
    expect(inHand(board.press('end'))).toContain('Another element')
    expect(inHand(board.press('page-down'))).toContain('Another element')
    expect(inHand(board.press('down'))).toContain('Coat shell CS-1')
    expect(inHand(board.press('up'))).toContain('Another element')
    expect(inHand(board.press('home', 'page-up'))).toContain('Coat shell CS-1')
    expect(inHand(board.press('page-down'))).toContain('Air pack AP-1')
    expect(inHand(board.press('page-up'))).toContain('Coat shell CS-1')
  })
  test('narrows as letters are typed, whatever their case and without dashes, and says so', () => {
    const board = engine().press({ type: 't' }, { type: 'HE1' })
    expect(inHand(board)).toContain('Helmet HE-1')
    expect(board.text()).toContain('Narrowed by "HE1": 1 of 13')
    expect(board.press('backspace', 'backspace', 'backspace').text()).not.toContain('Narrowed')
  })
  test('narrows by what a line is called; only where no name matches, by what is said of it', () => {
    const board = engine().press({ type: '/' }, { type: 'E6-1' })
    expect(board.text()).toContain('Narrowed by "E6-1": 1 of')
    expect(inHand(board)).toContain('E6-1')
    expect(engine().press({ type: '/' }, { type: 'platoon b' }).text()).toContain(
      'Narrowed by "platoon b": 2 of',
    )
  })
  test('puts what begins with the letters before what only has them inside', () => {
    const board = engine().press({ type: 't' }, { type: 'hel' })
    expect(inHand(board)).toContain('Helmet HE-1')
    expect(board.text()).toContain('Coat shell CS-1')
    expect(inHand(engine().press({ type: 't' }, { type: 'l' }))).toContain('Coat liner CL-1')
    expect(inHand(engine().press({ type: 't' }, { type: 'co sh' }))).toContain('Coat shell CS-1')
  })
  test('that is narrowed to nothing has nothing to take', () => {
    const board = engine().press({ type: 't' }, { type: 'zzz' }, 'enter')
    expect(board.ui.message!.text).toBe('There is nothing here to take. Esc goes back.')
  })
  test('says why a line cannot be taken', () => {
    const board = engine().press('end', { type: 'e' }).pick('E6-3')
    expect(board.ui.message!.text).toBe('Nobody rides at E6-3.')
  })
  test('that has nobody in it yet stays where it is', () => {
    const board = engine().press({ type: 't' }, { type: 'zzz' }, 'up', 'down')
    expect(board.ui.cursor).toBe(0)
  })
  test('of who rides says where somebody not on the books is found, and Up alone reaches it', () => {
    const board = bench(demonstration()).press({ type: 'm' })
    expect(board.text().replaceAll(/\s+/g, ' ')).toContain(
      'Whoever is not on the books: the last of the list.',
    )
    expect(inHand(board.press('up'))).toContain('Somebody not on the books')
    expect(board.press('enter').text()).toContain('Their name?')
  })
  test('longer than the glass says how many are below', () => {
    expect(bench(demonstration()).type('h').text()).toMatch(/\d+ more below/)
  })
})

describe('words', () => {
  test.each([
    [[{ type: 'n' }, 'enter'], 'Some words are needed here.'],
    [[{ type: 'n' }, { type: '   ' }, 'enter'], 'Some words are needed here.'],
    [
      [{ type: 'p' }, 'enter'],
      'No pressure is typed yet. Write it in whole psi, as 4400; if it is cold, add its temperature: 4100 14F is 4100 psi at 14 Fahrenheit.',
    ],
    [
      [{ type: 'p' }, { type: '44.5' }, 'enter'],
      '44.5 is not a pressure. Write it in whole psi, as 4400; if it is cold, add its temperature: 4100 14F is 4100 psi at 14 Fahrenheit.',
    ],
    [
      [{ type: 'p' }, { type: '20001' }, 'enter'],
      '20001 is not a pressure. Write it in whole psi, as 4400; if it is cold, add its temperature: 4100 14F is 4100 psi at 14 Fahrenheit.',
    ],
    [[{ type: 'j' }, 'ctrl-u', 'enter'], 'Some words are needed here.'],
    [[{ type: 'j' }, 'enter', 'ctrl-u', 'enter'], 'Some words are needed here.'],
    [
      [{ type: 'j' }, 'enter', 'enter', 'ctrl-u', { type: '24/11/2026' }, 'enter'],
      '24/11/2026 is not a date. Write it as 2026-11-24.',
    ],
    [
      [{ type: 'j' }, 'enter', 'enter', 'ctrl-u', { type: '2026-11-25' }, 'enter'],
      'That day is still to come.',
    ],
  ] as [Press[], string][])('are checked before they are taken: %j', (keys, words) => {
    const board = engine().press(...keys)
    expect(board.ui).toMatchObject({ screen: 'sheet', message: { text: words } })
  })

  test('the most psi that any cylinder holds is a pressure, and the rated one refuses it in the last look', () => {
    const board = engine().press({ type: 'p' }).write('20000')
    expect(board.text()).toContain('20000 psi is far more than CY-1 is rated for (4500).')
    expect(board.press('enter').events).toEqual([])
  })
  test('a paste is part of the words, cleaned and never a confirmation', () => {
    const board = engine().press({ type: 'n' }, { paste: 'Hose\u001b[2J bed\r\nchecked.\n' })
    expect(board.ui).toMatchObject({ screen: 'sheet', text: 'Hose bed checked.' })
    expect(board.events).toEqual([])
  })
  test('Backspace takes one letter, Ctrl-U all of them', () => {
    const board = engine().press({ type: 'n' }, { type: 'ab👩' }, 'backspace')
    expect(board.ui.text).toBe('ab')
    expect(board.press('ctrl-u').ui.text).toBe('')
  })
  test('longer than the line keep their end in sight', () => {
    const board = engine().press({ type: 'n' }, { type: `${'long '.repeat(30)}END` })
    expect(board.text()).toContain('END')
  })
})

describe('a scan while something is asked', () => {
  test.each([
    ['words', [{ type: 'n' }]],
    ['a last look', [{ type: 't' }, 'enter', 'enter', 'enter']],
  ] as [string, Press[]][])('is not an answer to %s, and says so', (_, keys) => {
    const board = engine().press(...keys)
    const before = { ...board.ui }
    board.press({ scan: 'HE-1' })
    const text = 'Read "HE-1": a scan is not an answer. Use the keys, or Esc to go back.'
    expect(board.ui).toEqual({ ...before, message: { text, tone: 'warn' } })
    expect([board.events, board.left]).toEqual([[], []])
  })
})

describe('Esc', () => {
  test('goes one step back: the letters, then the last answer, then the action', () => {
    const board = engine().press({ type: 't' }, { type: 'hood' }, 'enter', { type: 'seam' })
    expect(board.press('escape').text()).toContain('What is wrong with hood HO-1?')
    expect(board.press('escape').text()).toContain('Tag which element out of service?')
    expect(board.press('escape').ui.screen).toBe('board')
  })
  test('in a finding from the roll call leads back to the roll call', () => {
    const board = engine().press({ type: 'rf' }, 'enter', 'escape', 'escape')
    expect(board.ui.screen).toBe('roll-call')
    expect(board.press('escape').ui.screen).toBe('board')
  })
  test('puts what was taken back on its line, where Enter takes it again and typing replaces it', () => {
    const board = engine().press({ type: 'p' }).write('4100').press('escape')
    expect(board.ui).toMatchObject({ text: '4100', proposed: '4100' })
    expect(board.screen().at(-1)).toContain('Enter takes it   type another in its place')
    expect(board.type('4300').ui.text).toBe('4300')
    board.press('enter', 'enter')
    expect(board.events).toMatchObject([{ data: { psi: 4300 } }])
  })
  test('out of a typed pressure says that it was not taken; of what was only proposed it says nothing', () => {
    const board = engine().press({ type: 'p' }, { type: '3900' }, 'escape')
    expect(board.ui).toMatchObject({ screen: 'board', message: { text: '"3900" was not taken.' } })
    const day = engine().press({ type: 'k' }, 'enter', 'enter', 'escape')
    expect([day.ui.screen, day.ui.message]).toEqual(['sheet', null])
  })
  test('from the list of gear brought keeps the last piece on its line, and says when that is given up', () => {
    const board = engine().press({ type: 'm' }, 'up', 'enter').write('D. Halvorne').write('M-700').write('')
    const piece = 'C-700 44x32 2021-03'
    board.press('enter').write(piece)
    expect(board.text()).toContain(`${piece}, named already`)
    expect(board.press('escape').ui.text).toBe(piece)
    expect(board.press('enter').text()).toContain(`${piece}, named already`)
    board.press('escape', 'escape')
    expect(board.ui.message!.text).toBe(`"${piece}" was not taken.`)
    expect(board.text()).not.toContain('named already')
  })
  test('never puts a PIN back on its line, nor says it', () => {
    const board = bench(fitEngine()).press({ type: '#' }, 'enter')
    const at = board.ui.answers.length
    board.type('731905').press('enter')
    expect(board.ui.answers.length).toBe(at + 1)
    expect(board.press('escape').ui).toMatchObject({ text: '', message: null })
    expect(board.type('73').press('escape').text()).not.toContain('73')
  })
  test('in a withdrawal leads back to the log', () => {
    const board = engine().press({ type: 'n' }).write('x').press('enter', { type: 'l-' }, 'escape')
    expect(board.ui.screen).toBe('log')
  })
})

test('what is proposed on a line is typed over, or gone into with Backspace', () => {
  const day = () => engine().press({ type: 'k' }, 'enter', 'enter')
  expect(day().ui.text).toBe('2026-11-24')
  expect(day().screen().at(-1)).toBe(' Enter takes it   type another in its place   Esc one step back')
  expect(day().type('2026-11-20').ui.text).toBe('2026-11-20')
  expect(day().press('backspace', 'backspace', { type: '19' }).ui.text).toBe('2026-11-19')
  expect(day().press({ paste: '2026-11-18' }).ui.text).toBe('2026-11-18')
})

test('a list that holds nothing of what was typed says how to get it back', () => {
  const board = engine().press({ type: 't' }, { type: 'zipper' })
  expect(board.text()).toContain('Nothing here has that. Backspace or Esc takes the letters away.')
  expect(board.press('escape').text()).toContain('> Coat shell')
})

describe('what may be wrong', () => {
  const asked = (kind: string) => bench(fitEngine()).press({ type: 't' }).pick(kind)
  test.each(KINDS)('with a %s is listed with plain words that a narrow screen shows whole', (kind) => {
    const text = asked(wordOf(kind)).text()
    for (const point of pointsOf(kind)) expect(text).toContain(POINT_WORDS[point])
  })
  test('is found by its plain words, beside which one’s own stay at hand', () => {
    const board = asked('coat liner').type('film')
    expect(board.text()).toMatch(/> Moisture barrier +film that stops water/)
    expect(board.text()).toContain('Narrowed by "film": 2 of 13')
    expect(board.press('down', 'enter').ui.text).toBe('film')
  })
})

test('when typed words match nothing, "in your own words" stays at hand and records nothing by itself', () => {
  const board = bench(fitEngine()).type('t').press('enter').type('torn cuff')
  expect(board.text()).toContain('Something else, in your own words')
  board.press('enter')
  expect(board.text()).toContain('What is wrong, in your own words')
  expect(board.events).toEqual([])
})

test('Esc from a card that was found goes back to the list, with what was typed and the line in hand', () => {
  const board = engine().press({ type: '/' }, { type: 'ho' }, 'down')
  const before = board.text()
  expect(board.press('enter').ui.screen).toBe('card')
  expect(board.press('escape').text()).toBe(before)
  expect(board.press('enter', 'escape', 'escape', 'escape').ui.screen).toBe('board')
})

test('a last look at what would be refused confirms nothing: Enter stays and says that Esc goes back', () => {
  const board = bench(fitEngine()).press({ type: 'p' }).write('20000').press('enter', 'enter')
  expect(board.ui).toMatchObject({
    screen: 'sheet',
    message: { text: 'Nothing can be done here. Esc goes back.' },
  })
  expect(board.events).toEqual([])
  expect(board.press('escape').text()).toContain('Pressure of cylinder CY-1')
})

test('what another terminal took while this one was choosing is said, not recorded', () => {
  const board = bench(demonstration()).press('tab', 'down', 'down', { type: 's' }, 'enter', 'enter')
  const ui = {
    ...board.ui,
    answers: [
      { name: 'kind', value: 'coat-liner' },
      { name: 'in', value: 'L-9011' },
    ],
  }
  const late = bench(demonstration(), { ui })
  expect(late.text()).toContain('L-9011 is no longer free. Esc goes back to the spares.')
  expect(late.press('enter').events).toEqual([])
})
