// What the board may ask of a terminal, told from its environment.
import { describe, expect, it } from 'vitest'
import { glassAbilities } from '../../../src/tui/terminal/abilities.ts'

const TERMINAL = { isTTY: true }
const PIPE = { isTTY: false }

describe('colour', () => {
  it.each([
    ['a terminal', {}, TERMINAL, 'ansi'],
    ['NO_COLOR with any value', { NO_COLOR: '0' }, TERMINAL, 'none'],
    ['NO_COLOR left empty', { NO_COLOR: '' }, TERMINAL, 'ansi'],
    ['TERM=dumb', { TERM: 'dumb' }, TERMINAL, 'none'],
    ['a pipe', {}, PIPE, 'none'],
    ['a stream that does not say', {}, {}, 'none'],
    ['a build machine', { CI: 'true' }, TERMINAL, 'ansi'],
  ])('for %s', (_, env, stream, colour) => {
    expect(glassAbilities(env, stream).colour).toBe(colour)
  })
})

describe('characters beyond ASCII', () => {
  it.each([
    [{ LANG: 'en_US.UTF-8' }, true],
    [{ LANG: 'C.utf8' }, true],
    [{ LANG: 'en_US.ISO-8859-1' }, false],
    [{}, false],
    [{ LC_CTYPE: 'C', LANG: 'en_US.UTF-8' }, false],
    [{ LC_ALL: 'C', LC_CTYPE: 'C.UTF-8', LANG: 'C.UTF-8' }, false],
    [{ LC_ALL: 'C.UTF-8', LC_CTYPE: 'C', LANG: 'C' }, true],
    [{ LC_ALL: '', LC_CTYPE: '', LANG: 'C.UTF-8' }, true],
  ])('with %j: %s', (env, unicode) => {
    expect(glassAbilities(env, TERMINAL).unicode).toBe(unicode)
  })
})

describe('the board', () => {
  it('needs a terminal on both sides that can place text', () => {
    expect(glassAbilities({ TERM: 'xterm' }, TERMINAL)).toEqual({
      colour: 'ansi',
      unicode: false,
      canBoard: true,
    })
    expect(glassAbilities({}, PIPE).why).toContain('output is not a terminal')
    expect(glassAbilities({}, TERMINAL, PIPE).why).toContain('input is not a terminal')
    expect(glassAbilities({ TERM: 'dumb' }, TERMINAL).why).toContain('"dumb"')
    for (const refused of [glassAbilities({}, PIPE), glassAbilities({}, TERMINAL, PIPE)]) {
      expect(refused.canBoard).toBe(false)
    }
    expect(glassAbilities({ TERM: 'dumb' }, TERMINAL).canBoard).toBe(false)
  })
})
