// PINs by subcommand and by record: from a pipe, hidden on a terminal, and in no file and no answer.
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { bayboard, fileWith, journalOf, record, recorded } from './run.ts'
import { emptyStation, HOUSE } from './two-seats.ts'

const by = 'M-104'
const [OLD, PIN, WRONG] = ['19283746', '56473829', '91827364']
let station = ''
const everyByte = (): string =>
  readdirSync(station, { recursive: true, encoding: 'utf8' })
    .map((name) => join(station, name))
    .filter((path) => statSync(path).isFile())
    .map((path) => readFileSync(path, 'latin1'))
    .join('')

beforeAll(() => {
  station = emptyStation()
  recorded(station, [
    ...HOUSE,
    { do: 'open-tour', by, tour: 'T-1', platoon: 'B', officer: by, on: '2026-11-24' },
  ])
  expect(bayboard(['pin', 'set', '--by', by], { station, input: `${OLD}\n` }).status).toBe(0)
  expect(bayboard(['pin', 'set', '--by', by], { station, input: `${OLD}\n${PIN}\n` }).status).toBe(0)
})

describe('a PIN', () => {
  test('is set from a pipe: the old one where there is one, then the new one', () => {
    expect(journalOf(station).match(/"type":"pin-set"/g)).toHaveLength(2)
    expect(bayboard(['pin', 'set', '--by', by], { station, input: '12\n' })).toMatchObject({ status: 1 })
    expect(bayboard(['pin', 'set', '--by', by], { station, input: `${PIN}\n12\n` })).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('pin must be 4 to 12 digits'),
    })
  })

  test('is asked for by the adoption of a policy, which reads it from the pipe', () => {
    const overlay = fileWith(JSON.stringify({ name: 'ours', changes: [], add: [] }))
    const adopt = (input: string) => bayboard(['policy', 'adopt', overlay, '--by', by], { station, input })
    expect(adopt('')).toMatchObject({ status: 1, stderr: expect.stringContaining('has a PIN') })
    expect(adopt(`${PIN}\n`)).toMatchObject({ status: 0, stdout: expect.stringContaining('Adopted "ours"') })
  })

  test('wrong is refused and shows in the history of the member; right hands over', () => {
    const handOver = (pin: string) => ({ do: 'hand-over', by, to: by, pin })
    const { status, answers } = record(station, [handOver(WRONG)])
    expect({ status, answers }).toEqual({
      status: 1,
      answers: [{ refused: expect.stringContaining('That is not the PIN of') }],
    })
    const told = bayboard(['history', by], { station }).stdout
    expect(told).toContain('A wrong PIN was given for')
    expect(told).toContain('set a PIN.')
    // By now the wait of a second is over or it is not: both are answers of their own.
    let answer = record(station, [handOver(PIN)]).answers[0]!
    for (let turn = 0; turn < 20 && 'refused' in answer; turn++) {
      expect(answer.refused).toContain('Try again in 1 second.')
      answer = record(station, [handOver(PIN)]).answers[0]!
    }
    expect(answer).toEqual({ accepted: [expect.any(Number)] })
  })

  test('is in no file of the station, whether right or wrong, and in no export', () => {
    const exported = ['json', 'csv', 'text'].map(
      (format) => bayboard(['export', '--format', format], { station }).stdout,
    )
    const all = [everyByte(), ...exported].join('')
    for (const pin of [OLD, PIN, WRONG]) expect(all).not.toContain(pin)
    const kept = /"salt":"([^"]+)","hash":"([^"]+)"/.exec(journalOf(station))!
    for (const part of kept.slice(1)) expect(exported.join('')).not.toContain(part)
  })

  test('in the schema is a pattern and is written only', () => {
    const schema = bayboard(['schema', 'command']).stdout
    expect(schema).toContain('"pattern": "^[0-9]{4,12}$"')
    expect(schema).toContain('"writeOnly": true')
  })

  test('is not asked for where it could not be set or cleared anyway: what it is refused for is said at once', () => {
    const nobody = 'bayboard: There is no member NOPE in this station. Nothing was recorded.\n'
    for (const args of [
      ['set', '--by', 'NOPE'],
      ['clear', by, '--by', 'NOPE', '--why', 'x'],
    ])
      expect(bayboard(['pin', ...args], { station })).toEqual({ status: 1, stdout: '', stderr: nobody })
    expect(bayboard(['pin', 'clear', 'NOPE', '--by', by, '--why', 'x'], { station })).toEqual({
      status: 1,
      stdout: '',
      stderr: 'bayboard: There is no member NOPE in this station.\n',
    })
  })

  test('that is forgotten is cleared by somebody else, and the answer says whose it was', () => {
    const clear = (who: string) =>
      bayboard(['pin', 'clear', by, '--by', who, '--why', 'forgotten'], { station })
    expect(clear(by).status).toBe(1)
    const { status, stdout, stderr } = clear('M-105')
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    expect(stdout).toMatch(/^The PIN of .+ \(M-104\) is cleared, as event \d+\.\n$/)
    expect(bayboard(['history', by], { station }).stdout).toContain('Cleared the PIN of')
  })
})
