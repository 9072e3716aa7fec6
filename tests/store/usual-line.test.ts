// The quick reading of a line takes nothing that the full check would refuse, and gives the same entry.
import { array, assert, constantFrom, dictionary, jsonValue, property, string } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkLine, formatLine, sha256, ZEROS } from '../../src/store/line.ts'
import { usualEntry } from '../../src/store/usual-line.ts'
import { draft } from './station-folder.ts'

const fully = (text: string) => {
  const checked = checkLine(Buffer.from(text, 'latin1'), 1, ZEROS)
  return checked.ok ? checked.entry : undefined
}
/** Whether it was taken; if so it is what the full check makes of it. */
function agrees(text: string): boolean {
  const quick = usualEntry(text, 1, ZEROS)
  if (quick !== undefined) expect({ text, entry: quick }).toEqual({ text, entry: fully(text) })
  return quick !== undefined
}
const signed = (members: string, prev = ZEROS): string => {
  const body = `{"seq":1,${members},"prev":"${prev}"`
  return `${body},"hash":"${sha256(body)}"}`
}

describe('the quick way', () => {
  it('takes whatever the program writes in plain letters', () => {
    assert(
      property(dictionary(string(), jsonValue()), (data) => {
        expect(agrees(formatLine({ ...draft('Hose checked.'), data }, 1, ZEROS).line)).toBe(true)
      }),
      { numRuns: 200 },
    )
  })

  const PIECES = [
    '"at":"t"',
    '"by":"b"',
    '"type":"t"',
    '"data":{}',
    '"data":{"a":1}',
    '"data":[]',
    '"data":null',
    '"seq":2',
    `"prev":"${ZEROS}"`,
    '"__proto__":{}',
    ',',
    ',',
    ',',
    '{',
    '}',
    '"',
    '\\',
    ' ',
  ]

  it('never takes members that the full check refuses, whatever a writer signed', () => {
    const usual = '"at":"t","by":"b","type":"t","data":{}'
    const counted = { taken: 0, left: 0 }
    const judge = (members: string) => counted[agrees(signed(members)) ? 'taken' : 'left']++
    assert(
      property(array(constantFrom(...PIECES), { maxLength: 6 }), (pieces) => {
        judge(pieces.join(''))
        judge(`${usual}${pieces.join('')}`)
        judge(usual.split(',').join(pieces[0] ?? ',') + pieces.slice(1).join(''))
      }),
      { numRuns: 2000 },
    )
    judge('"at":"t","by":"b","type":"t","data":{"a":{"b":["c",1,null]}}')
    expect(Math.min(counted.taken, counted.left)).toBeGreaterThan(20)
  })

  it.each([
    ['another place in the chain', signed('"at":"t","by":"b","type":"t","data":{}', '1'.repeat(64))],
    ['a letter too many at its end', `${signed('"at":"t","by":"b","type":"t","data":{}')} `],
    ['too few letters to be a line', '{"seq":1,'],
    ['nothing', ''],
  ])('leaves %s to the full check', (_, text) => expect(agrees(text)).toBe(false))

  it('notices every changed bit', () => {
    const { line } = formatLine(draft('Hose checked.'), 1, ZEROS)
    for (let bit = 0; bit < line.length * 8; bit++) {
      const changed = Buffer.from(line)
      changed.writeUInt8(changed.readUInt8(bit >> 3) ^ (1 << (bit & 7)), bit >> 3)
      expect({ bit, entry: usualEntry(changed.toString('latin1'), 1, ZEROS) }).toEqual({ bit })
    }
  })
})
