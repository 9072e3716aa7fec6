// Whatever a scanner sends, however the line cuts it: each label is one token, once, in order, and nothing else is left over.
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { play, type Read } from './reads.ts'

/** As labels here are: an id or a serial, no six equal characters in front (that is a held key). */
const code = fc.stringMatching(/^[A-Z0-9][0-9A-Za-z\-./]{2,24}$/).filter((each) => !/^(.)\1{5}/.test(each))
const ending = fc.constantFrom('\r', '\n', '\r\n', '\t')
/** How the scanner is set: a line end, a frame, or both. */
const wrapping = fc.oneof(
  ending.map((end) => ({ before: '', after: end })),
  fc.constant({ before: '\x02', after: '\x03' }),
  ending.map((end) => ({ before: '\x02', after: `\x03${end}` })),
  ending.map((end) => ({ before: ']C1', after: end })),
)
const labels = fc.array(code, { minLength: 1, maxLength: 5 })
/** Pieces of one to seven bytes, up to 30 ms apart. */
const cuts = fc.array(fc.tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 0, max: 30 })), {
  minLength: 200,
  maxLength: 200,
})

function cut(text: string, pieces: readonly (readonly [number, number])[]): Read[] {
  const bytes = new TextEncoder().encode(text)
  const reads: Read[] = []
  let from = 0
  let atMs = 0
  for (const [length, gapMs] of pieces) {
    if (from >= bytes.length) break
    reads.push([atMs, bytes.slice(from, from + length)])
    from += length
    atMs += gapMs
  }
  return reads
}

/** What has to come of these labels: each once; the same one again at once is marked so. */
const codesOf = (tokens: readonly object[]): unknown[] =>
  tokens.map((each) => ('scan' in each ? each.scan : each))

describe('any labels, one after the other', () => {
  it('are as many tokens, however the bytes are cut', () => {
    fc.assert(
      fc.property(labels, wrapping, cuts, (all, { before, after }, pieces) => {
        const sent = all.map((each) => before + each + after).join('')
        expect(codesOf(play(cut(sent, pieces)))).toEqual(all)
      }),
      { numRuns: 400, seed: 8 },
    )
  })

  it('are the same tokens whole as cut anywhere within one moment', () => {
    // Escape is left out: Alt with a letter is told from two keys by coming in one read.
    const noise = fc.string({
      unit: fc.constantFrom('a', 'Q', '7', '-', '\r', '\n', '\t', '\x02', '\x03', 'ä', '漢'),
      maxLength: 40,
    })
    fc.assert(
      fc.property(noise, cuts, (text, pieces) => {
        const whole = play([[0, new TextEncoder().encode(text)]])
        const parts = play(
          cut(
            text,
            pieces.map(([length]) => [length, 0] as const),
          ),
        )
        expect(parts).toEqual(whole)
      }),
      { numRuns: 500, seed: 9 },
    )
  })

  it('with the prefix of the station lose it, and keep what only looks like it', () => {
    fc.assert(
      fc.property(
        labels,
        ending,
        cuts,
        fc.constantFrom('~', '@1', ']d2', 'SCAN:'),
        (all, end, pieces, prefix) => {
          const sent = all.map((each) => `${prefix}${each}${end}`).join('')
          expect(codesOf(play(cut(sent, pieces), prefix))).toEqual(all)
          expect(codesOf(play(cut(all.map((each) => each + end).join(''), pieces), prefix))).toEqual(all)
        },
      ),
      { numRuns: 200, seed: 10 },
    )
  })

  it.each([
    ['the prefix alone is a code of its own', 'SCAN:', 'SCAN:\r', 'SCAN:'],
    ['the prefix goes before an AIM identifier', '~', '~]C0K-9071\r', 'K-9071'],
    ['a prefix inside a code stays', '-', 'K-9071\r', 'K-9071'],
  ])('%s', (_, prefix, sent, read) => {
    expect(play([[0, sent]], prefix)).toEqual([{ scan: read }])
  })
})
