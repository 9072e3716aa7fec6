// That a journal checked in two halves at once is told of to the letter as one read from its first line to its last.
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { realFiles } from '../../src/store/files.ts'
import { checkPiece } from '../../src/store/piece.ts'
import { inThread, type Begin } from '../../src/store/two-pieces.ts'
import { verifyJournal, type VerifyOptions } from '../../src/store/verify.ts'
import { builtPart, NO_SUCH_PART, NO_THREAD_AT_ALL, partThatDies } from './parts.ts'
import { bytesIn, draft, drafts, madeJournal, newFolder, put } from './station-folder.ts'

const folder = newFolder()
madeJournal(folder, [...drafts(8), draft('naïve, "quoted"'), ...drafts(5)]).close()
const sound = bytesIn(folder)
const lines = sound.toString('utf8').trimEnd().split('\n')

let halvesThatWereWell = 0
const here: Begin = (task) => () => {
  const piece = checkPiece(realFiles, task)
  if (piece) halvesThatWereWell++
  return piece
}
const wanted = new Set([1, 7, 14])

const toldOf = (of: string, options: VerifyOptions) => {
  const seen: unknown[] = []
  const result = verifyJournal(of, {
    ...options,
    notice: (line, text, frame) => wanted.has(line) && seen.push([line, text, frame]),
  })
  return { result, seen }
}
/** With long enough for a thread to start, since so short a journal is done before. */
const begun =
  (begin: Begin): Begin =>
  (task) => {
    const finish = begin(task)
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 2000)
    return finish
  }
const inTwo = (middle: number): VerifyOptions => ({ long: 0, begin: here, middle, wanted })

describe('a journal in two halves', () => {
  it('that is sound is told of in the same way wherever it is parted', () => {
    const whole = toldOf(folder, {})
    halvesThatWereWell = 0
    for (let middle = 0; middle < sound.length; middle++) {
      expect(toldOf(folder, inTwo(middle))).toEqual(whole)
    }
    // All but those parted inside the last line.
    expect(halvesThatWereWell).toBe(sound.length - Buffer.byteLength(lines.at(-1)!) - 1)
  })

  const place = fc.nat({ max: lines.length - 1 })
  const damage = fc.oneof(
    fc.record({
      kind: fc.constant('bit' as const),
      at: fc.nat({ max: sound.length - 1 }),
      bit: fc.nat({ max: 7 }),
    }),
    fc.record({ kind: fc.constant('cut' as const), at: fc.nat({ max: sound.length }) }),
    fc.record({ kind: fc.constant('swapped' as const), one: place, other: place }),
    fc.record({ kind: fc.constant('repeated' as const), one: place, other: place }),
    fc.record({ kind: fc.constant('gone' as const), one: place }),
  )
  type Damage = typeof damage extends fc.Arbitrary<infer T> ? T : never
  const damaged = (how: Damage): Buffer => {
    if (how.kind === 'cut') return sound.subarray(0, how.at)
    if (how.kind === 'bit') {
      const bytes = Buffer.from(sound)
      bytes[how.at]! ^= 1 << how.bit
      return bytes
    }
    const one = lines[how.one]!
    const written =
      how.kind === 'swapped'
        ? lines.with(how.one, lines[how.other]!).with(how.other, one)
        : how.kind === 'repeated'
          ? lines.toSpliced(how.other, 0, one)
          : lines.toSpliced(how.one, 1)
    return Buffer.from(`${written.join('\n')}\n`)
  }

  it('that is damaged in any way is told of in the same words, wherever it is parted', () => {
    const other = newFolder()
    fc.assert(
      fc.property(damage, fc.nat({ max: sound.length }), (how, anywhere) => {
        const bytes = damaged(how)
        const size = bytes.length
        put(other, bytes)
        const whole = toldOf(other, {})
        // Anywhere, and at and around the place of the damage.
        const near = 'at' in how ? how.at : Buffer.byteLength(lines.slice(0, how.one).join('\n'))
        for (const middle of [anywhere, near - 1, near, near + 1]) {
          expect(toldOf(other, inTwo(Math.max(0, Math.min(middle, size))))).toEqual(whole)
        }
      }),
      { numRuns: 600 },
    )
  })

  it('is read plainly where the thread of the second half does not come', () => {
    expect(verifyJournal(folder, { long: 0, begin: () => () => undefined })).toEqual(verifyJournal(folder))
  })

  it('is checked by a thread of the built program, which says nothing of a half that is not sound', () => {
    const inBuilt = inThread(builtPart('piece'))
    const answers: boolean[] = []
    const begin: Begin = (task) => {
      const finish = begun(inBuilt)(task)
      return () => {
        const piece = finish()
        answers.push(piece !== undefined)
        return piece
      }
    }
    const other = newFolder()
    for (const bytes of [sound, Buffer.from(sound).fill('x', sound.length - 200, sound.length - 199)]) {
      put(other, bytes)
      expect(toldOf(other, { long: 0, begin, wanted })).toEqual(toldOf(other, {}))
    }
    expect(answers).toEqual([true, false])
  }, 120_000)

  it('is read plainly where the thread dies halfway, whatever is wrong with it', () => {
    const begin = begun(inThread(partThatDies('piece', { read: 0 }), 500))
    const other = newFolder()
    for (const bytes of [sound, Buffer.from(sound).fill('x', sound.length - 200, sound.length - 199)]) {
      put(other, bytes)
      expect(toldOf(other, { long: 0, begin, wanted })).toEqual(toldOf(other, {}))
    }
  }, 120_000)

  it.each([NO_SUCH_PART, NO_THREAD_AT_ALL])(
    'is read plainly where there is no such part to start: %s',
    (part) => {
      const begin = inThread(part)
      expect(verifyJournal(folder, { long: 0, begin })).toEqual(verifyJournal(folder))
    },
  )
})
