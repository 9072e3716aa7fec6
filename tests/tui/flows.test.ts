// The tour, the crew, the roll and the log, done by keys alone, from the key to the event; flows-gear is about the gear.
import { expect, test } from 'vitest'
import { bench, type Bench } from './bench.ts'
import { fitEngine, house, nobodySeated } from './stations.ts'
import { reads, tags, sendsAway } from '../domain/fit-crew.ts'

const engine = (): Bench => bench(fitEngine())

test('a tour is opened from nothing: platoon, officer, a last look', () => {
  const board = bench(nobodySeated()).press({ type: 'o' }, 'enter').pick('varga')
  expect(board.text()).toContain('Open tour 2026-11-24-B, officer A. Varga (M-104)?')
  expect(board.press('enter').last()).toBe('tour-opened')
  expect(board.state.tour).toMatchObject({ platoon: 'B', officer: 'M-104', on: '2026-11-24' })
})

test('the crew is seated, and the next tour of its platoon proposes the same riding list', () => {
  const board = bench(nobodySeated()).press({ type: 'o' }, 'enter').pick('varga').press('enter')
  board.press({ type: 'm' }).pick('varga').press('enter', 'down', { type: 'm' }).pick('okoro').press('enter')
  expect(board.events.map((event) => event.type)).toEqual(['tour-opened', 'member-seated', 'member-seated'])
  board.press({ type: 'h' }).pick('okoro').press('down', 'enter', 'enter')
  board.press('home', { type: 'c' }).pick('varga').press('enter')
  expect(board.last()).toBe('seat-cleared')
  board.press({ type: 'o' }, 'enter').pick('okoro')
  expect(board.text()).toContain('Seated from the last riding list: E6-1 A. Varga (M-104).')
  board.press('enter')
  expect(board.state.seats.get('E6-1')!.member).toBe('M-104')
  expect(board.state.seats.get('E6-2')!.member).toBe('M-105')
})

test('whoever was relieved early stays where they are when the tour opens', () => {
  const board = bench(nobodySeated()).press({ type: 'o' }, 'enter').pick('varga').press('enter')
  board
    .press({ type: 'm' })
    .pick('varga')
    .press('enter', { type: 'h' })
    .pick('okoro')
    .press('down', 'enter', 'enter')
  board.press({ type: 'c' }).pick('varga').press('enter', { type: 'm' }).pick('okoro', 'okoro').press('enter')
  board.press({ type: 'o' }, 'enter').pick('okoro').press('enter')
  expect(board.state.tour).not.toBeNull()
  expect(board.state.seats.get('E6-1')!.member).toBe('M-105')
})

test('the roll is called: digits and Enter read the cylinder and answer in one press', () => {
  const board = bench(house()).press({ type: 'o' }, 'enter').pick('varga').press('enter')
  board.press({ type: 'm' }).pick('varga').press('enter', { type: 'r' })
  board.press('enter')
  expect(board.ui.message?.text).toBe(
    'Read the gauge of cylinder CY-1: type its pressure in psi, then Enter.',
  )
  board.type('4400').press('enter')
  expect(board.events.slice(-2).map((event) => event.type)).toEqual(['pressure-read', 'seat-answered'])
  expect(board.ui.screen).toBe('board')
})

test('a finding tags its element and answers the riding position', () => {
  const board = engine().press({ type: 'f' }).pick('boots').press('enter').pick('safety').press('enter')
  expect(board.last()).toBe('seat-answered')
  expect(board.state.elements.get('BO-1')!.tags).toHaveLength(1)
  expect(board.view.row).toMatchObject({ answered: true, state: 'out-of-service' })
})

test('a finding takes five keys from the board to the journal, and one more for each line further down', () => {
  const board = engine().press({ type: 'f' }, 'enter', 'enter', 'enter', 'enter')
  expect([board.pressed, board.last()]).toEqual([5, 'seat-answered'])
  const down = engine().press({ type: 'f' }, 'down', 'enter', 'enter', 'enter', 'enter')
  expect([down.pressed, down.last()]).toEqual([6, 'seat-answered'])
})

test('a note is written, found in the log and withdrawn; both stay in the log', () => {
  const board = engine().press({ type: 'n' }).write('Hose bed checked.').press('enter', { type: 'l' })
  expect(board.text()).toContain('Note: Hose bed checked.')
  board.press({ type: '-' }).write('wrong rig').press('enter')
  expect(board.events.map((event) => event.type)).toEqual(['note-made', 'event-amended'])
  expect(board.ui.screen).toBe('log')
})

test('an act is not withdrawn: the log says so before it asks for a reason', () => {
  const board = engine().press({ type: 'c' }, 'enter', { type: 'l-' })
  expect(board.ui.message?.text).toMatch(/^Event \d+ cannot be amended any more\./)
  expect(board.ui.screen).toBe('log')
})

test('who or what there is cannot be withdrawn; the log says how it is corrected', () => {
  const log = [{ seq: 2, text: '#2', about: [], versions: [], isCorrection: false, isLabel: true }]
  const board = bench(fitEngine(), { ui: { screen: 'log', log } }).type('-')
  expect(board.ui).toMatchObject({ screen: 'log', action: null })
  expect(board.ui.message!.text).toBe(
    'Event 2 says who or what there is: that is corrected with c, never withdrawn.',
  )
})

test('what is left open is read back one by one and acknowledged', () => {
  const board = bench(fitEngine(tags('HO-1'), sendsAway('GL-2')))
  board.press({ type: 'a' }, 'enter', 'enter', 'down', 'enter', 'enter', { type: 'a' })
  expect(board.events.map((event) => event.type)).toEqual(['item-acknowledged', 'item-acknowledged'])
  expect(board.ui.message?.text).toBe('Every open item has been acknowledged in this tour.')
})

test('the tour is handed over once it was read back, and its log exported in the same flow', () => {
  const board = engine().press({ type: 'h' }).pick('okoro').press('enter')
  expect(board.ui.message!.text).toBe('Settle it together first; Esc goes back.')
  board.press('down', 'enter', 'enter')
  expect(board.events).toMatchObject([{ type: 'tour-handed-over', data: { to: 'M-105', readBack: true } }])
  expect(board.left).toEqual([{ export: 'pdf' }])
})

test('a log is exported as what is asked for', () => {
  const board = engine()
  board.press({ type: 'x' }).pick('csv').press('enter')
  expect(board.left).toEqual([{ export: 'csv' }])
})

test('what was tagged gets its tag printed by the same key; what there is none of says so', () => {
  const board = engine().press({ type: 'x' })
  expect(board.text()).toContain('nothing is tagged')
  expect(board.pick('out-of').ui.message!.text).toBe('nothing is tagged')
  const tagged = bench(fitEngine(tags('HE-1')))
    .press({ type: 'x' })
    .pick('out-of')
  expect(tagged.text()).toContain('Print a tag for everything that is tagged out of service?')
  expect(tagged.press('enter').left).toEqual([{ export: 'out-of-service-tag' }])
})

test('the card of anything is found by part of its name', () => {
  const board = engine().press({ type: '/' }).pick('okoro')
  expect(board.ui).toMatchObject({ screen: 'card', card: { id: 'M-105' } })
})

test('without a tour every act asks who is at the board, proposes the last one and takes nobody for granted', () => {
  const board = bench(nobodySeated()).press({ type: 'n' })
  expect(board.text()).toContain('No tour is open. Who is at the board?')
  board.pick('okoro').write('Hose bed checked.').press('enter', { type: 'n' })
  expect(board.events[0]).toMatchObject({ type: 'note-made', by: 'M-105' })
  expect(board.screen().find((line) => line.startsWith(' > '))).toContain('B. Okoro (M-105)')
  board.pick('varga').write('Pump checked.').press('enter')
  expect(board.events[1]).toMatchObject({ type: 'note-made', by: 'M-104' })
})

test('a reading that the cylinder cannot hold is refused and leaves the roll call where it was', () => {
  const board = bench(fitEngine(reads('1')))
    .press('down', { type: 'r' })
    .type('9000')
    .press('enter')
  expect(board.events).toEqual([])
  expect(board.ui).toMatchObject({ screen: 'roll-call', message: { tone: 'bad' } })
  expect(board.ui.message!.text).toContain('Read the gauge again.')
})
