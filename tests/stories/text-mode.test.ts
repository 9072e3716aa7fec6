// A whole turn of work without a screen: in lines on a terminal that can only print, and fed by a pipe.
import { onTestFinished, describe, expect, test } from 'vitest'
import { bayboard, PROGRAM } from '../cli/run.ts'
import { openTerminal } from '../pty.ts'
import { allOf, digestOf, engine, eventsOf, hasPty } from './at-the-board.ts'

const ESCAPE = '\x1b'

test.each([[['--text']], [['--text', '--station', 'STATION']], [['--station', 'STATION', '--text']]])(
  'the board is asked for in lines without its name as well: %j',
  (asked) => {
    const station = engine()
    const args = asked.map((each) => (each === 'STATION' ? station : each))
    const { status, stdout, stderr } = bayboard(args, { station, input: 'quit\n' })
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    expect(stdout).toMatch(/^Bayboard in lines of text\./)
    expect(stdout).toMatch(/^1\. Officer/m)
  },
)

describe('fed by a pipe', () => {
  test('the roll is called, a helmet tagged, the act undone: the journal holds each of them', () => {
    const station = engine()
    const lines = ['r', 'psi 4400', 'psi 4400', 't', 'helmet', '1', '1', '1', 'yes', '-', 'yes', 'quit']
    const input = `${lines.join('\n')}\n`
    const { status, stdout, stderr } = bayboard(['board', '--text'], { station, input })
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    const types = eventsOf(station).map((each) => each.type)
    expect(types.slice(-6)).toEqual([
      'pressure-read',
      'seat-answered',
      'pressure-read',
      'seat-answered',
      'element-tagged',
      'tag-lifted',
    ])
    expect(stdout).toContain('Roll call complete')
    expect(stdout).not.toContain(ESCAPE)
  })

  test('the end of the input leaves the board and records nothing that was not confirmed', () => {
    const station = engine()
    const before = digestOf(station)
    const { status, stdout } = bayboard(['board', '--text'], { station, input: 't\n1\n1\n1\n' })
    expect(status).toBe(0)
    expect(stdout).toContain('yes does it.')
    expect(digestOf(station)).toBe(before)
  })

  test('a setting in the environment does not catch a script: without a terminal the status is printed', () => {
    const station = engine()
    const { stdout } = bayboard([], { station, env: { BAYBOARD_TEXT: '1' } })
    expect(stdout).not.toContain('Bayboard in lines of text')
  })
})

describe.skipIf(!hasPty)('needs a pseudo-terminal:', () => {
  const open = async (station: string, ...words: string[]) => {
    const terminal = await openTerminal({
      command: 'env',
      args: [...words, process.execPath, PROGRAM, '--station', station, 'board', '--text'],
    })
    onTestFinished(() => terminal.close())
    return terminal
  }
  const say = async (terminal: Awaited<ReturnType<typeof open>>, line: string, until: string | RegExp) => {
    await terminal.send(`${line}\r`)
    return terminal.waitFor(until, 12_000)
  }

  test('TERM=dumb: a tour is handed over by lines, and not one escape code is written', async () => {
    const station = engine()
    const terminal = await open(station, 'TERM=dumb')
    await terminal.waitFor('> ', 12_000)
    await say(terminal, 'n', 'The note')
    await say(terminal, 'Hydrant frozen.', /yes does it/)
    await say(terminal, 'yes', 'Noted.')
    expect(allOf(station, 'note-made')).toHaveLength(1)
    await say(terminal, 'h', 'Hand over to whom?')
    await say(terminal, '1', /2\. .* has read this back/)
    await say(terminal, '2', 'yes does it.')
    await say(terminal, 'yes', 'Its log is in')
    expect(allOf(station, 'tour-handed-over')).toHaveLength(1)
    await say(terminal, 'quit', 'Left. Everything accepted is on disk.')
    expect(await terminal.exit).toMatchObject({ code: 0 })
    expect(terminal.written()).not.toContain(ESCAPE)
  })

  test('BAYBOARD_TEXT=1 opens it without the option', async () => {
    const terminal = await openTerminal({
      command: process.execPath,
      args: [PROGRAM, '--station', engine()],
      env: { BAYBOARD_TEXT: '1' },
    })
    onTestFinished(() => terminal.close())
    const screen = await terminal.waitFor('Everybody seated', 12_000)
    expect(screen.join('\n')).toContain('Bayboard in lines of text')
  })

  test('what another program records meanwhile is told before the next answer', async () => {
    const station = engine()
    const terminal = await open(station)
    await terminal.waitFor('> ', 12_000)
    const tag = { do: 'tag', by: 'M-104', element: 'K-1', reason: 'hole', matter: 'safety' }
    bayboard(['record'], { station, input: `${JSON.stringify(tag)}\n` })
    await say(terminal, '1', /Recorded elsewhere meanwhile: 1\./)
    const screen = await terminal.waitFor('Hood K-1: tagged, hole', 12_000)
    expect(screen.join('\n')).toContain('1 may not ride: Ada Varga')
  })

  test('who answers for what another program has changed meanwhile hears it first, and nothing is answered', async () => {
    const station = engine()
    const terminal = await open(station)
    await terminal.waitFor('> ', 12_000)
    await say(terminal, 'r', 'Ada Varga is called')
    const tag = { do: 'tag', by: 'M-104', element: 'K-1', reason: 'hole', matter: 'safety' }
    bayboard(['record'], { station, input: `${JSON.stringify(tag)}\n` })
    await say(terminal, 'psi 4400', 'What was told here has changed: nothing was done.')
    expect(allOf(station, 'seat-answered')).toHaveLength(0)
    const screen = await terminal.waitFor('Hood K-1: out of service: tagged, hole', 12_000)
    expect(screen.join('\n')).toContain('Recorded elsewhere meanwhile: 1.')
    await say(terminal, 'psi 4400', 'Officer Ada Varga answered.')
    expect(allOf(station, 'seat-answered')).toHaveLength(1)
  })
})
