// Lines of commands: a newline ends one and nothing else, however the bytes arrive.
import { expect, test } from 'vitest'
import { eachLine } from '../../src/cli/each-line.ts'

async function* pieces(bytes: Buffer, length: number) {
  for (let at = 0; at < bytes.length; at += length) yield bytes.subarray(at, at + length)
}
const read = async (text: string, length: number, most = 1000): Promise<string[]> => {
  const lines: string[] = []
  for await (const line of eachLine(pieces(Buffer.from(text), length), most)) lines.push(line)
  return lines
}

// RFC 8259 has U+2028 and U+2029 in a string as they are; some runtimes end a line at them.
const SEPARATED = '{"text":"one\u2028two\u2029three"}'

test.each([1, 2, 3, 7, 1000])('in pieces of %i bytes', async (length) => {
  expect(await read(`${SEPARATED}\né火\r\n\nlast`, length)).toEqual([SEPARATED, 'é火', '', 'last'])
  expect(await read('one\n', length)).toEqual(['one'])
  expect(await read('', length)).toEqual([])
})

test('a line that is too long is told by being longer than was asked for, and the next is whole', async () => {
  expect(await read(`${'x'.repeat(50)}\nnext\n`, 7, 10)).toEqual(['x'.repeat(11), 'next'])
  expect(await read(`${'x'.repeat(10)}\n`, 7, 10)).toEqual(['x'.repeat(10)])
})
