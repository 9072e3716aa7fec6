// Keys and pastes as terminals send them. The sequences are xterm's, the Linux console's and the VT220's, from memory.
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { apart, play, playTimed } from './reads.ts'

const chars = (text: string) => Array.from(text, (char) => ({ char }))

describe('a key', () => {
  it.each([
    ['up', ['\x1b[A', '\x1bOA', '\x1b[1;5A']],
    ['down', ['\x1b[B', '\x1bOB']],
    ['right', ['\x1b[C', '\x1bOC']],
    ['left', ['\x1b[D', '\x1bOD']],
    ['home', ['\x1b[H', '\x1bOH', '\x1b[1~', '\x1b[7~']],
    ['end', ['\x1b[F', '\x1bOF', '\x1b[4~', '\x1b[8~']],
    ['insert', ['\x1b[2~']],
    ['delete', ['\x1b[3~', '\x1b[3;2~']],
    ['page-up', ['\x1b[5~']],
    ['page-down', ['\x1b[6~']],
    ['back-tab', ['\x1b[Z']],
    ['f1', ['\x1bOP', '\x1b[11~']],
    ['f12', ['\x1b[24~']],
    ['enter', ['\r', '\n', '\r\n', '\x1bOM']],
    ['tab', ['\t']],
    ['backspace', ['\x7f', '\x08']],
    ['ctrl-c', ['\x03']],
    ['ctrl-l', ['\x0c']],
    ['ctrl-z', ['\x1a']],
    ['escape', ['\x1b']],
  ])('%s is known in each of its forms, whole or byte by byte', (key, forms) => {
    for (const form of forms) {
      expect(play([[0, form]])).toEqual([{ key }])
      expect(play(apart(form, 10))).toEqual([{ key }])
    }
  })

  it('Escape alone waits 50 ms for the rest of a sequence', () => {
    expect(playTimed([[0, '\x1b']])).toEqual([{ token: { key: 'escape' }, atMs: 50 }])
    expect(
      play([
        [0, '\x1b'],
        [49, '[A'],
      ]),
    ).toEqual([{ key: 'up' }])
    expect(
      play([
        [0, '\x1b'],
        [50, 'j'],
      ]),
    ).toEqual([{ key: 'escape' }, { char: 'j' }])
  })

  it('Escape pressed just before a scan does not eat its first character', () => {
    expect(
      play([
        [0, '\x1b'],
        [20, 'C-1041\r'],
      ]),
    ).toEqual([{ key: 'escape' }, { scan: 'C-1041' }])
  })

  it('Escape twice is two keys', () => {
    expect(play([[0, '\x1b\x1b']])).toEqual([{ key: 'escape' }, { key: 'escape' }])
  })

  it.each([
    ['Alt with a letter', '\x1bx'],
    ['a focus report', '\x1b[I'],
    ['a cursor report', '\x1b[12;40R'],
    ['a mouse report', '\x1b[<0;10;20M'],
    ['a colour report', '\x1b]11;rgb:0000/0000/0000\x1b\\'],
    ['a version report', '\x1bP>|terminal 1\x1b\\'],
    ['a function key of the Linux console', '\x1b[[A'],
    ['a sequence with a private mark', '\x1b[?62;22c'],
    ['half a sequence that never ends', '\x1b[1;'],
  ])('that the board does not know is swallowed whole: %s', (_, sent) => {
    expect(
      play([
        [0, sent],
        [1000, 'j'],
      ]),
    ).toEqual([{ char: 'j' }])
  })

  it('after Enter, a line feed much later is a key of its own', () => {
    expect(
      play([
        [0, '\r'],
        [100, '\n'],
      ]),
    ).toEqual([{ key: 'enter' }])
    expect(
      play([
        [0, '\r'],
        [101, '\n'],
      ]),
    ).toEqual([{ key: 'enter' }, { key: 'enter' }])
  })

  it('typed outside ASCII is one character, however its bytes are cut', () => {
    for (const char of ['é', '漢', '🚒']) {
      const bytes = new TextEncoder().encode(char)
      for (let cut = 0; cut <= bytes.length; cut++) {
        expect(
          play([
            [0, bytes.slice(0, cut)],
            [5, bytes.slice(cut)],
          ]),
        ).toEqual([{ char }])
      }
    }
  })

  it('never comes from an invalid byte', () => {
    expect(
      play([
        [0, Uint8Array.of(0xff, 0x61, 0xc3)],
        [50, Uint8Array.of(0x62)],
      ]),
    ).toEqual(chars('ab'))
    expect(
      play([
        [0, Uint8Array.of(0xf0, 0x9f)],
        [50, Uint8Array.of(0x80)],
      ]),
    ).toEqual([])
    expect(play([[0, '\x9b\x85a']])).toEqual(chars('a'))
  })
})

describe('a paste', () => {
  it('is one token, never keys, however it is cut', () => {
    const sent = '\x1b[200~q\ryes\r\nC-1041\tend\x1b[201~'
    const token = { paste: 'q\nyes\nC-1041\tend' }
    expect(play([[0, sent]])).toEqual([token])
    expect(play(apart(sent, 10))).toEqual([token])
  })

  it('loses escape sequences and control characters', () => {
    expect(play([[0, '\x1b[200~a\x1b[2Jb\x07\x9bc\x03\x1b[201~']])).toEqual([{ paste: 'abc' }])
  })

  it('that never ends gives the keyboard back after a second', () => {
    expect(playTimed([[0, '\x1b[200~abc']])).toEqual([{ token: { paste: 'abc' }, atMs: 1000 }])
  })

  it('beyond 100,000 characters is cut and says so', () => {
    const text = 'a'.repeat(100_000)
    expect(play([[0, `\x1b[200~${text}\x1b[201~`]])).toEqual([{ paste: text }])
    expect(play([[0, `\x1b[200~${text}b\x1b[201~`]])).toEqual([{ paste: text, tooLong: true }])
  })

  it('comes after what was typed before it, and before what is typed after it', () => {
    expect(play([[0, 'a\x1b[200~b\x1b[201~c']])).toEqual([{ char: 'a' }, { paste: 'b' }, { char: 'c' }])
  })
})

describe('whatever a terminal sends', () => {
  it('never gives a control character as text, and leaves nothing waiting for ever', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 120 }), fc.uint8Array({ maxLength: 20 }))),
        (sent) => {
          let atMs = 0
          const tokens = play(sent.map(([gapMs, bytes]) => [(atMs += gapMs), bytes] as const))
          const texts = tokens.map((token) =>
            'char' in token ? token.char : 'scan' in token ? token.scan : '',
          )
          expect(texts.join('')).not.toMatch(/[\0-\x1f\x7f-\x9f]/)
          const typed = tokens.flatMap((token) => ('char' in token ? [Array.from(token.char).length] : []))
          expect(typed.every((length) => length === 1)).toBe(true)
          // The keyboard still works afterwards.
          expect(play([...sent.map(([, bytes]) => [0, bytes] as const), [5000, '\x1b[A']]).at(-1)).toEqual({
            key: 'up',
          })
        },
      ),
      { numRuns: 500 },
    )
  })
})
