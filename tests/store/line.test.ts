// What a line of the journal looks like and how it is checked, against outside sources and standard tools.
import { execFileSync } from 'node:child_process'
import { array, assert, constantFrom, dictionary, jsonValue, property, string } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkLine, formatLine, frameOf, plainFrame, readEntry, sha256, ZEROS } from '../../src/store/line.ts'
import { draft } from './station-folder.ts'

const lineOf = (text: string): Buffer => Buffer.from(formatLine(draft(text), 1, ZEROS).line)

const hashByTools = (input: string, cut: number) =>
  execFileSync('sh', ['-c', `head -c -${cut} | sha256sum`], { input, encoding: 'utf8' }).slice(0, 64)

// A line made by a faulty or hostile writer: the hash is right for its bytes, and still it is no entry.
const rehashed = (body: Buffer | string): Buffer =>
  Buffer.concat([Buffer.from(body), Buffer.from(`,"hash":"${sha256(body)}"}`)])

describe('the hash', () => {
  // FIPS 180-4, the SHA-256 example messages (the empty message is from the NIST CAVP short-message vectors).
  it.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
  ])('of %j is the published one', (message, digest) => {
    expect(sha256(message)).toBe(digest)
    expect(sha256(Buffer.from(message))).toBe(digest)
  })
})

describe('a line', () => {
  it('has its members in the agreed order and the hash of all before ,"hash":"', () => {
    const { line, hash } = formatLine(draft('Hose checked.'), 7, 'a'.repeat(64))
    expect(line).toBe(
      '{"seq":7,"at":"2026-11-24T07:02:11.482-05:00","by":"M-104","type":"noted","data":{"text":"Hose checked."},' +
        `"prev":"${'a'.repeat(64)}","hash":"${hash}"}`,
    )
    expect(hash).toBe(sha256(line.slice(0, line.indexOf(',"hash":"'))))
  })

  it('can be checked with head and sha256sum', () => {
    const { line, hash } = formatLine(draft('Señal é 火'), 1, ZEROS)
    // The hash member is 75 bytes long; as sed or grep prints the line, its newline is the 76th.
    expect(hashByTools(`${line}\n`, 76)).toBe(hash)
    expect(hashByTools(line, 75)).toBe(hash)
    expect(hashByTools(line, 74)).not.toBe(hash)
  })

  it.each([
    ['NUL', '\u0000', '\\u0000'],
    ['ESC', '\u001b', '\\u001b'],
    ['the last of C0', '\u001f', '\\u001f'],
    ['DEL', '\u007f', '\\u007f'],
    ['the first of C1', '\u0080', '\\u0080'],
    ['CSI', '\u009b', '\\u009b'],
    ['the last of C1', '\u009f', '\\u009f'],
    ['the Arabic letter mark', '\u061c', '\\u061c'],
    ['the left-to-right mark', '\u200e', '\\u200e'],
    ['the right-to-left mark', '\u200f', '\\u200f'],
    ['the line separator', '\u2028', '\\u2028'],
    ['the paragraph separator', '\u2029', '\\u2029'],
    ['the first embedding', '\u202a', '\\u202a'],
    ['the right-to-left override', '\u202e', '\\u202e'],
    ['the first isolate', '\u2066', '\\u2066'],
    ['the last isolate', '\u2069', '\\u2069'],
    ['a lone surrogate', '\ud800', '\\ud800'],
  ])('escapes %s and gives it back unchanged', (_, raw, escaped) => {
    const line = lineOf(`a${raw}b`)
    expect(line.toString('utf8')).toContain(`"a${escaped}b"`)
    const checked = checkLine(line, 1, ZEROS)
    expect(checked.ok && checked.entry.data).toEqual({ text: `a${raw}b` })
  })

  it.each(['~', '\u00a0', '\u061b', '\u200d', '\u2010', '\u2027', '\u202f', '\u2065', '\u206a', '😀'])(
    'leaves %j as it is',
    (raw) => expect(lineOf(raw).toString('utf8')).toContain(`{"text":"${raw}"}`),
  )

  it('escapes in member names, in by and in type as well', () => {
    const { line } = formatLine(
      { at: '\u202e', by: '\u009b', type: '\u007f', data: { '\u2028': 1 } },
      1,
      ZEROS,
    )
    expect(line).toMatch(/^[\u0020-\u007e]+$/)
    expect(checkLine(Buffer.from(line), 1, ZEROS).ok).toBe(true)
  })

  it('is refused for data that are not a JSON object', () => {
    expect(() => formatLine({ ...draft(''), data: [1] }, 1, ZEROS)).toThrow('not a JSON object')
  })
})

/** Is it told by the quick way? */
const isPlain = (bytes: Buffer): boolean =>
  plainFrame(bytes, bytes.toString('latin1'), 1, ZEROS) !== undefined

describe('checking a line', () => {
  it('takes back whatever JSON object was written', () => {
    assert(
      property(dictionary(string({ unit: 'binary' }), jsonValue()), (data) => {
        const bytes = Buffer.from(formatLine({ ...draft(''), data }, 1, ZEROS).line)
        const checked = checkLine(bytes, 1, ZEROS)
        expect(checked.ok && checked.entry.data).toEqual(JSON.parse(JSON.stringify(data)))
      }),
      { numRuns: 200 },
    )
  })

  it('notices every changed bit', () => {
    const line = lineOf('Hose checked.')
    for (let bit = 0; bit < line.length * 8; bit++) {
      const changed = Buffer.from(line)
      changed.writeUInt8(changed.readUInt8(bit >> 3) ^ (1 << (bit & 7)), bit >> 3)
      expect({ bit, ok: checkLine(changed, 1, ZEROS).ok }).toEqual({ bit, ok: false })
    }
  })

  it('notices another seq and another prev', () => {
    expect(checkLine(lineOf('x'), 2, ZEROS)).toEqual({
      ok: false,
      what: 'The line has seq 1 where seq 2 belongs.',
    })
    expect(checkLine(lineOf('x'), 1, 'b'.repeat(64))).toMatchObject({ ok: false })
  })

  const end = `,"prev":"${ZEROS}"`
  it.each([
    ['no JSON', `{"seq":1,"at":"t","by":"b","type":"t","data":{"a":}${end}`, 'not JSON'],
    ['an extra member', `{"seq":1,"at":"t","by":"b","type":"t","x":1,"data":{}${end}`, 'members'],
    ['another order', `{"seq":1,"by":"b","at":"t","type":"t","data":{}${end}`, 'members'],
    ['a second seq', `{"seq":1,"at":"t","by":"b","type":"t","data":{},"seq":9${end}`, 'members'],
    ['a list for data', `{"seq":1,"at":"t","by":"b","type":"t","data":[]${end}`, 'members'],
    ['a seq of 01', `{"seq":01,"at":"t","by":"b","type":"t","data":{}${end}`, 'not built'],
    [
      'a byte that is not UTF-8',
      Buffer.from(`{"seq":1,"at":"\xff","by":"b","type":"t","data":{}${end}`, 'latin1'),
      'UTF-8',
    ],
  ])('refuses %s under a right hash', (_, body, words) => {
    const checked = checkLine(rehashed(body), 1, ZEROS)
    expect(checked.ok ? '' : checked.what).toContain(words)
    expect(isPlain(rehashed(body))).toBe(false)
  })

  it('by the quick way never takes what the full way refuses', () => {
    const pieces = [
      '"a"',
      ':',
      ',',
      '{',
      '}',
      '[',
      ']',
      '1',
      '01',
      '-',
      'null',
      'tru',
      '"\\n"',
      '"\t"',
      ' ',
      '""',
      '1e5',
    ]
    let taken = 0
    const judge = (data: string) => {
      const bytes = rehashed(`{"seq":1,"at":"t","by":"b","type":"t","data":{${data}}${end}`)
      const frame = frameOf(bytes)
      if (frame === undefined) throw new Error('the line has no frame')
      if (!isPlain(bytes)) return
      taken++
      expect({ data, ok: readEntry(bytes, frame).ok }).toEqual({ data, ok: true })
    }
    assert(
      property(array(constantFrom(...pieces), { maxLength: 8 }), (p) => judge(p.join(''))),
      {
        numRuns: 3000,
      },
    )
    for (const data of ['', '"a":1', '"a":[1,"b",null],"b":true', '"a":[]']) judge(data)
    expect(taken).toBeGreaterThanOrEqual(4)
  })
})
