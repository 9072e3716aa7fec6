// How large a file may be, and what is said of a larger one.
import { describe, expect, it } from 'vitest'
import { sayFaults } from '../../../src/store/imports/fault.ts'
import { MOST_BYTES } from '../../../src/store/imports/plain-bytes.ts'
import { readGear } from '../../../src/store/imports/read-gear.ts'
import { MOST_ROWS } from '../../../src/store/imports/table.ts'
import { faultsOf, readText, taken } from './sheets.ts'

const says = (input: string | Uint8Array): string[] =>
  sayFaults(faultsOf(readGear(typeof input === 'string' ? Buffer.from(input) : input, { file: 'gear.csv' })))
const hoods = (count: number): string =>
  Array.from({ length: count }, (_, index) => `X-${index},Hood\n`).join('')

// A slow machine may take its time over files this large.
describe('the limits', { timeout: 60_000 }, () => {
  it(`are ${MOST_ROWS} rows`, () => {
    expect(taken(readText(`ID,Type\n${hoods(MOST_ROWS)},\n\n`)).elements).toHaveLength(100_000)
    expect(says(`ID,Type\n${hoods(MOST_ROWS + 1)}`)).toEqual([
      'Line 100002: The file has more than 100,000 rows. Split it and import the parts in turn.',
    ])
  })

  it('are 20 MB', () => {
    const text = 'ID,Type\nX-1,Hood\n'
    expect(taken(readText(text.padEnd(MOST_BYTES, '\n'))).elements).toHaveLength(1)
    expect(says(text.padEnd(MOST_BYTES + 1, '\n'))).toEqual([
      'Line 1: The file is larger than 20 MB. Split it and import the parts in turn.',
    ])
  })

  it('stop a list of bad lines that would help nobody, and say so', () => {
    const quotes = says(`ID,Type\n${'1,Ho"od\n'.repeat(600)}`)
    expect(quotes).toHaveLength(501)
    expect(quotes.at(-1)).toBe('Line 501: 500 rows were already broken. Nothing after this line was read.')
    const bytes = says(Buffer.from(`ID,Type\n${'1,\xff\n'.repeat(600)}`, 'latin1'))
    expect(bytes).toHaveLength(501)
    expect(bytes.at(-1)).toBe('Line 501: Nothing after this line was looked at.')
  })
})
