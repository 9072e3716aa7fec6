// What each key does on the board and on what is read; a key either does what it says or says why not.
import { describe, expect, test } from 'vitest'
import { ACTIONS } from '../../src/tui/keymap.ts'
import { startUi } from '../../src/tui/ui-state.ts'
import { update } from '../../src/tui/update.ts'
import { bench, type Bench } from './bench.ts'
import { demonstration, fitEngine, nobodySeated, noRig } from './stations.ts'

const demo = (): Bench => bench(demonstration())
const inHand = (board: Bench) => board.view.row?.seat

describe('moving', () => {
  test('up and down go from riding position to riding position and stop at the ends', () => {
    expect(inHand(demo().press('down'))).toBe('E9-2')
    expect(inHand(demo().press('down', 'up', 'up'))).toBe('E9-1')
    expect(inHand(demo().press('end', 'down'))).toBe('L9-6')
    expect(inHand(demo().press('end', 'home'))).toBe('E9-1')
  })
  test('a page is ten riding positions, and stops at the ends', () => {
    expect(inHand(demo().press('page-down'))).toBe('L9-5')
    expect(inHand(demo().press('page-down', 'page-down', 'page-up'))).toBe('E9-2')
  })
  test('Tab goes to the next rig and around, Shift-Tab to the one before', () => {
    expect(inHand(demo().press('tab'))).toBe('L9-1')
    expect(inHand(demo().press('tab', 'tab'))).toBe('E9-1')
    expect(inHand(demo().press('back-tab'))).toBe('L9-1')
  })
  test('a station without a rig can be moved in and nothing happens', () => {
    const board = bench(noRig()).press('up', 'down', 'tab', 'back-tab', 'page-up', 'page-down', 'home', 'end')
    expect(inHand(board)).toBeUndefined()
  })
})

describe('looking', () => {
  test('q leaves, and so does Ctrl-C on every screen', () => {
    expect(demo().type('q').left).toEqual([{ quit: true }])
    for (const keys of ['', 'r', 's', 'l', '?', 'n'])
      expect(demo().press({ type: keys }, 'ctrl-c').left).toEqual([{ quit: true }])
  })
  test('r opens the roll call at the first riding position that has not answered', () => {
    const board = demo().type('r')
    expect([board.ui.screen, inHand(board)]).toEqual(['roll-call', 'E9-4'])
  })
  test('r opens the roll call at the riding position in hand while that has not answered', () => {
    const board = demo().press('end', { type: 'r' })
    expect([board.ui.screen, inHand(board)]).toEqual(['roll-call', 'L9-6'])
  })
  test('r goes on from the one in hand that has answered to the next that has not', () => {
    const board = demo().press('down', { type: 'r' })
    expect([board.ui.screen, inHand(board)]).toEqual(['roll-call', 'E9-4'])
  })
  test('Enter shows all about the riding position in hand, filled or not, and Esc leads back to it', () => {
    for (const [key, seat] of [
      ['down', 'E9-2'],
      ['page-down', 'L9-5'],
    ] as const) {
      const board = demo().press(key, 'enter')
      expect(board.ui).toMatchObject({ screen: 'card', card: { id: seat } })
      expect([board.press('escape').ui.screen, inHand(board)]).toEqual(['board', seat])
    }
  })
  test('the card of a riding position has every reason and every element, however many there are', () => {
    const board = bench(demonstration(), { ui: { seat: 'E9-5' } })
    expect(board.text()).toContain('and 1 more; Enter shows each element')
    const { row } = board.view
    const text = board.press('enter').text({ columns: 160, rows: 60 }).replaceAll(/\s+/g, ' ')
    expect(row!.reasons).toHaveLength(3)
    for (const each of row!.reasons) expect(text).toContain(each.text)
    for (const each of row!.places) expect(text).toContain(each.element)
  })
  test('the roll is not called without a tour, nor before anybody is seated', () => {
    expect(bench(nobodySeated()).type('r').ui.message!.text).toBe('No tour is open. Press o to open it.')
    const empty = bench(nobodySeated())
      .press({ type: 'o' }, 'enter')
      .pick('varga')
      .press('enter', { type: 'r' })
    expect(empty.ui.message!.text).toBe('Nobody is seated yet. Press m to seat the crew.')
  })
  test('the help scrolls, stops at its end, and the way back begins at once', () => {
    const board = demo().press({ type: '?' }, 'end')
    const end = board.text()
    expect(board.press('down', 'page-down', 'end').text()).toBe(end)
    expect(board.press('up').text()).not.toBe(end)
    expect(board.press('home', 'up').ui.top).toBe(0)
  })
  test('the log moves entry by entry and shows the one in hand whole', () => {
    const long =
      'The pump lost its prime twice at the drill ground and was put back with the tank valve open.'
    const board = bench(fitEngine()).press({ type: 'n' }).write(long).press('enter')
    board.press({ type: 'n' }).write('Second note.').press('enter', { type: 'l' })
    expect(board.text().replaceAll(/\s+/g, ' ')).not.toContain(long)
    expect(board.press('down', 'down').text().replaceAll(/\s+/g, ' ')).toContain(long)
  })
})

describe('a key that cannot act now says why, and opens nothing', () => {
  test.each([
    ['o', fitEngine, 'Tour 2026-11-24-B is still open. Hand it over first.'],
    ['h', nobodySeated, 'No tour is open, so there is none to hand over.'],
    ['a', nobodySeated, 'No tour is open. Open the tour first.'],
    ['c', nobodySeated, 'Nobody rides at E6-1.'],
    ['f', nobodySeated, 'Nobody rides at E6-1.'],
    ['s', nobodySeated, 'Nobody rides at E6-1.'],
    ['b', fitEngine, 'No spare stands in at E6-1.'],
    ['u', fitEngine, 'No element is tagged.'],
    ['v', fitEngine, 'No element is away or held.'],
    ['j', nobodySeated, 'Nobody rides at E6-1.'],
    ['x', nobodySeated, 'There has been no tour yet, so there is no log to export.'],
    ['m', noRig, 'This station has no rig yet. Add one with: bayboard record'],
    ['p', noRig, 'This station has no rig yet. Add one with: bayboard record'],
    ['e', noRig, 'This station has no rig yet. Add one with: bayboard record'],
    ['i', noRig, 'This station has no rig yet. Add one with: bayboard record'],
    ['o', noRig, 'No member is of any platoon yet. Import members first: bayboard import FILE'],
  ])('%s', (key, station, words) => {
    const board = bench(station()).type(key)
    expect(board.ui).toMatchObject({ screen: 'board', action: null, message: { text: words } })
  })

  test('a letter that is no key says so and where all keys are', () => {
    expect(demo().type('Q').ui.message!.text).toBe('"Q" is not a key of the board. Press ? for all keys.')
  })
  test('what a key said is gone with the next key', () => {
    expect(demo().press({ type: 'Q' }, 'down').ui.message).toBeNull()
  })
})

describe('a single typed letter', () => {
  const letters = Array.from({ length: 0x7f - 0x20 }, (_, index) => String.fromCodePoint(0x20 + index))
  test.each([demonstration, fitEngine, nobodySeated, noRig])(
    'never records anything on the board',
    (station) => {
      for (const char of letters) {
        const { effect } = update(startUi, { char }, bench(station()).view)
        expect(effect === undefined || !('submit' in effect), char).toBe(true)
      }
    },
  )
  test('starts its action, whose confirming key is another', () => {
    for (const { key } of ACTIONS) expect(key).not.toBe('enter')
    const board = bench(fitEngine()).press({ type: 't' }, 'enter', 'enter', 'enter', { type: 'tttt' })
    expect(board.events).toEqual([])
    expect(board.press('enter').last()).toBe('element-tagged')
  })
})

describe('a scan', () => {
  test.each(['K-9071', 'k-9071', ' K-9071 '])('of %j shows the card and records nothing', (scan) => {
    const board = demo().press({ scan })
    expect(board.ui).toMatchObject({ screen: 'card', card: { id: 'K-9071' } })
    expect(board.press('escape').ui.screen).toBe('board')
  })
  test('of something unknown says what was read', () => {
    expect(demo().press({ scan: 'q' }).ui.message!.text).toBe(
      'Read "q": no element, member or riding position here has this id or serial.',
    )
  })
  test('that is too long is not looked up', () => {
    const { ui } = demo().press({ scan: 'K-9071', tooLong: true })
    expect(ui.message!.text).toBe('The scanner sent more than any label holds. Nothing was done.')
  })
  test('goes back to where it was read, however often', () => {
    const board = demo().press({ type: 'r' }, { scan: 'K-9071' }, { scan: 'M-901' }, 'escape')
    expect(board.ui.screen).toBe('roll-call')
  })
})

test('a key of the board pressed on a card or the help does nothing, and says so and the way back', () => {
  for (const opens of ['enter', { type: '?' }] as const) {
    const board = bench(fitEngine()).press(opens)
    const { screen } = board.ui
    board.type('o')
    expect(board.ui.screen).toBe(screen)
    expect(board.text()).toContain(
      '"o" does nothing here: the keys of the board are on the board. Esc goes back.',
    )
  }
})
