// The plan on the glass: what goes in where and why, taken whole or swap by swap, and never more than was confirmed.
import { describe, expect, test } from 'vitest'
import { startLoop } from '../../src/tui/board-loop.ts'
import type { Desk } from '../../src/tui/desk.ts'
import type { Plan } from '../../src/domain/plan/plan.ts'
import type { Planning } from '../../src/tui/planning.ts'
import { openSession } from '../../src/session.ts'
import { LADDER } from '../domain/plan/ladder.ts'
import { garment, tags } from '../domain/fit-crew.ts'
import { bench, SMALL } from './bench.ts'
import { drawn, kept } from './golden.ts'
import { keptInMemory } from './kept-in-memory.ts'
import { demonstration, fitEngine, nobodySeated } from './stations.ts'

/** The officer's helmet and boots and the driver's boots are out; the rack has a helmet and one pair of boots. */
const short = () =>
  fitEngine(tags('HE-1'), tags('BO-1'), tags('BO-2'), ...garment('helmet', '9'), ...garment('boots', '9'))

const SIZES = [SMALL, { columns: 120, rows: 40 }]

describe.each([
  ['plan', demonstration],
  ['plan-of-a-small-rack', short],
] as const)('%s', (name, station) => {
  test.each(SIZES)('at $columns x $rows', async (size) => {
    const board = await bench(station(), { size }).type('g').planned()
    const now = drawn(board, size)
    expect(now).toEqual(kept(name, now, size))
  })
})

test('the whole plan is taken by a and a last look, and then nobody is unfit', async () => {
  const board = await bench(demonstration()).type('g').planned()
  board.press({ type: 'a' })
  expect(board.ui).toMatchObject({ screen: 'sheet', action: 'take-plan' })
  expect(board.events).toEqual([])
  board.press('enter')
  expect(board.commands.map((each) => each.do)).toEqual(Array.from({ length: 10 }, () => 'swap'))
  expect(board.view.rows.filter((each) => each.member !== null && !each.fit)).toEqual([])
  expect(board.ui.screen).toBe('plan')
})

test('a held Enter takes no swap of the plan', async () => {
  const board = await bench(short()).type('g').planned()
  board.press('enter', 'enter', 'enter')
  expect(board.events).toEqual([])
  expect(board.ui.message?.text).toBe('a takes all, s takes the swap in hand.')
})

test('one swap is taken by s and a last look, and nothing else with it', async () => {
  const board = await bench(short()).type('g').planned()
  board.press('down', { type: 's' }, 'enter')
  expect(board.commands).toEqual([
    { do: 'swap', by: 'M-104', seat: 'E6-1', in: 'BO-9', out: 'BO-1', reason: 'tagged, torn seam' },
  ])
  expect(board.ui.screen).toBe('plan')
})

test('what stays unfit is not a swap to be taken, and says what is short', async () => {
  const board = await bench(short()).type('g').planned()
  board.press('down', 'down', { type: 's' })
  expect(board.ui.message?.text).toBe('No swap is in hand. Move to one, or a takes them all.')
  expect(board.text()).toContain('2 members (A. Varga, B. Okoro) can wear only boots BO-9.')
})

test('a plan that the books have left behind is not taken', async () => {
  const board = await bench(short()).type('g').planned()
  const plan = board.ui.plan
  const later = bench(
    { ...short(), state: { ...board.state, seq: board.state.seq + 1 } },
    { ui: { screen: 'plan', plan } },
  )
  expect(later.type('a').text()).toContain('The plan is old.')
  expect(later.press('enter').events).toEqual([])
})

test('Esc goes back to the board, from the plan and from a plan still on its way', async () => {
  expect(bench(short()).type('g').press('escape').ui).toMatchObject({ screen: 'board', plan: null })
  const board = await bench(short()).type('g').planned()
  expect(board.press({ type: 'a' }, 'escape').ui.screen).toBe('plan')
  expect(board.press('escape').ui.screen).toBe('board')
})

test('with nobody seated, no tour or nobody unfit it says so and takes nothing', async () => {
  const says = async (station: ReturnType<typeof fitEngine>) =>
    (await bench(station).type('g').planned()).type('a')
  expect((await says(fitEngine())).text()).toContain(
    'Everybody who is seated is fit to ride. There is nothing to plan.',
  )
  expect((await says(nobodySeated())).text()).toContain('No tour is open, so no spare can be put in.')
})

test('where nothing goes in there is nothing but the reasons: no rows of noughts, and nothing to take', async () => {
  const board = await bench(fitEngine(tags('HE-1')))
    .type('g')
    .planned()
  expect(board.text()).toContain('The rack has no spare helmet.')
  expect(board.text()).not.toMatch(/How it was judged|\b0 /)
  expect(board.type('a').ui.screen).toBe('plan')
})

test('changes of seat are a proposal of their own, taken by m once no swap is left', async () => {
  const station = () => fitEngine(...LADDER, tags('HE-2'))
  const board = await bench(station()).type('g').planned()
  expect(board.text()).toContain('Apart from that: One change of seat lets Engine 6 ride too')
  board.press({ type: 'm' }, 'enter')
  expect(board.commands.map((each) => each.do)).toEqual([
    'clear-seat',
    'clear-seat',
    'seat-member',
    'seat-member',
  ])
  expect(board.view.board.rigs.every((each) => each.canRide)).toBe(true)
  const swapsLeft = await bench(fitEngine(...LADDER, tags('HE-2'), tags('BO-3'), ...garment('boots', '9')))
    .type('g')
    .planned()
  expect(swapsLeft.press({ type: 'm' }).ui.message?.text).toBe(
    'The changes of seat stand on the swaps: take these first.',
  )
})

describe('while it is worked out', () => {
  /** A board whose plans come when they are let to. */
  function slowBoard() {
    const { state, at } = short()
    const session = openSession(keptInMemory(state), () => Date.parse(at))
    const begun: {
      seq: number
      settle: (plan: Plan) => void
      fail: (why: string) => void
      isGivenUp: boolean
    }[] = []
    const desk: Desk = {
      newest: () => [],
      card: () => [],
      exportLog: () => Promise.resolve({ path: 'x' }),
      plan(): Planning {
        const mine = { seq: session.state.seq, isGivenUp: false } as (typeof begun)[number]
        begun.push(mine)
        const answer = new Promise<Plan>((resolve, reject) => {
          mine.settle = resolve
          mine.fail = (why) => reject(new Error(why))
        })
        return { answer, giveUp: () => (mine.isGivenUp = true) }
      },
    }
    const loop = startLoop({ session, desk, unicode: true, size: () => SMALL, leave: () => undefined })
    return { loop, begun, session, ui: () => loop.glass.read().ui }
  }

  test('the board is alive, and Esc gives it up', () => {
    const { loop, begun, ui } = slowBoard()
    loop.take({ char: 'g' })
    expect(ui()).toMatchObject({ screen: 'plan', plan: { made: null, fault: null } })
    loop.take({ key: 'escape' })
    expect(begun.map((each) => each.isGivenUp)).toEqual([true])
    expect(ui().screen).toBe('board')
  })

  test('it is begun again when the journal moves', async () => {
    const { loop, begun, session, ui } = slowBoard()
    loop.take({ char: 'g' })
    await session.submit({ do: 'note', by: 'M-104', text: 'Quiet.' })
    expect(begun.map((each) => each.isGivenUp)).toEqual([true, false])
    expect(begun[1]!.seq).toBe(begun[0]!.seq + 1)
    expect(ui().message?.text).toBe('The journal has moved: the plan is worked out again.')
    loop.take({ key: 'escape' })
  })

  test('that it could not be made is said, with what is safe and what to do', async () => {
    const { loop, begun, ui } = slowBoard()
    loop.take({ char: 'g' })
    begun[0]!.fail('the planner ended without an answer')
    await expect.poll(() => ui().plan?.fault).toBe('the planner ended without an answer')
  })
})

test('a plan that cannot even be begun is said to have failed, and the board goes on', async () => {
  const { state, at } = short()
  const session = openSession(keptInMemory(state), () => Date.parse(at))
  const desk: Desk = {
    newest: () => [],
    card: () => [],
    exportLog: () => Promise.resolve({ path: 'x' }),
    plan() {
      throw new Error('no process could be started')
    },
  }
  const loop = startLoop({ session, desk, unicode: true, size: () => SMALL, leave: () => undefined })
  loop.take({ char: 'g' })
  await loop.settled()
  expect(loop.glass.read().ui.plan).toEqual({ made: null, fault: 'no process could be started' })
  loop.take({ key: 'escape' })
  expect(loop.glass.read().ui.screen).toBe('board')
})

test('of several swaps it says how many were recorded when one is refused', async () => {
  const { state, at } = short()
  const real = openSession(keptInMemory(state), () => Date.parse(at))
  let left = 1
  const session = {
    ...real,
    get state() {
      return real.state
    },
    now: () => at,
    submit: (command: Parameters<typeof real.submit>[0]) =>
      left-- > 0 ? real.submit(command) : Promise.resolve({ refused: 'Boots BO-9 is already in use.' }),
  }
  const made = (await bench({ state, at }).type('g').planned()).ui.plan!.made!
  const desk: Desk = {
    newest: () => [],
    card: () => [],
    exportLog: () => Promise.resolve({ path: 'x' }),
    plan: () => ({ answer: Promise.resolve(made), giveUp: () => undefined }),
  }
  const loop = startLoop({ session, desk, unicode: true, size: () => SMALL, leave: () => undefined })
  loop.take({ char: 'g' })
  await expect.poll(() => loop.glass.read().ui.plan?.made).toBe(made)
  loop.take({ char: 'a' })
  loop.take({ key: 'enter' })
  await loop.settled()
  expect(loop.glass.read().ui.message?.text).toBe(
    '1 of 2 were recorded, then not: Boots BO-9 is already in use.',
  )
  loop.take({ key: 'escape' })
})
