// The roll call: each riding position is called, its cylinder read, and the next one comes in hand by itself.
import { describe, expect, test } from 'vitest'
import { reads, tags } from '../domain/fit-crew.ts'
import type { Told } from '../domain/given.ts'
import { settle, type Submit } from '../../src/tui/ui-state.ts'
import { update } from '../../src/tui/update.ts'
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
  expect([board.ui.screen, board.view.row!.seat, board.ui.gauge]).toEqual(['roll-call', 'E6-2', ''])
  expect(board.ui.message!.text).toBe('Officer A. Varga answered.')
})

test('with the last answer the roll call is complete, says so and returns to the board', () => {
  const board = unread().type('4400').press('enter').type('4450').press('enter')
  expect(board.ui).toMatchObject({
    screen: 'board',
    message: { text: 'Roll call complete: 2 of 2 answered.' },
  })
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
  expect(board.ui.gauge).toBe('4400')
  expect(board.press('escape').ui).toMatchObject({ gauge: '', screen: 'roll-call' })
  expect(board.press('escape').ui.screen).toBe('board')
})

test('up and down go to others who are seated', () => {
  const board = unread().press('down')
  expect(board.view.row!.seat).toBe('E6-2')
  expect(board.press('down').view.row!.seat).toBe('E6-2')
  expect(board.press('up').view.row!.seat).toBe('E6-1')
})

describe('a pressure that was typed is never lost without a word', () => {
  const toFinding = ['enter', 'enter', 'enter'] as const
  const kept = { screen: 'roll-call', gauge: '3900', seat: 'E6-1' }

  test.each([
    ['up', 'up'],
    ['down', 'down'],
    ['r', { type: 'r' }],
  ] as const)('%s stays until it is recorded or taken away, and says so', (_, key) => {
    const board = unread().press({ type: '3900' }, key)
    expect(board.ui).toMatchObject({
      ...kept,
      message: { text: '3900 psi is typed and not recorded yet: Enter records it, Esc takes it away.' },
    })
  })
  test('a stays too, once everybody has answered', () => {
    const board = bench(fitEngine()).press({ type: 'r' }, 'enter', 'enter', { type: 'r3900a' })
    expect(board.ui).toMatchObject({ ...kept, again: null })
  })
  test('Esc takes it away and says that it was not recorded', () => {
    const board = unread().press({ type: '3900' }, 'escape')
    expect(board.ui).toMatchObject({ screen: 'roll-call', message: { text: '3900 psi was not recorded.' } })
  })
  test('? then Esc says it too', () => {
    expect(unread().type('3900?').ui).toMatchObject(kept)
    expect(unread().press({ type: '3900?' }, 'escape').text()).toContain('3900 psi was not recorded.')
  })
  test('it is recorded with the finding that f then makes, and the last look says so and what follows', () => {
    const board = unread().press({ type: '3900f' }, ...toFinding)
    expect(board.events).toEqual([])
    expect(board.text()).toContain('Cylinder CY-1 reads 3900 psi: that is recorded with it.')
    expect(board.text()).toContain('3900 psi of 4500 is low: the cylinder is out of service.')
    board.press('enter')
    expect(board.events).toMatchObject([
      { type: 'pressure-read', data: { element: 'CY-1', psi: 3900 } },
      { type: 'seat-answered', data: { seat: 'E6-1' } },
    ])
    expect(board.ui).toMatchObject({ screen: 'roll-call', seat: 'E6-1', gauge: '' })
    expect(board.ui.message!.text).toMatch(/^Tagged TS-1 out of service\. Read 3900 psi on CY-1\./)
  })
  test('a finding that is given up, at any step, leaves it typed', () => {
    for (let steps = 0; steps <= toFinding.length; steps += 1) {
      const board = unread().press({ type: '3900f' }, ...toFinding.slice(0, steps))
      for (let back = 0; back <= steps; back += 1) board.press('escape')
      expect(board.ui).toMatchObject(kept)
    }
  })
  test('what is no pressure is not taken along by a finding', () => {
    const board = unread().type('99999f')
    expect(board.ui).toMatchObject({ screen: 'roll-call', gauge: '99999' })
    expect(board.ui.message!.text).toMatch(/^99999 is not a pressure/)
  })
  test('a scan and its card leave it typed', () => {
    expect(unread().press({ type: '3900' }, { scan: 'CY-1' }, 'escape').ui).toMatchObject(kept)
  })
  test('a refusal leaves it typed', () => {
    const { ui, effect } = update(unread().type('4400').ui, { key: 'enter' }, unread().view)
    expect(settle(ui, effect as Submit, 'The disk is full.')).toMatchObject({ gauge: '4400' })
    expect(settle(ui, effect as Submit, undefined)).toMatchObject({ gauge: '' })
  })
  test('it is recorded for its cylinder even if the member has left the riding position meanwhile', () => {
    const left = bench(house(opens, seats[1]), { ui: { screen: 'roll-call', seat: 'E6-1', gauge: '4400' } })
    left.press('enter')
    expect(left.events).toMatchObject([{ type: 'pressure-read', data: { element: 'CY-1', psi: 4400 } }])
  })
  test('if the tour was handed over meanwhile, it is said not to be recorded', () => {
    const board = bench(house(), { ui: { screen: 'roll-call', seat: 'E6-1', gauge: '4400' } }).press('enter')
    expect(board.ui.message!.text).toBe('No tour is open any more. 4400 psi was not recorded.')
  })
})

test('a low pressure that was recorded is not called to be read', () => {
  const board = unread().press({ type: '3900' }, 'enter', 'enter', 'up')
  expect(board.text()).toContain('Cylinder CY-1, rated 4500, read 3900 psi: ____')
})

test('after a finding r goes to the next that has not answered, past those that have', () => {
  const board = bench(demonstration(), { ui: { seat: 'L9-2' } }).press(
    { type: 'rf' },
    'enter',
    'enter',
    'enter',
    'enter',
  )
  expect([board.last(), board.view.row!.seat]).toEqual(['seat-answered', 'L9-2'])
  const answered = ['L9-3', 'L9-4'].map((each) => board.state.tour!.answers.has(each))
  expect(answered).toEqual([true, true])
  expect(board.press({ type: 'r' }).view.row!.seat).toBe('L9-6')
  expect(board.events).toHaveLength(1)
})

test('a finding at roll call answers the position and stays at the roll call', () => {
  const board = bench(fitEngine()).press({ type: 'r' }, { type: 'f' }, 'enter', 'enter', 'enter', 'enter')
  expect(board.last()).toBe('seat-answered')
  expect(board.ui.screen).toBe('roll-call')
})

test('a finding at roll call says when its spare goes in, and the keys of the roll call stay in sight', () => {
  const board = bench(fitEngine()).press({ type: 'r' }, { type: 'f' }, 'enter', 'enter', 'enter', 'enter')
  expect(board.screen().slice(-2)).toEqual([
    ' Tagged TS-1 out of service. After the roll, s on the board puts a spare in.',
    ' r next to answer  f adds a finding  digits: psi  up, down others  Esc leaves',
  ])
})

test('after an answer the keys and what to look at on each element stay in sight', () => {
  const board = unread().type('4400').press('enter')
  expect(board.text()).toContain('   On each of them: soiling, contamination, wet, label missing or not\n')
  expect(board.screen().slice(-2)).toEqual([
    ' Officer A. Varga answered.',
    ' type the pressure, then Enter   f finding   up, down others   Esc leaves',
  ])
})

test('words that name no point of the list are not typed twice: they stand where they are written', () => {
  const board = bench(fitEngine()).press({ type: 'rf' }, 'enter', { type: 'chewed by the dog' }, 'enter')
  expect(board.text()).toContain(' > chewed by the dog')
  board.press('enter').pick('safety').press('enter')
  expect(board.events).toMatchObject([
    { type: 'seat-answered', data: { findings: [{ point: 'chewed by the dog' }] } },
  ])
})

test('letters that only find the line for own words are not taken for them', () => {
  const board = bench(fitEngine()).press({ type: 'rf' }, 'enter', { type: 'own words' }, 'enter')
  expect(board.ui.text).toBe('')
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

const psi = (text: string): Bench => bench(fitEngine()).press({ type: 'r' }, { type: text }, 'enter')

test.each([
  // 4050 is 90 % of 4500 and is low: 29 CFR 1910.134(h)(3)(iii). 4950 is 10 % over it.
  [
    '4050',
    '4050 psi of 4500 is low: Enter again records it and the cylinder is out of service; or type it anew.',
  ],
  // 4100 x 294.26 / 316.45 = 3813: what was filled hot is low once it has cooled.
  [
    '4100 110F',
    '4100 psi at 43.3 C is about 3813 once it has cooled, and that is low for 4500: Enter again records it and the cylinder is unproven until it is read again; or type it anew.',
  ],
  [
    '4951',
    '4951 psi is more than 10% over the rated 4500: Enter again records it and the cylinder is unproven until it is read again; or type it anew.',
  ],
])('%s psi is not recorded at the first Enter, and the second records it once', (text, words) => {
  const board = psi(text)
  expect(board.events).toEqual([])
  expect(board.ui.message!.text).toBe(words)
  expect(board.screen().at(-1)).toContain(' Enter records it all the same  f finding')
  expect(board.text()).not.toContain('all serviceable')
  board.press('enter')
  expect(board.events).toMatchObject([
    { type: 'pressure-read', data: { psi: Number.parseInt(text, 10) } },
    { type: 'seat-answered', data: { seat: 'E6-1' } },
  ])
})

test.each(['4051', '4950'])('%s psi raises no doubt and is recorded at once', (text) => {
  expect(psi(text).events.map((event) => event.type)).toEqual(['pressure-read', 'seat-answered'])
})

test('after a doubtful reading the digits typed are the reading anew', () => {
  const board = psi('200').type('4400')
  expect(board.ui.gauge).toBe('4400')
  expect(board.press('enter').events[0]).toMatchObject({ type: 'pressure-read', data: { psi: 4400 } })
})

test('while a doubtful reading is asked about no key is said to find all serviceable', () => {
  expect(psi('900').type('x').ui.message!.text).toMatch(/^Enter answers: nothing more found\./)
  expect(psi('900').type('4400').screen().at(-1)).toContain('Enter all serviceable')
})

test('a doubt is forgotten with a digit taken back, another riding position, or Esc', () => {
  expect(psi('2000').press('backspace', 'enter').events).toEqual([])
  expect(psi('200').press('escape', 'down', { type: '200' }, 'enter').events).toEqual([])
  expect(psi('200').press('escape', { type: '200' }, 'enter').events).toEqual([])
})

test('of a riding position that may not ride Enter says that nothing more is found, not that all is serviceable', () => {
  const sound = bench(fitEngine()).type('r').screen().at(-1)
  const tagged = bench(fitEngine(tags('HE-1')))
    .type('r')
    .screen()
    .at(-1)
  expect(sound).toContain('Enter all serviceable')
  expect(tagged).toContain('Enter nothing more found')
})

test('a cylinder that only has to be read does not take serviceable away once it is typed', () => {
  expect(unread().type('4400').screen().at(-1)).toContain('Enter all serviceable')
})

test('the key line keeps Esc in sight at 80 columns, whatever it says', () => {
  const boards = [
    unread(),
    unread().type('4400'),
    bench(fitEngine()).type('r'),
    bench(fitEngine(tags('HE-1'))).type('r'),
    bench(fitEngine()).press({ type: 'r' }, 'enter', 'up'),
  ]
  for (const board of boards) expect(board.screen().at(-1)).toMatch(/Esc (leaves|takes the pressure away)$/)
})

test('where there is not room for every reason, the worst is told before the others', () => {
  const exposed: Told = {
    do: 'record-exposure',
    exposure: 'products-of-combustion',
    incident: 'county road',
    elements: ['GL-1'],
  }
  const board = bench(house(opens, ...seats, exposed)).press({ type: 'r' }, { type: '4400' })
  const text = board.text().replaceAll(/\s+/g, ' ')
  expect(text).toContain('on 24 Nov 2026, needs advanced cleaning')
  expect(text).toContain('△ due: first routine inspection within 1 mo…')
  expect(board.screen()).toHaveLength(23)
})

test('a finding leaves the gauge to be read, and Enter says so', () => {
  const board = unread().press({ type: 'f' }, 'enter', 'enter', 'enter', 'enter', 'enter')
  expect(board.ui.message!.text).toContain('Read the gauge of cylinder CY-1')
  board.type('4400').press('enter')
  expect(board.events.map((each) => each.type)).toEqual(['seat-answered', 'pressure-read'])
})

test('a cylinder that is away is not asked for, and digits typed for it say why', () => {
  const away: Told = { do: 'send-away', elements: ['CY-1'], to: 'Harbour Hydro', for: 'hydrostatic-test' }
  const board = bench(house(opens, ...seats, away)).type('r')
  const why = 'Cylinder CY-1 is away at Harbour Hydro for hydrostatic test: its gauge cannot be read.'
  expect(board.text()).toContain(why)
  expect(board.text()).not.toContain('____')
  board.type('4400').press('enter')
  expect(board.ui.message!.text).toBe(`${why} Backspace takes the digits away.`)
  expect(board.events).toEqual([])
  board.press('backspace', 'backspace', 'backspace', 'backspace', 'enter')
  expect(board.last()).toBe('seat-answered')
})

test('what is missing is said once, not twice', () => {
  const away: Told = { do: 'send-away', elements: ['HO-1'], to: 'North Wash', for: 'repair' }
  const board = bench(fitEngine(away)).type('r')
  expect(board.text().replaceAll(/\s+/g, ' ')).toContain('□ missing, it is away at North Wash for repair')
  expect(board.text()).not.toMatch(/missing: /i)
  expect(board.press('escape', 'enter').text()).toContain('□ Hood HO-1: missing, it is away')
})

test('gear is called in the order it is put on, and what goes on as one is called as one', () => {
  const called = bench(fitEngine())
    .type('r')
    .screen()
    .flatMap((line) => /^ (\d| ) (\w[\w ]+?) {2,}\w+-1( |$)/.exec(line)?.slice(1, 3).join(' ') ?? [])
  expect(called).toEqual([
    '1 Trouser shell',
    '  Trouser liner',
    '2 Boots',
    '3 Hood',
    '4 Coat shell',
    '  Coat liner',
    '  Drag rescue device',
    '5 Helmet',
    '6 Gloves',
    '7 Facepiece',
    '8 Air pack',
    '9 Cylinder',
  ])
})

describe('a cold cylinder', () => {
  test.each([
    ['4200 14F', { psi: 4200, celsius: -10 }],
    ['4200 -10C', { psi: 4200, celsius: -10 }],
    ['4200', { psi: 4200 }],
  ])('%s is read with its temperature where one is given', (text, data) => {
    expect(psi(text).events[0]).toMatchObject({ type: 'pressure-read', data })
  })
  test('what is typed is shown, and f after a space is Fahrenheit, not a finding', () => {
    const board = bench(fitEngine()).press({ type: 'r' }, { type: '4200 14f' })
    expect(board.ui).toMatchObject({ screen: 'roll-call', gauge: '4200 14f' })
    expect(board.text()).toContain(': 4200 14f')
  })
  test('is said in words where it is typed, and as it was typed once it is recorded', () => {
    expect(unread().type('4').text()).toContain(
      'If it is cold, add its temperature: 4100 14F is 4100 psi at 14 Fahrenheit.',
    )
    const board = bench(fitEngine()).press({ type: 'r' }, 'enter', 'up', { type: '4200 14f' }, 'enter')
    expect(board.ui.message!.text).toBe('Read 4200 psi at 14 F (-10 C) on CY-1.')
  })
  test('a temperature that no station has is not taken, and one without its scale neither', () => {
    expect(psi('4200 200F').ui.message!.text).toMatch(/^93.3 C is no temperature/)
    expect(psi('4200 14').ui.message!.text).toMatch(/^4200 14 is not a pressure/)
  })
})

describe('the roll called again', () => {
  const SPARE: Told = { do: 'add-element', element: { id: 'HE-9', kind: 'helmet', made: '2024-05' } }
  const all = (): Bench => bench(fitEngine(SPARE)).press({ type: 'r' }, 'enter', 'enter')

  test('calls those whose gear has changed since they answered, and says which', () => {
    const board = all()
      .press('home', { type: 't' })
      .pick('helmet')
      .pick('crack')
      .pick('safety')
      .press('enter')
    board.press({ type: 's' }, 'enter', 'enter')
    expect(board.last()).toBe('element-swapped')
    expect(board.text()).toContain('Gear has changed since they answered: A. Varga. r calls them again.')
    board.type('r')
    expect(board.ui.message!.text).toBe(
      'Called again: 1 whose gear has changed since. a calls everybody again.',
    )
    expect(board.text()).toMatch(/Helmet +HE-9 +not called yet/)
    board.press('enter')
    expect(board.ui).toMatchObject({
      screen: 'board',
      message: { text: 'Roll call complete: 1 called again and answered.' },
    })
    expect(board.text()).not.toContain('changed since')
    expect(board.events.at(-1)).toMatchObject({ type: 'seat-answered', data: { seat: 'E6-1' } })
  })

  test('where nothing has changed calls nobody, until a calls everybody', () => {
    const board = all().type('r')
    expect(board.ui.message!.text).toContain('Everybody has answered and no gear has changed since.')
    const before = board.events.length
    expect(board.press('enter').events).toHaveLength(before)
    board.press({ type: 'a' }, 'enter', 'enter')
    expect(board.events.slice(before).map((each) => each.type)).toEqual(['seat-answered', 'seat-answered'])
    expect(board.ui.screen).toBe('board')
  })

  test('is taken up again where it was interrupted', () => {
    const board = all().press({ type: 'ra' }, 'enter', 'escape', { type: 'r' })
    expect(board.view.row!.seat).toBe('E6-2')
    expect(board.text()).toContain('B. Okoro is called again')
    expect(board.press('enter').ui.screen).toBe('board')
  })
})
