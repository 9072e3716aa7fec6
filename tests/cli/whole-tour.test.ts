// A whole tour by `record` alone, and its journal checked by tools that share no code with the program.
import { spawnSync } from 'node:child_process'
import { existsSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { readinessLogShape } from '../../src/exports/readiness-log.ts'
import { statusShape } from '../../src/exports/status.ts'
import { asLines, bayboard, fileWith, journalOf, lines, newPlace, record, shell, type Told } from './run.ts'
import { answers, daysAgo, emptyStation, HOUSE, instant, ON_DUTY, TOUR } from './two-seats.ts'

const by = 'M-104'
const swap = (out: string, spare: string): Told => ({ do: 'swap', by, seat: 'E6-2', out, in: spare })
const status = (at?: string) => {
  const ran = bayboard(['status', '--json', ...(at === undefined ? [] : ['--at', at])], { station })
  return { exit: ran.status, told: statusShape.parse(JSON.parse(ran.stdout)) }
}
const rulesAt = (seat: string) => {
  const seats = status().told.rigs.flatMap((rig) => rig.seats)
  return seats.find(({ id }) => id === seat)!.reasons.map(({ element, rule }) => `${element} ${rule}`)
}
const path = () => join(station, 'journal.jsonl')

let station = ''
let recordedSoFar = 1
/** Records commands, each of which must be accepted as the next event. */
function records(...commands: Told[]): void {
  expect(record(station, commands)).toEqual({
    status: 0,
    answers: commands.map((_, index) => ({ accepted: [recordedSoFar + index + 1] })),
  })
  recordedSoFar += commands.length
}

describe('from an empty folder to the hand-over', () => {
  let ready = ''
  beforeAll(() => {
    station = emptyStation()
  })

  test('the house is set up from a file: a rig, members, two ensembles, spares, their cares and fit tests', () => {
    const file = fileWith(asLines(HOUSE), 'house.jsonl')
    const { status, stdout } = bayboard(['record', '--file', file], { station })
    expect(status).toBe(0)
    expect(lines(stdout)).toHaveLength(HOUSE.length)
    recordedSoFar += HOUSE.length
  })

  test('the tour opens, both positions are filled, the cylinders are read: all may ride, nobody has answered', () => {
    records(...ON_DUTY)
    const { exit, told } = status()
    expect(exit).toBe(0)
    expect(told.rigs[0]!.seats.map(({ fit, answered }) => ({ fit, answered }))).toEqual([
      { fit: true, answered: false },
      { fit: true, answered: false },
    ])
    ready = instant()
  })

  test('the roll call finds a torn liner: the driver may not ride, and so the rig cannot', () => {
    const finding = { element: 'L-2', point: 'torn seam at the left armhole', matter: 'safety' }
    records(answers('E6-1'), answers('E6-2', [finding]))
    expect(status().exit).toBe(1)
    expect(rulesAt('E6-2')).toEqual(['L-2 tagged-out'])
    expect(status().told.rigs[0]).toMatchObject({ canRide: false, fit: 1 })
  })

  test('the spare liner alone is no coat; with its shell and device of one assembly all may ride again', () => {
    records(swap('L-2', 'L-9'))
    expect(rulesAt('E6-2')).toContain('L-9 one-assembly')
    expect(status().exit).toBe(1)
    records(swap('C-2', 'C-9'), swap('D-2', 'D-9'))
    expect(rulesAt('E6-2')).toEqual([])
    expect(status().exit).toBe(0)
  })

  test('smoke at an incident takes the officer’s whole ensemble out of service', () => {
    records({
      do: 'record-exposure',
      by,
      exposure: 'products-of-combustion',
      seats: ['E6-1'],
      incident: '26-0412',
    })
    expect(status().exit).toBe(1)
    // The air pack has to be checked and the cylinder read as well, once they have been cleaned.
    const all = rulesAt('E6-1')
    const others = all.filter((each) => !/function-check-after-use$|cylinder-pressure$/.test(each))
    expect(others).toHaveLength(12)
    expect(all).toHaveLength(14)
  })

  test('what was known before the roll call is still told as it was', () => {
    expect(status(ready).exit).toBe(0)
    expect(status(ready).told.rigs[0]!.seats.map((seat) => seat.member)).toEqual(['M-104', 'M-105'])
  })

  test('the tour is handed over, the next one opens, and its officer acknowledges the torn liner', () => {
    records({ do: 'hand-over', by, to: 'M-207' })
    const tour = `${daysAgo(0)}-C`
    const next = { by: 'M-207' }
    records(
      { do: 'open-tour', ...next, tour, platoon: 'C', officer: 'M-207', on: daysAgo(0) },
      { do: 'acknowledge', ...next, item: 'tag-L-2' },
    )
    expect(status().told.rigs[0]!.seats.map((seat) => seat.member)).toEqual([null, null])
  })

  test('the readiness log of the tour is exported in every format', () => {
    const folder = newPlace()
    for (const format of ['text', 'csv', 'json']) {
      const out = join(folder, `log.${format}`)
      const args = ['export', '--tour', TOUR, '--format', format, '--out', out]
      expect(bayboard(args, { station })).toMatchObject({ status: 0, stderr: '' })
      expect(existsSync(out)).toBe(true)
    }
    const { stdout } = bayboard(['export', '--tour', TOUR, '--format', 'json'], { station })
    const log = readinessLogShape.parse(JSON.parse(stdout))
    expect(log.tour).toMatchObject({ id: TOUR, officer: 'M-104', handedOverTo: 'M-207' })
    expect(log.findings).toMatchObject([{ element: 'L-2', seat: 'E6-2', from: 'roll-call' }])
    expect(log.entries.filter(({ section }) => section === 'swaps')).toHaveLength(3)
    expect(log.entries.map(({ type }) => type)).toContain('exposure-recorded')
  })

  test('and the journal of it verifies', () => {
    const { status, stdout } = bayboard(['verify'], { station })
    expect(stdout).toMatch(new RegExp(`^The journal verifies: ${recordedSoFar} lines`))
    expect(status).toBe(0)
  })
})

/** Stands on nothing of the program: only what the README says of the file. */
const CHECKER = `
import hashlib, json, sys
prev = '0' * 64
for number, line in enumerate(open(sys.argv[1], 'rb'), 1):
    body, mark, end = line.rpartition(b',"hash":"')
    event = json.loads(line)
    assert list(event) == ['seq', 'at', 'by', 'type', 'data', 'prev', 'hash'], number
    assert end == event['hash'].encode() + b'"}\\n', number
    assert event['seq'] == number and event['prev'] == prev, number
    assert hashlib.sha256(body).hexdigest() == event['hash'], number
    prev = event['hash']
print(number, prev)
`
const isHere = (program: string) => spawnSync(program, ['--version']).status === 0

describe('checked by other tools', () => {
  test.runIf(isHere('sha256sum'))(
    'the hash of a line is what sha256sum says of it, where that is installed',
    () => {
      for (const number of [1, 2, recordedSoFar]) {
        const line = lines(journalOf(station))[number - 1]!
        const { stdout } = shell(`sed -n ${number}p '${path()}' | head -c -76 | sha256sum`)
        expect(stdout).toBe(`${(JSON.parse(line) as { hash: string }).hash}  -\n`)
      }
    },
  )

  test.runIf(isHere('python3'))(
    'every line and the chain hold for a reader in Python, where that is installed',
    () => {
      const check = (file: string) => spawnSync('python3', ['-c', CHECKER, file], { encoding: 'utf8' })
      const { hash } = JSON.parse(lines(journalOf(station)).at(-1)!) as { hash: string }
      expect(check(path())).toMatchObject({ status: 0, stdout: `${recordedSoFar} ${hash}\n` })
      const changed = join(newPlace(), 'changed.jsonl')
      writeFileSync(changed, journalOf(station).replace('torn seam', 'worn seam'))
      expect(check(changed).stderr).toContain('AssertionError')
    },
  )
})
