// A scan is one token however it arrives, and never a key; a person's keys are never a scan.
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { apart, play, playTimed } from './reads.ts'
import type { Read } from './reads.ts'

const scan = (code: string) => ({ scan: code })
const chars = (text: string) => Array.from(text, (char) => ({ char }))
const twice = (apartMs: number) =>
  play([
    [0, 'C-1041\r'],
    [apartMs, 'C-1041\r'],
  ])
const ENTER = { key: 'enter' } as const

describe('a scan', () => {
  it.each([
    ['CR', 'C-1041\r'],
    ['LF', 'C-1041\n'],
    ['CR and LF, without a key left over', 'C-1041\r\n'],
    ['TAB', 'C-1041\t'],
    ['ETX, opened by STX', '\x02C-1041\x03'],
    ['ETX and CR LF, opened by STX', '\x02C-1041\x03\r\n'],
    ['CR inside the STX frame', '\x02C-1041\r\x03'],
    ['CR, opened by STX that nothing closes', '\x02C-1041\r'],
    ['CR, with an AIM symbology identifier in front', ']C0C-1041\r'],
    ['CR, with control characters inside', 'C-\x1d10\x0041\x1e\r'],
  ])('ended by %s is one token, whole or byte by byte', (_, sent) => {
    expect(play([[0, sent]])).toEqual([scan('C-1041')])
    expect(play([[0, new TextEncoder().encode(sent)]])).toEqual([scan('C-1041')])
    expect(play(apart(sent, 4))).toEqual([scan('C-1041')])
    expect(play(apart(sent, 35))).toEqual([scan('C-1041')])
  })

  it('of three characters is the shortest; two and Enter are typed', () => {
    expect(play([[0, 'abc\r']])).toEqual([scan('abc')])
    expect(play(apart('ab\r', 1))).toEqual([...chars('ab'), ENTER])
  })

  it('too short to be one takes no line end along from the same read: text put in from elsewhere confirms nothing', () => {
    expect(play([[0, 's\n\n\n']])).toEqual(chars('s'))
    expect(play([[0, 't\r\n\r\n']])).toEqual(chars('t'))
    expect(play([[0, 'n\n\nno\n']])).toEqual(chars('nno'))
    expect(
      play([
        [0, 's\n\n'],
        [1, '\n'],
      ]),
    ).toEqual([...chars('s'), ENTER])
    expect(play([[0, '\n\n']])).toEqual([ENTER, ENTER])
  })

  it('keeps characters at most 35 ms apart together, and no slower ones', () => {
    expect(play(apart('C-1041\r', 35))).toEqual([scan('C-1041')])
    expect(play(apart('C-1041\r', 36))).toEqual([...chars('C-1041'), ENTER])
  })

  it('waits up to 100 ms for its ending', () => {
    expect(play([...apart('C-1', 5), [110, '\r']])).toEqual([scan('C-1')])
    expect(play([...apart('C-1', 5), [111, '\r']])).toEqual([...chars('C-1'), ENTER])
  })

  it('followed by another in the same read gives two, in order', () => {
    expect(play([[0, 'C-1041\r\nC-1042\r\n']])).toEqual([scan('C-1041'), scan('C-1042')])
    expect(play([[0, '\x02C-1041\x03\x02C-1042\x03']])).toEqual([scan('C-1041'), scan('C-1042')])
  })

  it('of the same code within 400 ms is given again and marked; later it is new', () => {
    expect(play([[0, 'C-1041\rC-1041\r']])).toEqual([scan('C-1041'), { scan: 'C-1041', again: true }])
    expect(twice(400)).toEqual([scan('C-1041'), { scan: 'C-1041', again: true }])
    expect(twice(401)).toEqual([scan('C-1041'), scan('C-1041')])
  })

  it('holds 200 characters; a longer one is refused whole, ended or not', () => {
    const code = 'A1'.repeat(100)
    expect(play([[0, `${code}\r`]])).toEqual([scan(code)])
    expect(play([[0, `${code}B\r`]])).toEqual([{ scan: '', tooLong: true }])
    expect(play([[0, `${code}B`]])).toEqual([{ scan: '', tooLong: true }])
    expect(play([[0, `\x02${code}B\x03`]])).toEqual([{ scan: '', tooLong: true }])
  })

  it('is not torn by a key that somebody presses meanwhile', () => {
    expect(play([[0, 'C-10\x1b[A41\r']])).toEqual([scan('C-1041')])
  })

  it('never quits the board, though ETX alone is ctrl-c', () => {
    expect(play([[0, '\x02C-1041\x03']])).toEqual([scan('C-1041')])
    expect(play([[0, '\x03']])).toEqual([{ key: 'ctrl-c' }])
    expect(play([[0, 'a\x03']])).toEqual([...chars('a'), { key: 'ctrl-c' }])
  })

  it('of characters outside ASCII survives a cut inside a character', () => {
    const bytes = new TextEncoder().encode('Jäger-7\r')
    const reads = Array.from(bytes, (byte, at) => [at * 3, Uint8Array.of(byte)] as const)
    expect(play(reads)).toEqual([scan('Jäger-7')])
  })

  it('keeps an AIM identifier that is all there is, and brackets of other kinds', () => {
    expect(play([[0, ']C0\r']])).toEqual([scan(']C0')])
    expect(play([[0, ']CXab\r']])).toEqual([scan(']CXab')])
  })

  const code = fc.stringMatching(/^[A-Z][0-9A-Za-z\- ./]{2,30}$/)
  const ending = fc.constantFrom('\r', '\n', '\r\n', '\t')

  it('cut into reads in any way, with gaps of at most 35 ms, is exactly one token', () => {
    const cuts = fc.array(fc.tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 0, max: 35 })), {
      minLength: 40,
      maxLength: 40,
    })
    fc.assert(
      fc.property(code, ending, cuts, (label, end, pieces) => {
        // Six equal characters at a repeating key's pace are taken for one: see the rule on held keys.
        fc.pre(!/^(.)\1{5}/.test(label))
        const bytes = new TextEncoder().encode(label + end)
        const reads: Read[] = []
        let from = 0
        let atMs = 0
        for (const [length, gapMs] of pieces) {
          if (from < bytes.length) reads.push([atMs, bytes.slice(from, from + length)])
          from += length
          atMs += gapMs
        }
        expect(play(reads)).toEqual([scan(label)])
      }),
      { numRuns: 500 },
    )
  })

  it('typed by a person, more than 35 ms a key, is characters and one Enter', () => {
    const gaps = fc.array(fc.integer({ min: 36, max: 400 }), { minLength: 40, maxLength: 40 })
    fc.assert(
      fc.property(code, gaps, (label, waits) => {
        let atMs = 0
        const reads = Array.from(`${label}\r`, (char, at): Read => [(atMs += waits[at] ?? 36), char])
        expect(play(reads)).toEqual([...chars(label), ENTER])
      }),
      { numRuns: 200 },
    )
  })
})

describe('a person at the keys', () => {
  it('who presses one letter waits at most 36 ms for it', () => {
    expect(playTimed([[1000, 'j']])).toEqual([{ token: { char: 'j' }, atMs: 1036 }])
  })

  it('who presses two quickly gives two characters', () => {
    expect(play([[0, 'jj']])).toEqual(chars('jj'))
  })

  it('who types three quickly, without an ending, gets them after about 100 ms', () => {
    expect(playTimed(apart('abc', 20)).map(({ atMs }) => atMs)).toEqual([141, 141, 141])
    expect(play(apart('abc', 20))).toEqual(chars('abc'))
  })

  it('who holds a key down sees it repeat, after the sixth at once', () => {
    const held = playTimed(apart('j'.repeat(30), 33))
    expect(held.map(({ token }) => token)).toEqual(chars('j'.repeat(30)))
    expect(held.slice(6).map(({ atMs }) => atMs)).toEqual(
      Array.from({ length: 24 }, (_, at) => (at + 6) * 33),
    )
  })

  it('who types and then presses a key gets them in that order', () => {
    expect(play([[0, 'ab\x1b[A']])).toEqual([...chars('ab'), { key: 'up' }])
    expect(play([[0, 'abc\x1b[A']])).toEqual([...chars('abc'), { key: 'up' }])
  })

  it('who presses ctrl-b has pressed a key, not begun a scan for ever', () => {
    expect(play([[0, '\x02']])).toEqual([{ key: 'ctrl-b' }])
    expect(
      play([
        [0, '\x02'],
        [300, 'j'],
      ]),
    ).toEqual([{ key: 'ctrl-b' }, { char: 'j' }])
  })
})
