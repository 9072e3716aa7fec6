// While something is being recorded the glass shows nothing half done, and what is pressed meanwhile is done afterwards, in order.
import { expect, onTestFinished, test, vi } from 'vitest'
import type { Command } from '../../src/domain/commands.ts'
import type { Answer, Session } from '../../src/session.ts'
import { linesFor } from '../../src/tui/screens.ts'
import { startLoop } from '../../src/tui/board-loop.ts'
import type { Token } from '../../src/tui/input/keys.ts'
import { openSession } from '../../src/session.ts'
import { demonstration, demonstrationAfter, fitEngine } from './stations.ts'
import type { Planning } from '../../src/tui/planning.ts'
import type { Exported } from '../../src/tui/said-after.ts'
import { planNow } from './plan-now.ts'
import { SMALL, type Standing } from './bench.ts'
import { keptInMemory } from './kept-in-memory.ts'

const key = (name: 'enter' | 'down' | 'ctrl-c'): Token => ({ key: name })
const type = (words: string): Token[] => [...words].map((char) => ({ char }))

/** The board on a session that records each command only when it is let to. */
function slowBoard({ state, at }: Standing) {
  const real = openSession(keptInMemory(state), () => Date.parse(at))
  const held: { record: () => void; refuse: (why: string) => void }[] = []
  const asked: Command['do'][] = []
  const session: Session = {
    ...real,
    get state() {
      return real.state
    },
    get stopped() {
      return real.stopped
    },
    now: () => at,
    submit: (command) =>
      new Promise<Answer>((answer) => {
        asked.push(command.do)
        held.push({
          record: () => void real.submit(command).then(answer),
          refuse: (failed) => answer({ failed }),
        })
      }),
  }
  let left = 0
  let planned = 0
  const exports: ((made: Exported) => void)[] = []
  const desk = {
    newest: () => [],
    card: (id: string) => [`card of ${id}`],
    exportLog: () => new Promise<Exported>((made) => exports.push(made)),
    plan: (): Planning => {
      planned += 1
      return { answer: planNow(real.state, at), giveUp: () => undefined }
    },
  }
  const loop = startLoop({ session, desk, unicode: true, size: () => SMALL, leave: () => (left += 1) })
  const drawn: string[] = []
  const text = (): string => {
    const { view, ui } = loop.glass.read()
    return linesFor(view, ui, SMALL)
      .map((line) => line.map((span) => span.text).join(''))
      .join('\n')
  }
  loop.glass.watch(() => drawn.push(text()))
  return {
    loop,
    asked,
    text,
    drawn,
    left: () => left,
    planned: () => planned,
    exports,
    refuse: (why: string) => held.shift()!.refuse(why),
    press: (...tokens: Token[]) => tokens.forEach(loop.take),
    /** Lets one command be recorded, and waits until the next is asked for or the board is at rest. */
    async letOne() {
      const count = asked.length
      held.shift()!.record()
      const isOver = loop.settled().then(() => true)
      await expect.poll(async () => asked.length > count || (await Promise.race([isOver, false]))).toBe(true)
    },
  }
}

const relieved = (): Standing => demonstrationAfter({ do: 'hand-over', by: 'M-901', to: 'M-912' })

test('opening a tour shows no riding position half seated, and r pressed meanwhile opens the roll call', async () => {
  const board = slowBoard(relieved())
  board.press(...type('o'), key('enter'), key('enter'))
  expect(board.text()).toContain('Open tour 2026-11-25-C')
  const before = board.text()
  const frames = board.drawn.length
  board.press(key('enter'), ...type('r'))
  while (board.asked.length < 5) {
    await board.letOne()
    expect(board.text()).toBe(before)
  }
  expect(board.drawn).toHaveLength(frames)
  while (!board.text().includes('Roll call: ')) await board.letOne()
  expect(board.drawn[frames]).toContain('r begins the roll call')
  expect(board.drawn[frames + 1]).toContain('Roll call: ')
})

test('keys and scans pressed while it records are kept in order: two readings typed ahead are two readings', async () => {
  const board = slowBoard(fitEngine())
  board.press(...type('r4400'), key('enter'))
  board.press(...type('4300'), key('enter'), { scan: 'HE-1' })
  expect(board.asked).toEqual(['read-pressure'])
  for (const _ of [1, 2, 3, 4]) await board.letOne()
  expect(board.asked).toEqual(['read-pressure', 'answer', 'read-pressure', 'answer'])
  expect(board.text()).toContain('card of HE-1')
})

test('after a refusal what was pressed meanwhile is left out: it was meant for what did not come about', async () => {
  const board = slowBoard(fitEngine())
  board.press(...type('n'), ...type('Quiet.'), key('enter'), key('enter'), ...type('q'))
  board.refuse('The disk is full.')
  await board.loop.settled()
  expect(board.text()).toContain('The disk is full.')
  expect(board.left()).toBe(0)
})

test('after what was accepted the same key is done', async () => {
  const board = slowBoard(fitEngine())
  board.press(...type('n'), ...type('Quiet.'), key('enter'), key('enter'), ...type('q'))
  expect(board.left()).toBe(0)
  await board.letOne()
  await board.loop.settled()
  expect(board.left()).toBe(1)
})

test('Ctrl-C leaves at once, and what was begun is still recorded whole', async () => {
  const board = slowBoard(fitEngine())
  board.press(...type('r4400'), key('enter'), ...type('t'), key('ctrl-c'))
  expect(board.left()).toBe(1)
  await board.letOne()
  await board.letOne()
  await board.loop.settled()
  expect(board.asked).toEqual(['read-pressure', 'answer'])
  board.press(...type('4300'), key('enter'))
  expect(board.asked).toHaveLength(2)
})

test('where recording takes long, the glass says that keys are kept', () => {
  vi.useFakeTimers()
  onTestFinished(() => void vi.useRealTimers())
  const board = slowBoard(fitEngine())
  board.press(...type('r'), key('enter'))
  vi.advanceTimersByTime(1_000)
  expect(board.text()).not.toContain('being recorded')
  vi.advanceTimersByTime(1_000)
  expect(board.text()).toContain('This is being recorded. Keys pressed now are kept until it is done.')
})

test('where it was recorded in time, nothing about waiting is said afterwards', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
  onTestFinished(() => void vi.useRealTimers())
  const board = slowBoard(fitEngine())
  board.press(...type('r'), key('enter'))
  await board.letOne()
  await board.loop.settled()
  const before = board.text()
  vi.advanceTimersByTime(10_000)
  expect(board.text()).toBe(before)
})

test('whoever leaves with Ctrl-C while the plan is being recorded does not wait for another plan', async () => {
  const board = slowBoard(demonstration())
  board.press(...type('g'))
  await board.loop.settled()
  expect(board.planned()).toBe(1)
  board.press(...type('a'), key('enter'), key('ctrl-c'))
  expect(board.left()).toBe(1)
  for (let swap = 0; swap < 10; swap += 1) await board.letOne()
  await board.loop.settled()
  expect(board.asked).toHaveLength(10)
  expect(board.planned()).toBe(1)
})

test('an export that ends while something is recorded shows nothing half done, and is told afterwards', async () => {
  const board = slowBoard(demonstration())
  board.press(...type('x'), key('enter'), key('enter'))
  expect(board.exports).toHaveLength(1)
  board.press(...type('n'), ...type('Quiet.'), key('enter'), key('enter'))
  const before = board.text()
  board.exports[0]!({ path: 'log.txt' })
  await new Promise((later) => setImmediate(later))
  expect(board.text()).toBe(before)
  await board.letOne()
  await board.loop.settled()
  expect(board.text()).toContain('Exported to log.txt')
})

test('whoever leaves after two exports waits for both', async () => {
  const board = slowBoard(demonstration())
  board.press(...type('x'), key('enter'), key('enter'), ...type('x'), key('enter'), key('enter'))
  expect(board.exports).toHaveLength(2)
  let isSettled = false
  const settled = board.loop.settled().then(() => (isSettled = true))
  board.exports[1]!({ path: 'second.txt' })
  await new Promise((later) => setImmediate(later))
  expect(isSettled).toBe(false)
  board.exports[0]!({ path: 'first.txt' })
  await settled
  expect(board.text()).toContain('Exported to first.txt')
})

test('after a hand-over the board says that the log is being written, and then where it is', async () => {
  const board = slowBoard(demonstration())
  board.press(...type('h'), key('enter'), key('down'), key('enter'), key('enter'))
  const isRecorded = board.letOne()
  await expect.poll(() => board.exports.length).toBe(1)
  expect(board.text()).toContain('is handed over. Its log is being written.')
  board.exports[0]!({ path: 'log.pdf' })
  await isRecorded
  expect(board.text()).toContain('is handed over. Its log is in log.pdf')
})
