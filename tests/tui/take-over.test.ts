// Taking over: whose turn it is, who rides by which right, early relief, and a member detailed in with their own gear.
import { describe, expect, test } from 'vitest'
import { NOW, type Told } from '../domain/given.ts'
import { bench, type Bench } from './bench.ts'
import { demonstration, fitEngine, nobodySeated } from './stations.ts'

const OTHERS: Told[] = [
  { do: 'add-member', member: { id: 'M-300', name: 'C. Lark', platoon: 'C' } },
  { do: 'add-member', member: { id: 'M-301', name: 'D. Wren', platoon: 'C' } },
]
const inHand = (board: Bench) => board.screen().find((line) => line.startsWith(' > '))
const later = (...more: Told[]): Bench =>
  bench({ ...fitEngine(...OTHERS, ...more), at: NOW.replace('24T07', '25T06') })

describe('somebody of another platoon', () => {
  test.each([
    ['on a trade', 'trade'],
    ['on overtime', 'overtime'],
    ['detailed in', 'detail'],
  ])('rides %s, and the books and the board say so', (words, as) => {
    const board = bench(fitEngine(...OTHERS))
      .press('end', { type: 'm' })
      .pick('lark')
    expect(board.text()).toContain('C. Lark is of platoon C. How do they come to ride?')
    board.pick(words).press('enter')
    expect(board.events).toMatchObject([{ type: 'member-seated', data: { member: 'M-300', as } }])
    expect(board.text()).toContain(`C. Lark (M-300), ${words}`)
    expect(board.state.ridingLists.get('B')!.has('E6-3')).toBe(false)
  })
  test('may ride without a word said of it', () => {
    const board = bench(fitEngine(...OTHERS))
      .press('end', { type: 'm' })
      .pick('lark', 'none')
      .press('enter')
    expect(board.events[0]!.data).not.toHaveProperty('as')
  })
})

describe('the first tour of a station', () => {
  const first = () => bench(nobodySeated()).press({ type: 'o' })
  test('claims no turn of the rotation: nobody has said yet whose it is', () => {
    expect(first().text()).toContain('Which platoon comes on duty?')
    expect(first().text()).not.toContain('its turn')
  })
  test('has seating the crew for its next step while nobody rides, and then the roll call', () => {
    const board = first().press('enter', 'enter', 'enter')
    expect(board.last()).toBe('tour-opened')
    expect(board.text()).toContain('is open. m seats the crew.')
    expect(board.text()).toContain('Roll call: nobody is seated. Press m to seat the crew.')
    expect(board.press('down').screen().at(-1)).toMatch(/^ m seat {2}r roll call/)
    board.press({ type: 'm' }, 'enter', 'enter')
    expect(board.last()).toBe('member-seated')
    expect(board.text()).toContain('Roll call not complete: 0 of 1 answered.')
    expect(board.press('down').screen().at(-1)).toMatch(/^ r roll call/)
  })
})

describe('early relief', () => {
  test('an hour before the tour ends the platoon that comes on is proposed, seat by seat, and no reason asked', () => {
    const board = later().press({ type: 'm' })
    expect(inHand(board)).toContain('C. Lark')
    board.press('enter')
    expect(board.text()).toContain('A. Varga is relieved.')
    board.press('enter')
    expect(board.events).toMatchObject([{ data: { member: 'M-300', relieves: 'M-104' } }])
    expect(board.state.ridingLists.get('B')!.get('E6-1')).toBe('M-104')
  })
  test('before that hour the platoon on duty comes first', () => {
    const free: Told = { do: 'add-member', member: { id: 'M-400', name: 'Z. Free', platoon: 'B' } }
    const board = bench(fitEngine(...OTHERS, free)).press('end', { type: 'm' })
    expect(inHand(board)).toContain('Z. Free')
  })
})

test('the hand-over says who is due next by the rotation and when, and has their officers first', () => {
  const chief: Told = { do: 'add-member', member: { id: 'M-9', name: 'A. Aas', rank: 'Chief', platoon: 'B' } }
  const lead: Told = {
    do: 'add-member',
    member: { id: 'M-302', name: 'Z. Lead', rank: 'Captain', platoon: 'C' },
  }
  const board = bench(fitEngine(...OTHERS, chief, lead)).type('h')
  expect(board.text()).toContain('Hand over to whom? Platoon C is due next, on 25 Nov 2026 at 07:00.')
  expect(inHand(board)).toContain('Z. Lead (M-302)')
})

test('after a tour was handed over early the platoon that relieves it is proposed, not the same one again', () => {
  const board = bench(fitEngine(...OTHERS, { do: 'hand-over', to: 'M-300' })).type('o')
  expect(inHand(board)).toMatch(/Platoon C .*its turn by the 24\/48 rotation/)
})

test('once a tour is open, what was left open is offered, and a held Enter takes nothing of it', () => {
  const ended = bench(demonstration()).press({ type: 'h' }, 'enter', 'down', 'enter', 'enter')
  ended.press({ type: 'o' }, 'enter', 'enter', 'enter')
  expect(ended.text()).toMatch(/Open item 1 of \d+ not yet acknowledged/)
  const before = ended.events.length
  ended.press('enter', 'enter', 'enter')
  expect(ended.events).toHaveLength(before)
  expect(ended.text()).toMatch(/nobody has taken it on/i)
  expect(ended.press('down', 'enter', 'end', 'enter', 'enter').last()).toBe('item-acknowledged')
})

describe('a member detailed in', () => {
  const LINES: [kind: string, line: string][] = [
    ['coat shell', 'C-501 44x32 2022-03 1971-2018'],
    ['coat liner', 'L-501 44x32 2022-03'],
    ['drag', 'D-501 44x32 2022-03'],
    ['trouser shell', 'T-501 36x30 2022-03'],
    ['trouser liner', 'U-501 36x30 2022-03'],
    ['helmet', 'H-501 2023-01'],
    ['hood', 'K-501 2024-05'],
    ['gloves', 'G-501 76W 2024-05'],
    ['boots', 'B-501 11D 2023-08'],
    ['facepiece', 'F-501 M 2022-02 Clear Two'],
  ]
  const sheet = (): Bench =>
    bench(fitEngine())
      .press('end', { type: 'm' })
      .pick('not on')
      .write('D. Ilvane')
      .write('M-501')
      .write('coat 44x32, trousers 36x30, gloves 76W, boots 11D, facepiece M')
  const brings = (board: Bench, lines = LINES): Bench => {
    for (const [kind, line] of lines) board.pick(kind).write(line)
    return board.pick('that is all')
  }

  test('rides with their own gear: every line is an element of theirs, and what its record says is recorded', () => {
    const board = brings(sheet())
      .pick('yes')
      .write('2026-06-01')
      .write('2026-09-01')
      .write('2026-06-01')
      .write('2026-05-01')
    expect(board.text()).toContain('D. Ilvane may not ride')
    board.press('enter')
    expect(board.events[0]).toMatchObject({ type: 'member-added', data: { member: { id: 'M-501' } } })
    expect(board.last()).toBe('member-seated')
    for (const [, line] of LINES) {
      expect(board.state.elements.get(line.split(' ')[0]!)).toMatchObject({ issuedTo: 'M-501' })
    }
    expect(board.state.elements.get('L-501')).toMatchObject({ assembly: 'C-501', made: '2022-03' })
    // The riding position has no air pack and no cylinder; everything that is theirs is ready.
    const row = board.view.rows.find((each) => each.member === 'M-501')!
    expect(row.reasons.map((each) => each.kind).toSorted()).toEqual(['air-pack', 'cylinder'])
  })

  test('what is not known is unproven, never presumed', () => {
    const board = brings(sheet(), [['hood', 'K-501']])
      .write('')
      .write('')
      .press('enter')
    const hood = board.view.rows
      .find((each) => each.member === 'M-501')!
      .places.find((each) => each.element === 'K-501')
    expect(hood!.state).toBe('unproven')
    expect(board.state.elements.get('K-501')!.cares).toEqual([])
  })

  const stateOf = (board: Bench, element: string) =>
    board.view.rows.find((each) => each.member === 'M-501')!.places.find((each) => each.element === element)

  test('its care is unproven too, not expired, where only the month of its label is known', () => {
    const board = brings(sheet(), [['helmet', 'H-501 2025-11']])
      .write('2026-06-01')
      .write('')
      .press('enter')
    expect(stateOf(board, 'H-501')).toMatchObject({
      state: 'unproven',
      text: 'it has no advanced cleaning on record',
    })
    expect(board.state.elements.get('H-501')!.inService).toBeUndefined()
  })

  test('what is so new that no first limit can have fallen yet needs no care on record', () => {
    const board = brings(sheet(), [['helmet', 'H-501 2026-09']])
      .write('')
      .write('')
      .press('enter')
    expect(stateOf(board, 'H-501')!.state).toBe('ready')
  })

  test('a scan fills in the id, and only a key takes it', () => {
    const board = sheet().pick('hood').press({ scan: 'K-501' })
    expect(board.ui).toMatchObject({
      screen: 'sheet',
      text: 'K-501',
      message: { text: 'Read. Enter takes it.' },
    })
    expect(board.press('enter').text()).toContain('K-501')
    expect(board.events).toEqual([])
  })

  test.each([
    ['HE-1', 'HE-1 is already the helmet HE-1.'],
    ['M-501', 'M-501 is named already.'],
    ['K/501', 'K/501 is not an id: letters, digits, "-", "_" and ".".'],
  ])('an id that cannot be theirs is refused as it is written: %s', (line, words) => {
    expect(sheet().pick('hood').write(line).ui.message!.text).toBe(words)
  })

  test('a size that cannot be read says how it is written', () => {
    const board = bench(fitEngine())
      .press('end', { type: 'm' })
      .pick('not on')
      .write('D. Ilvane')
      .write('M-501')
    expect(board.write('44x32').ui.message!.text).toBe(
      '"44x32" is not a size. Write it as: coat 44x32, boots 11D.',
    )
  })

  test('Esc takes back line by line, and nothing was recorded', () => {
    const board = sheet().pick('hood').write('K-501')
    expect(board.press('escape').text()).toContain('Hood: its id')
    for (let press = 0; press < 6; press += 1) board.press('escape')
    expect(board.ui.screen).toBe('board')
    expect(board.events).toEqual([])
  })
})

test('whoever took the last tour over is proposed first as it is opened, with their platoon, whatever the rotation says', () => {
  const taker: Told = {
    do: 'add-member',
    member: { id: 'M-500', name: 'Y. Early', rank: 'Lieutenant', platoon: 'D' },
  }
  const captain: Told = {
    do: 'add-member',
    member: { id: 'M-501', name: 'A. First', rank: 'Captain', platoon: 'D' },
  }
  const board = bench(fitEngine(...OTHERS, taker, captain, { do: 'hand-over', to: 'M-500' })).type('o')
  expect(inHand(board)).toMatch(/Platoon D .*Y\. Early took over/)
  board.press('enter')
  expect(inHand(board)).toContain('Y. Early')
})
