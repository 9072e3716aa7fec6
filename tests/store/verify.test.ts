// That verification names every fault of a journal once, with its line, and goes on.
import { appendFileSync, mkdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { formatLine, sha256, ZEROS } from '../../src/store/line.ts'
import { verifyJournal } from '../../src/store/verify.ts'
import { failingFiles } from './failing-files.ts'
import { bytesIn, draft, drafts, madeJournal, newFolder, pathIn, put } from './station-folder.ts'

const folder = newFolder()
madeJournal(folder, drafts(10)).close()
const sound = bytesIn(folder)
const lines = sound.toString('utf8').trimEnd().split('\n')

const verified = (of: string) => {
  const result = verifyJournal(of)
  if (result.kind !== 'verified') throw new Error(result.kind)
  return result
}

/** Which lines are at fault in a journal of these lines. */
const faultyLines = (written: (string | undefined)[]): number[] => {
  const other = newFolder()
  put(other, `${written.join('\n')}\n`)
  return verified(other).faults.map((fault) => fault.line)
}
const without = (...gone: number[]) => lines.filter((_, i) => !gone.includes(i + 1))
const changedAt = (line: number, from: string, to: string) =>
  lines.map((text, i) => (i + 1 === line ? text.replace(from, to) : text))

describe('a sound journal', () => {
  it('has no fault, and its head and length are told', () => {
    const last = lines.at(-1)?.slice(-66, -2)
    expect(verified(folder)).toEqual({
      kind: 'verified',
      lines: 10,
      head: { seq: 10, hash: last, offset: sound.length },
      faults: [],
    })
  })

  it('is followed to its end by the progress that is told', () => {
    const told: number[][] = []
    verifyJournal(folder, { onProgress: (done, total) => told.push([done, total]) })
    expect(told.at(-1)).toEqual([sound.length, sound.length])
  })
})

describe('any change', () => {
  it('of any one bit is noticed', () => {
    const other = newFolder()
    for (let bit = 0; bit < sound.length * 8; bit++) {
      const bytes = Buffer.from(sound)
      bytes.writeUInt8(bytes.readUInt8(bit >> 3) ^ (1 << (bit & 7)), bit >> 3)
      put(other, bytes)
      const { faults } = verified(other)
      // A bit that makes a newline makes two lines of one; every other change is one fault.
      const parts = bytes[bit >> 3] === 10 ? 2 : 1
      expect({ bit, faults: faults.length }).toEqual({ bit, faults: parts })
    }
  }, 60_000)

  it('of a line is told with its line and its byte', () => {
    const other = newFolder()
    put(other, `${changedAt(4, 'note', 'nope').join('\n')}\n`)
    const offset = Buffer.byteLength(lines.slice(0, 3).join('\n')) + 1
    expect(verified(other).faults).toEqual([
      { line: 4, offset, what: 'The line has been changed: its hash is not the hash of its bytes.' },
    ])
  })

  it('in several places is told for each of them, once', () => {
    const twice = changedAt(3, 'note', 'nope').with(7, lines[7]?.replace('note', 'nope') ?? '')
    expect(faultyLines(twice)).toEqual([3, 8])
  })

  it.each<[string, (string | undefined)[], number[]]>([
    ['a line deleted', without(4), [4]],
    ['three lines deleted', without(4, 5, 6), [4]],
    ['the first line deleted', without(1), [1]],
    ['two lines swapped', without(4).toSpliced(4, 0, lines[3] ?? ''), [4, 5, 6]],
    ['a line doubled', lines.toSpliced(4, 0, lines[3] ?? ''), [5]],
    ['an empty line inserted', lines.toSpliced(4, 0, ''), [5]],
    ['a line of something else inserted', lines.toSpliced(4, 0, 'hello'), [5]],
    ['three lines of something else inserted', lines.toSpliced(4, 0, 'a', 'b', 'c'), [5, 6, 7]],
    ['a line replaced by something else', lines.with(3, 'hello'), [4]],
    ['a line deleted and the next changed', changedAt(5, 'note', 'nope').toSpliced(3, 1), [4, 4]],
    ['a line changed and the next deleted', changedAt(4, 'note', 'nope').toSpliced(4, 1), [4, 5]],
    ['two lines run into one', lines.toSpliced(3, 2, `${lines[3]}x${lines[4]}`), [4]],
    ['the stated hash changed', lines.with(3, `${lines[3]?.slice(0, -66)}${ZEROS}"}`), [4]],
  ])('%s is noticed', (_, written, expected) => {
    expect(faultyLines(written)).toEqual(expected)
  })

  it('that was hashed again is noticed at the line after it', () => {
    const again = formatLine(draft('another text'), 4, lines[2]?.slice(-66, -2) ?? '').line
    expect(faultyLines(lines.with(3, again))).toEqual([5])
  })

  it('that was hashed again but is no JSON is noticed in its own line', () => {
    const body = lines[9]?.slice(0, -75).replace('"data":{', '"data":{,') ?? ''
    expect(faultyLines(lines.with(9, `${body},"hash":"${sha256(body)}"}`))).toEqual([10])
  })

  it('is noticed in a line longer than one read', () => {
    const other = newFolder()
    madeJournal(other, [draft('x'.repeat(3_000_000)), draft('y')]).close()
    expect(verified(other)).toMatchObject({ lines: 2, faults: [] })
    const bytes = bytesIn(other)
    bytes.write('z', 2_500_000)
    put(other, bytes)
    expect(verified(other).faults.map((fault) => fault.line)).toEqual([1])
  })
})

describe('what is no fault', () => {
  it('is a torn tail, which is told apart', () => {
    const other = newFolder()
    put(other, sound)
    appendFileSync(pathIn(other), '{"seq":11,')
    expect(verified(other)).toMatchObject({
      lines: 10,
      faults: [],
      torn: { offset: sound.length, bytes: 10 },
    })
    put(other, sound.subarray(0, -1))
    expect(verified(other)).toMatchObject({ lines: 9, faults: [], torn: { bytes: lines[9]?.length ?? 0 } })
  })

  it('is a journal that is not there or cannot be read', () => {
    expect(verifyJournal(newFolder())).toEqual({ kind: 'no-station' })
    const { files } = failingFiles({ call: 'read', code: 'EIO' })
    expect(verifyJournal(folder, { files })).toMatchObject({ kind: 'unreadable' })
    const other = newFolder()
    mkdirSync(pathIn(other))
    expect(verifyJournal(other)).toMatchObject({
      kind: 'unreadable',
      sentence: expect.stringContaining('EISDIR'),
    })
  })
})
