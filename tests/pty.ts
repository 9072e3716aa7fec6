// A program on a real pseudo-terminal, read through a terminal emulator; it must never judge what it sees.
import { createRequire } from 'node:module'
import { Terminal } from '@xterm/headless'
import type * as NodePty from '@lydell/node-pty'

/** The pseudo-terminal library, or undefined where it cannot be loaded: it is optional, because it is not plain JavaScript. */
export function loadPty(): typeof NodePty | undefined {
  try {
    return createRequire(import.meta.url)('@lydell/node-pty') as typeof NodePty
  } catch {
    return undefined
  }
}

const KEYS = {
  up: '\x1b[A',
  down: '\x1b[B',
  right: '\x1b[C',
  left: '\x1b[D',
  home: '\x1b[H',
  end: '\x1b[F',
  insert: '\x1b[2~',
  delete: '\x1b[3~',
  'page-up': '\x1b[5~',
  'page-down': '\x1b[6~',
  'back-tab': '\x1b[Z',
  enter: '\r',
  escape: '\x1b',
  tab: '\t',
  space: ' ',
  backspace: '\x7f',
  'ctrl-c': '\x03',
  'ctrl-l': '\x0c',
  'ctrl-z': '\x1a',
} as const

export type PressedKey = keyof typeof KEYS
export type Ended = { code: number; signal: number | undefined }
export type OpenTerminal = Awaited<ReturnType<typeof openTerminal>>
type Program = {
  command: string
  args?: readonly string[]
  cwd?: string
  env?: Readonly<Record<string, string | undefined>>
  columns?: number
  rows?: number
}

// Slower than any scanner and than the wait after a lone Escape, as a person is.
const HUMAN_GAP_MS = 60
const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms))

/** Starts a program on a pseudo-terminal. Fails where `loadPty()` gives nothing: a test asks that first. */
export async function openTerminal({ command, args = [], cwd, env = {}, columns = 80, rows = 24 }: Program) {
  const pty = loadPty()
  if (!pty) throw new Error('The pseudo-terminal library cannot be loaded here.')
  const emulator = new Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 1000 })
  const modes = { cursorHidden: false }
  for (const final of ['h', 'l'] as const) {
    emulator.parser.registerCsiHandler({ prefix: '?', final }, (params) => {
      if (params.includes(25)) modes.cursorHidden = final === 'l'
      return false
    })
  }
  const child = pty.spawn(command, [...args], {
    name: 'xterm-256color',
    cols: columns,
    rows,
    ...(cwd === undefined ? {} : { cwd }),
    env: environment(env),
  })
  let bytes = 0
  let raw = ''
  let parsed = Promise.resolve()
  child.onData((data) => {
    bytes += Buffer.byteLength(data)
    raw += data
    parsed = new Promise((resolve) => emulator.write(data, resolve))
  })
  const exit = new Promise<Ended>((resolve) => {
    child.onExit(({ exitCode, signal }) => {
      // The last output may still be on its way when the end of the process is known.
      setTimeout(() => void parsed.then(() => resolve({ code: exitCode, signal })), 50)
    })
  })

  const screen = (): string[] => {
    const { active } = emulator.buffer
    return Array.from(
      { length: emulator.rows },
      (_, y) => active.getLine(active.baseY + y)?.translateToString(true) ?? '',
    )
  }
  const send = async (text: string) => {
    child.write(text)
    await sleep(HUMAN_GAP_MS)
  }

  return {
    emulator,
    exit,
    pid: child.pid,
    screen,
    /** Everything the program has written, as it wrote it. */
    written: () => raw,
    bytesWritten: () => bytes,
    modes: () => ({
      alternateScreen: emulator.buffer.active.type === 'alternate',
      cursorHidden: modes.cursorHidden,
      autowrap: emulator.modes.wraparoundMode,
      bracketedPaste: emulator.modes.bracketedPasteMode,
      synchronised: emulator.modes.synchronizedOutputMode,
    }),
    /** Types as a person does: one character at a time. */
    type: async (text: string) => {
      for (const char of text) await send(char)
    },
    press: (key: PressedKey) => send(KEYS[key]),
    /** A hand-held scanner: the whole code and its ending at once. */
    scan: (code: string, ending = '\r') => send(code + ending),
    paste: (text: string) => send(`\x1b[200~${text}\x1b[201~`),
    send,
    resize: (toColumns: number, toRows: number) => {
      emulator.resize(toColumns, toRows)
      child.resize(toColumns, toRows)
    },
    kill: (signal: NodeJS.Signals = 'SIGTERM') => process.kill(child.pid, signal),
    /** Waits until the screen, not amid an update, holds the text or satisfies the predicate; then gives it. */
    waitFor: async (wanted: string | RegExp | ((lines: string[]) => boolean), timeoutMs = 20_000) => {
      const until = Date.now() + timeoutMs
      for (;;) {
        await parsed
        const lines = screen()
        if (!emulator.modes.synchronizedOutputMode && isMet(wanted, lines)) return lines
        if (Date.now() > until) {
          throw new Error(
            `Waited ${timeoutMs} ms for ${String(wanted)}; the screen shows:\n${lines.join('\n')}`,
          )
        }
        await sleep(10)
      }
    },
    /** Ends the program if it still runs. */
    close: async () => {
      try {
        process.kill(child.pid, 'SIGKILL')
      } catch {
        // It has ended already.
      }
      await exit
      emulator.dispose()
    },
  }
}

/** This process's environment without what a build machine adds, and with `changes`; undefined takes a name away. */
function environment(changes: Readonly<Record<string, string | undefined>>): Record<string, string> {
  const plain = {
    CI: undefined,
    CONTINUOUS_INTEGRATION: undefined,
    NO_COLOR: undefined,
    FORCE_COLOR: undefined,
  }
  const all = { ...process.env, LANG: 'C.UTF-8', LC_ALL: undefined, ...plain, ...changes }
  // The library would pass an undefined value on as the word "undefined".
  return Object.fromEntries(
    Object.entries(all).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
  )
}

function isMet(wanted: string | RegExp | ((lines: string[]) => boolean), lines: string[]): boolean {
  if (typeof wanted === 'function') return wanted(lines)
  const text = lines.join('\n')
  return typeof wanted === 'string' ? text.includes(wanted) : wanted.test(text)
}
