// The real board on a real pseudo-terminal, with its journal read from the disk beside it; it must never judge what it sees.
import { createHash } from 'node:crypto'
import { cpSync } from 'node:fs'
import { join } from 'node:path'
import { onTestFinished, vi } from 'vitest'
import { bayboard, journalOf, lines, newPlace, PROGRAM } from '../cli/run.ts'
import { fitStation } from '../cli/two-seats.ts'
import { loadPty, openTerminal, type OpenTerminal, type PressedKey } from '../pty.ts'
import type { Event, EventOf, EventType } from '../../src/domain/events.ts'

export const hasPty = loadPty() !== undefined
// Every wait below ends sooner, so that a failure shows the screen and not merely that the time was up.
vi.setConfig({ testTimeout: 40_000, hookTimeout: 40_000 })
const PATIENCE_MS = 12_000

interface Opening {
  /** Left away, the program looks for its default place. */
  station?: string
  columns?: number
  rows?: number
  env?: Record<string, string | undefined>
  /** Words of the first screen. */
  until?: string | RegExp
}
export type Board = Awaited<ReturnType<typeof openBoard>>

/** Opens the board and waits for its first screen. Whoever opens it outside a test closes it. */
export async function openBoard({ station, columns, rows, env, until = /quit/ }: Opening) {
  const terminal = await openTerminal({
    command: process.execPath,
    args: [PROGRAM, ...(station === undefined ? [] : ['--station', station])],
    env: { BAYBOARD_STATION: undefined, ...env },
    ...(columns !== undefined && { columns }),
    ...(rows !== undefined && { rows }),
  })
  const board = { ...terminal, ...hands(terminal) }
  await board.see(until)
  return board
}

/** The same for one test, at whose end the program is gone. */
export async function openBoardHere(opening: Opening): Promise<Board> {
  const board = await openBoard(opening)
  onTestFinished(() => board.close())
  return board
}

/** What a person at the keyboard does: never the next key before the glass shows the last. */
function hands(terminal: OpenTerminal) {
  let keys = 0
  const see = (wanted: Parameters<OpenTerminal['waitFor']>[0]) => terminal.waitFor(wanted, PATIENCE_MS)
  const type = (text: string) => {
    keys += text.length
    return terminal.type(text)
  }
  const press = (key: PressedKey) => {
    keys += 1
    return terminal.press(key)
  }
  return {
    see,
    type,
    press,
    /** How many keys were pressed so far. */
    keys: () => keys,
    seeNoMore: (words: string) => see((screen) => !screen.join('\n').includes(words)),
    /** Starts an action by its key and waits for its first question. */
    start: async (key: string, question: string | RegExp) => {
      await type(key)
      return see(question)
    },
    /** Narrows the list to what is meant and takes it. */
    choose: async (letters: string, next: string | RegExp) => {
      await type(letters)
      await see(`Narrowed by "${letters}"`)
      await press('enter')
      return see(next)
    },
    write: async (text: string, next: string | RegExp) => {
      await type(text)
      await see(`> ${text}`)
      await press('enter')
      return see(next)
    },
    enter: async (next: string | RegExp) => {
      await press('enter')
      return see(next)
    },
    /** At roll call: the pressure as the gauge reads, then the answer. */
    answer: async (psi: string, next: string | RegExp) => {
      await type(psi)
      await see(`: ${psi} psi`)
      await press('enter')
      return see(next)
    },
    leave: async () => {
      await type('q')
      return terminal.exit
    },
  }
}

/** Every whole line of the journal as it is on the disk now. */
export const eventsOf = (station: string): Event[] =>
  journalOf(station)
    .split('\n')
    .slice(0, -1)
    .map((line): Event => JSON.parse(line))

export const allOf = <T extends EventType>(station: string, type: T): EventOf<T>[] =>
  eventsOf(station).filter((each): each is EventOf<T> => each.type === type)

export const digestOf = (station: string): string =>
  createHash('sha256').update(journalOf(station)).digest('hex')

/** A line of the program that is not the board's: everything it printed, in words. */
export const wordsOf = (text: string): string => lines(text).join(' ').replaceAll(/\s+/g, ' ')

/** Makes a station once for a file of tests; each test then works on a copy of its own. */
function copies(make: () => string): () => string {
  let made: string | undefined
  return () => {
    made ??= make()
    const station = join(newPlace(), 'station')
    cpSync(made, station, { recursive: true })
    return station
  }
}
/** Engine 6: two riding positions filled and fit, nobody called yet. */
export const engine = copies(fitStation)
export const demonstration = copies(() => {
  const station = join(newPlace(), 'station')
  const { status, stderr } = bayboard(['demo', station, '--no-open'])
  if (status !== 0) throw new Error(stderr)
  return station
})
