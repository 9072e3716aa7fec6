// What the officer does about gear, done by keys alone, from the key to the event; each leaves what its help says it does.
import { expect, test } from 'vitest'
import { tags } from '../domain/fit-crew.ts'
import { bench, type Bench } from './bench.ts'
import { demonstration, fitEngine } from './stations.ts'

const engine = (): Bench => bench(fitEngine())

test('an element is tagged in the officer’s own words, and its tag lifted on a stated basis', () => {
  const board = engine().press({ type: 't' }).pick('helmet', 'own words')
  board.write('visor cracked').pick('safety').press('enter')
  expect(board.last()).toBe('element-tagged')
  expect(board.state.elements.get('HE-1')!.tags[0]!.reason).toBe('visor cracked')
  board.press({ type: 'u' }).pick('he1').write('new visor fitted and inspected by A. Varga').press('enter')
  expect(board.last()).toBe('tag-lifted')
})

test('an element that is not at the riding position is tagged by typing part of its id, without the dash', () => {
  const board = engine().press({ type: 't' }).pick('another', 'ho2', 'hole').pick('safety').press('enter')
  expect(board.state.elements.get('HO-2')!.tags).toHaveLength(1)
})

test('a spare coat goes in as one assembly, and the ladder can ride', () => {
  const board = bench(demonstration()).press('tab', 'down', 'down', { type: 's' }, 'enter', 'enter', 'enter')
  expect(board.pressed).toBe(7)
  expect(board.events.map((event) => event.type)).toEqual(Array.from({ length: 3 }, () => 'element-swapped'))
  expect(board.view.row).toMatchObject({ seat: 'L9-3', fit: true })
  expect(board.view.rig!.canRide).toBe(true)
})

test('the member’s own element is given back once its tag is lifted', () => {
  const spare = { do: 'add-element', element: { id: 'HE-9', kind: 'helmet', made: '2024-05' } } as const
  const board = bench(fitEngine(spare, tags('HE-1')))
    .press({ type: 's' })
    .pick('helmet', 'he9')
    .press('enter')
  expect(board.last()).toBe('element-swapped')
  board.press({ type: 'b' }, 'enter')
  expect(board.text()).toContain('Helmet HE-1 is still out of service: torn seam. Lift its tag first.')
  expect(board.press('enter').last()).toBe('element-swapped')
  board.press('escape', 'escape', { type: 'u' }, 'enter').write('inspected, sound').press('enter')
  board.press({ type: 'b' }, 'enter', 'enter')
  expect(board.last()).toBe('swap-reversed')
})

test('the pressure of the cylinder is recorded as the gauge reads', () => {
  const board = engine().press({ type: 'p' }).write('4350').press('enter')
  expect(board.events).toMatchObject([{ type: 'pressure-read', data: { element: 'CY-1', psi: 4350 } }])
})

test('a whole crew is exposed in one act, and their gear goes for cleaning', () => {
  const board = engine().press({ type: 'e' }).pick('whole crew', 'products').write('26-0412').press('enter')
  expect(board.events).toMatchObject([
    { type: 'exposure-recorded', data: { seats: ['E6-1', 'E6-2'], incident: '26-0412' } },
  ])
  board.press({ type: 'w' }).pick('all that is', 'advanced cleaning').write('North Wash').press('enter')
  expect(board.last()).toBe('elements-sent-away')
  expect(board.state.elements.get('CS-1')!.custody.where).toBe('away')
})

test('one riding position alone is exposed, and the incident may stay empty', () => {
  const board = engine().press({ type: 'e' }).pick('E6-1', 'water').press('enter', 'enter')
  expect(board.events).toMatchObject([{ type: 'exposure-recorded', data: { seats: ['E6-1'] } }])
})

test('a care that was done is recorded with its day, its result and by whom', () => {
  const board = engine().press({ type: 'k' }).pick('gloves', 'advanced cleaning').write('2026-11-20')
  board.pick('serviceable').write('North Wash').press('enter')
  expect(board.events).toMatchObject([
    { type: 'care-recorded', data: { element: 'GL-1', on: '2026-11-20', result: 'serviceable' } },
  ])
})

test('one element is sent away and received back', () => {
  const board = engine().press({ type: 'w' }).pick('hood', 'repair').write('North Wash').press('enter')
  expect(board.last()).toBe('elements-sent-away')
  board.press({ type: 'v' }).pick('ho1').press('enter')
  expect(board.last()).toBe('elements-received-back')
})

test('a fit test is recorded for the member with the facepiece they have', () => {
  const board = engine().press({ type: 'j' }, 'enter', 'enter', 'enter').pick('passed').press('enter')
  expect(board.events).toMatchObject([
    { type: 'fit-test-recorded', data: { member: 'M-104', facepiece: { model: 'Clear Two', size: 'M' } } },
  ])
})

test('an element is taken back for good, hangs on the rack, and is issued again', () => {
  const board = engine().press({ type: 'y' }).pick('boots').press('enter')
  expect(board.last()).toBe('element-returned')
  board.press({ type: 'i' }).pick('boots', 'bo1').press('enter')
  expect(board.last()).toBe('element-issued')
  expect(board.state.elements.get('BO-1')!.issuedTo).toBe('M-104')
})

test('an element is retired with its reason and how it is disposed of', () => {
  const board = engine()
    .press({ type: 'z' })
    .pick('hood')
    .write('ten years old')
    .write('cut up')
    .press('enter')
  expect(board.last()).toBe('element-retired')
})

test('gear of an injured member is held as evidence', () => {
  const board = engine()
    .press({ type: 'd' })
    .pick('coat shell')
    .write('member injured at 26-0412')
    .press('enter')
  expect(board.last()).toBe('element-held')
})
