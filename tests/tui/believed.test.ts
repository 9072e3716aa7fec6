// What an earlier run judged is good for a first frame only: what is judged now takes its place, and no key is acted upon before that.
import { beforeEach, describe, expect, it } from 'vitest'
import { verdictsToKeep } from '../../src/domain/assess/kept.ts'
import { openSession } from '../../src/session.ts'
import { pack } from '../../src/store/packed-state.ts'
import { startLoop } from '../../src/tui/board-loop.ts'
import { linesFor } from '../../src/tui/screens.ts'
import { believe } from '../../src/tui/view.ts'
import { unpacked } from '../unpacked.ts'
import { SMALL } from './bench.ts'
import { keptInMemory } from './kept-in-memory.ts'
import { fitEngine } from './stations.ts'

const EXPIRED = '1 may not ride'
const FIT = 'Everybody seated may ride'

/** A board of a fit crew that begins with a verdict no run of this program would have kept. */
function misled() {
  const { state, at } = fitEngine()
  const books = unpacked(pack(state))!
  const verdicts = verdictsToKeep(state, at)
  verdicts.seats[0]![1].states = verdicts.days.map(() => 'expired')
  const session = openSession(keptInMemory(books), () => Date.parse(at))
  believe({ books, verdicts }, session.state, session.now())
  const desk = {
    newest: () => [],
    card: () => [],
    exportLog: () => Promise.resolve({ refused: '' }),
    plan: () => ({ answer: Promise.reject(new Error('not asked for')), giveUp: () => undefined }),
  }
  let left = 0
  let drawn = 0
  const loop = startLoop({ session, desk, unicode: true, size: () => SMALL, leave: () => (left += 1) })
  loop.glass.watch(() => (drawn += 1))
  const text = (): string => {
    const { view, ui } = loop.glass.read()
    return linesFor(view, ui, SMALL)
      .map((line) => line.map((span) => span.text).join(''))
      .join('\n')
  }
  return { loop, text, drawn: () => drawn, left: () => left }
}

describe('a first frame that an earlier run judged', () => {
  let board: ReturnType<typeof misled>
  beforeEach(() => {
    board = misled()
    expect(board.text()).toContain(EXPIRED)
  })

  it('gives way to what is judged now, once', () => {
    board.loop.judge()
    expect(board.text()).toContain(FIT)
    board.loop.judge()
    expect(board.drawn()).toBe(1)
  })

  it('is judged before a key is acted upon, also one that changes nothing', () => {
    board.loop.take({ key: 'escape' })
    expect(board.text()).toContain(FIT)
  })

  it('is not drawn again once the board has been left', () => {
    board.loop.take({ key: 'ctrl-c' })
    const before = board.drawn()
    board.loop.judge()
    expect([board.left(), board.drawn()]).toEqual([1, before])
  })
})
