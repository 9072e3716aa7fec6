// That a journal which a thread checks ahead is read to the same entries, and refused in the same words, as one read plainly.
import { openSync, writeSync, closeSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { aheadInThread, type AheadTask, type ReadAhead } from '../../src/store/ahead.ts'
import { openJournal } from '../../src/store/journal.ts'
import { formatLine, ZEROS, type Draft, type Entry } from '../../src/store/line.ts'
import { START } from '../../src/store/position.ts'
import { builtPart, NO_SUCH_PART, NO_THREAD_AT_ALL, partThatDies } from './parts.ts'
import { bytesIn, draft, drafts, newFolder, pathIn, put } from './station-folder.ts'

const nested: Draft = {
  ...draft(''),
  data: { text: 'nested', a: [{ b: { c: ['d', -1.5e3, null] } }], '': {} },
}
/** More than the memory between the threads holds at once, and among it what is seldom: a line longer than any piece of that memory is. */
const written = [
  ...drafts(3),
  draft('naïve, "quoted" 消'),
  nested,
  ...Array.from({ length: 60 }, (_, at) => draft(`${at} `.repeat(6000))),
  draft('long '.repeat(40_000)),
  draft('long '.repeat(40_000)),
  ...drafts(10_000),
  draft('long '.repeat(40_000)),
]
const lines: string[] = []
for (let prev = ZEROS; lines.length < written.length;) {
  const { line, hash } = formatLine(written[lines.length]!, lines.length + 1, prev)
  lines.push(`${line}\n`)
  prev = hash
}
const sound = Buffer.from(lines.join(''))
const startOf = (line: number): number => Buffer.byteLength(lines.slice(0, line - 1).join(''))

let part: URL
beforeAll(() => {
  part = builtPart('ahead')
}, 120_000)

/** What was handed over by a thread, by how many times. */
let handedOver: number[] = []
const ahead = (
  from: URL,
  between: (times: number) => void = () => undefined,
  longestWaitMs = 20_000,
): ReadAhead => ({
  long: 0,
  begin(task: AheadTask) {
    handedOver = []
    const thread = aheadInThread(from, longestWaitMs)(task)
    return {
      ...thread,
      next(head) {
        const got = thread.next(head)
        if (got !== undefined) handedOver.push(got.entries?.length ?? 0)
        between(handedOver.length)
        return got
      },
    }
  },
})

const readFrom = (folder: string, by: ReadAhead | undefined, from = START) => {
  const opened = openJournal(folder, { ahead: by, from })
  if (opened.kind !== 'opened') return opened
  const { journal } = opened
  const entries: Entry[] = []
  const caughtUp = journal.catchUp((entry) => entries.push(entry))
  const { head, stopped } = journal
  journal.close()
  return { caughtUp, entries, head, stopped }
}

const folder = newFolder()
put(folder, sound)
const total = () => handedOver.reduce((sum, count) => sum + count, 0)

describe('a journal that a thread checks ahead', () => {
  it('is read to the same entries, from its start and from a place in it', () => {
    const plain = readFrom(folder, undefined)
    expect(plain).toMatchObject({ caughtUp: { kind: 'whole', count: written.length } })
    expect(readFrom(folder, ahead(part))).toEqual(plain)
    // All but the three that are too long for it, which leave a place of their own.
    expect(total()).toBe(written.length - 3)
    expect(handedOver.filter((count) => count === 0).length).toBe(3)
    expect(handedOver.length).toBeGreaterThan(16)

    const half = formatLine(written[39]!, 40, JSON.parse(lines[38]!).hash)
    const from = { seq: 40, hash: half.hash, offset: startOf(41) }
    expect(readFrom(folder, ahead(part), from)).toEqual(readFrom(folder, undefined, from))
    expect(total()).toBe(written.length - 3 - 40)
  })

  const changed = (at: number, to = 'x'): Buffer => {
    const bytes = Buffer.from(sound)
    bytes.write(to, at, 'latin1')
    return bytes
  }
  const last = lines.length
  const LONG = 66
  it.each([
    ['in its first line', () => changed(40)],
    ['in the first line of a later piece', () => changed(startOf(1025) + 80)],
    ['in its middle', () => changed(startOf(6000) + 200)],
    ['in what a line says it follows', () => changed(startOf(6001) - 120)],
    ['in a line that is left to the reader', () => changed(startOf(LONG) + 90_000)],
    ['in the line after that', () => changed(startOf(LONG + 1) + 100)],
    ['in its last line', () => changed(startOf(last) + 300)],
    ['by a line that is gone', () => Buffer.from(lines.toSpliced(5000, 1).join(''))],
    [
      'by lines that have changed places',
      () => Buffer.from(lines.with(70, lines[71]!).with(71, lines[70]!).join('')),
    ],
    ['by a byte that is no letter of any text', () => changed(startOf(4) + 150, '\xff')],
    ['by a newline too many', () => changed(startOf(3000) + 120, '\n')],
    ['by the loss of a newline', () => changed(startOf(3000) - 1)],
    ['by an end that was cut off', () => sound.subarray(0, -100)],
    ['by an end of zeros', () => Buffer.from(sound).fill(0, sound.length - (sound.length % 512))],
  ])('is refused in the same words where it is damaged %s', (_, damaged) => {
    const other = newFolder()
    put(other, damaged())
    const plain = readFrom(other, undefined)
    expect(plain).not.toMatchObject({ caughtUp: { kind: 'whole' } })
    expect(readFrom(other, ahead(part))).toEqual(plain)
  })

  it('gives no byte but those that were checked, whatever becomes of the file meanwhile', () => {
    const other = newFolder()
    put(other, sound)
    const plain = readFrom(other, undefined)
    const spoil = (times: number): void => {
      if (times !== 2) return
      const fd = openSync(pathIn(other), 'r+')
      // The second piece was handed over by now, and the third was read with it.
      for (const line of [12, 20, 30]) writeSync(fd, 'x', startOf(line) + 150)
      closeSync(fd)
    }
    const got = readFrom(other, ahead(part, spoil))
    expect(bytesIn(other).equals(sound)).toBe(false)
    expect(got).toEqual(plain)
    expect(readFrom(other, ahead(part))).toMatchObject({ caughtUp: { kind: 'damaged', count: 11 } })
  })

  const NOT_LONG = 1_500
  const never = () => undefined

  it('is read plainly from where a thread dies', () => {
    const pieces = 9
    const dying = ahead(partThatDies('ahead', { notify: pieces }), never, NOT_LONG)
    expect(readFrom(folder, dying)).toEqual(readFrom(folder, undefined))
    // What it hands over as it dies is whole.
    expect(handedOver.length).toBe(pieces + 1)
    expect(total()).toBeLessThan(written.length - 3)
  })

  it('is refused in the same words where it is damaged behind the place at which a thread died', () => {
    const other = newFolder()
    put(other, changed(startOf(9000) + 200))
    const dying = ahead(partThatDies('ahead', { notify: 2 }), never, NOT_LONG)
    expect(readFrom(other, dying)).toEqual(readFrom(other, undefined))
    expect(handedOver.length).toBe(3)
  })

  it.each([NO_SUCH_PART, NO_THREAD_AT_ALL])(
    'is read plainly where there is no such part to start: %s',
    (part) => {
      const none = ahead(part, never, NOT_LONG)
      expect(readFrom(folder, none)).toEqual(readFrom(folder, undefined))
      expect(handedOver).toEqual([])
    },
  )
})
