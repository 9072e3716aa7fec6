// The terminal is given back however the board ends; read from a real pseudo-terminal through an emulator.
import { rm } from 'node:fs/promises'
import { dirname } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { loadPty, openTerminal } from '../../pty.ts'
import type { OpenTerminal } from '../../pty.ts'
import { bundleSample } from './sample-program.ts'

const pty = loadPty()
const GIVEN_BACK = {
  alternateScreen: false,
  cursorHidden: false,
  autowrap: true,
  bracketedPaste: false,
  synchronised: false,
}
const HELD = {
  alternateScreen: true,
  cursorHidden: true,
  autowrap: false,
  bracketedPaste: true,
  synchronised: false,
}

describe('the board on a pseudo-terminal', () => {
  let program = ''
  let terminal: OpenTerminal | undefined
  const open = async (env: Record<string, string> = {}, before = '') => {
    const script = `${before} "$0" "$1"; stty -a | grep -o -- '[-]*icanon'; echo "ended with $?"`
    terminal = await openTerminal({
      command: '/bin/sh',
      args: ['-c', before === '' ? 'exec "$0" "$1"' : script, process.execPath, program],
      env,
    })
    await terminal.waitFor('Sample 80x24')
    return terminal
  }

  beforeAll(async () => {
    if (pty) program = await bundleSample(fileURLToPath(new URL('sample-board.tsx', import.meta.url)))
  })
  afterAll(async () => {
    if (program !== '') await rm(dirname(program), { recursive: true })
  })
  afterEach(async () => {
    await terminal?.close()
    terminal = undefined
  })

  it.skipIf(!pty)(
    'needs a pseudo-terminal: holds the screen while it is up and gives it back on quit',
    async () => {
      const board = await open()
      expect(board.modes()).toEqual(HELD)
      await board.type('q')
      expect((await board.exit).code).toBe(0)
      expect(board.modes()).toEqual(GIVEN_BACK)
      expect(board.screen().join('\n')).toContain('after the board')
      expect(board.screen().join('\n')).not.toContain('Sample')
    },
  )

  it.skipIf(!pty).each([
    ['SIGTERM', 143],
    ['SIGINT', 130],
    ['SIGHUP', 129],
  ] as const)('needs a pseudo-terminal: gives the screen back on %s', async (signal, code) => {
    const board = await open()
    board.kill(signal)
    expect((await board.exit).code).toBe(code)
    expect(board.modes()).toEqual(GIVEN_BACK)
  })

  it.skipIf(!pty).each([
    ['a thrown error', 't', 1, 'Error: thrown'],
    ['an unhandled rejection', 'r', 1, 'Error: rejected'],
    ['an error thrown while drawing', 'x', 1, 'Error: broken drawing'],
    ['process.exit', 'e', 7, ''],
  ])('needs a pseudo-terminal: gives the screen back on %s, and then says what happened', async (...row) => {
    const [, key, code, words] = row
    const board = await open()
    await board.type(key)
    expect((await board.exit).code).toBe(code)
    expect(board.modes()).toEqual(GIVEN_BACK)
    expect(board.screen().join('\n')).toContain(words)
  })

  it.skipIf(!pty)('needs a pseudo-terminal: the shell reads whole lines again afterwards', async () => {
    const board = await open({}, 'true;')
    await board.type('q')
    const lines = await board.waitFor('ended with')
    expect(lines).toContain('icanon')
  })

  it.skipIf(!pty)(
    'needs a pseudo-terminal: starts well after an earlier run was killed outright',
    async () => {
      const board = await open({}, 'printf "first line\\nsecond line\\n"; "$0" "$1";')
      await board.type('k')
      await board.waitFor(() => board.written().split('Sample 80x24').length > 2)
      await board.type('q')
      const lines = await board.waitFor('ended with')
      expect(lines.slice(0, 2)).toEqual(['first line', 'second line'])
      expect(board.modes()).toEqual(GIVEN_BACK)
    },
  )

  it.skipIf(!pty)(
    'needs a pseudo-terminal: leaves the screen while stopped and comes back whole',
    async () => {
      const board = await open()
      board.kill('SIGTSTP')
      await board.waitFor(() => !board.modes().alternateScreen)
      expect(board.modes()).toEqual(GIVEN_BACK)
      board.resize(70, 20)
      // Asked again now and then: a SIGCONT that comes before the program has quite stopped is lost.
      let askedMs = 0
      await board.waitFor((lines) => {
        if (lines[0] === 'Sample 70x20') return true
        if (Date.now() - askedMs < 400) return false
        board.kill('SIGCONT')
        askedMs = Date.now()
        return false
      })
      expect(board.modes()).toEqual(HELD)
      await board.type('q')
      expect((await board.exit).code).toBe(0)
    },
  )

  it.skipIf(!pty).each([{}, { CI: 'true' }, { CI: '', GITHUB_ACTIONS: 'true' }, { TERM: 'vt100' }])(
    'needs a pseudo-terminal: draws the same, in colour, and follows the window with environment %j',
    async (env) => {
      const board = await open(env)
      expect(board.written()).toContain('\x1b[32mSample 80x24')
      board.resize(100, 30)
      await board.waitFor('Sample 100x30')
      board.resize(60, 12)
      const lines = await board.waitFor('Sample 60x12')
      expect(lines.filter((line) => line !== '')).toEqual(['Sample 60x12'])
    },
  )

  it.skipIf(!pty)('needs a pseudo-terminal: tells typed characters, scans and keys apart', async () => {
    const board = await open()
    const shows = (wanted: string) => board.waitFor((lines) => lines.join('').includes(wanted))
    // Where the program is kept from the processor, what is sent next would be read along with the letters before.
    await board.type('j')
    await shows('{"char":"j"}')
    await board.type('j')
    await shows('{"char":"j"} {"char":"j"}')
    await board.scan('C-1041', '\r\n')
    await board.press('escape')
    await shows('{"key":"escape"}')
    await board.press('page-down')
    const wanted =
      '{"char":"j"} {"char":"j"} {"scan":"C-1041"} {"key":"escape"} {"key":"page-down"} {"paste":"a\\nb"}'
    await board.paste('a\rb')
    await shows(wanted)
    await board.press('ctrl-c')
    expect((await board.exit).code).toBe(0)
  })
})
