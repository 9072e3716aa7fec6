// The board where there is no terminal, and the demonstration of the first start.
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { bayboard, lines, newPlace, shell } from './run.ts'
import { emptyStation, fitStation } from './two-seats.ts'

const withoutClock = (text: string) => text.replaceAll(/\d\d:\d\d/g, '')

describe('the first start', () => {
  const home = newPlace()
  const env = { XDG_DATA_HOME: home }
  const station = join(home, 'bayboard', 'station')
  let first: ReturnType<typeof bayboard>
  beforeAll(() => {
    first = bayboard([], { env })
  })

  test('makes the demonstration in the XDG data folder and, without a terminal, prints what status prints', () => {
    expect(first.stderr).toBe('')
    expect(first.stdout).toMatch(/^Station 9 \(demonstration\)/)
    expect(first.stdout).toContain('DEMONSTRATION: every person, place and piece of gear here is invented.')
    const { status, stdout } = bayboard(['status'], { env })
    expect(withoutClock(stdout)).toBe(withoutClock(first.stdout))
    expect([first.status, status]).toEqual([1, 1])
  })

  test('makes one that verifies, and the second start makes no other', () => {
    const journal = readFileSync(join(station, 'journal.jsonl'))
    expect(bayboard(['verify'], { env }).status).toBe(0)
    expect(bayboard(['board'], { env }).stdout).toMatch(/^Station 9 \(demonstration\)/)
    expect(readFileSync(join(station, 'journal.jsonl'))).toEqual(journal)
  })

  test('init on the default place says that the demonstration is there and how to set it aside', () => {
    const args = ['init', '--name', 'Station 6', '--time-zone', 'UTC']
    const refused = bayboard(args, { env })
    expect(refused.status).toBe(1)
    expect(refused.stderr).toContain('--set-demonstration-aside')
    const { status, stdout } = bayboard([...args, '--set-demonstration-aside'], { env })
    expect(status).toBe(0)
    expect(stdout).toContain('The demonstration station is now in ')
    expect(bayboard([], { env }).stdout).toMatch(/^Station 6, /)
  })

  test('a pipe that closes early has had what it wanted: no complaint, and 0', () => {
    const one = shell('bayboard policy show | head -1; echo "${PIPESTATUS[0]}"', { env })
    expect(lines(one.stdout)).toEqual([expect.stringMatching(/^Policy: /), '0'])
    // This one has closed before the program writes.
    const none = shell('bayboard status | true; echo "${PIPESTATUS[0]}"', { env })
    expect(none.stdout).toBe('0\n')
    expect(one.stderr + none.stderr).toBe('')
  })
})

test('a start on a folder that was named and holds no station makes none', () => {
  const place = join(newPlace(), 'station')
  for (const ran of [bayboard([], { station: place }), bayboard([], { env: { BAYBOARD_STATION: place } })]) {
    expect(ran).toMatchObject({
      status: 3,
      stdout: '',
      stderr: expect.stringContaining('There is no station in'),
    })
  }
  expect(existsSync(place)).toBe(false)
})

test('without a terminal the board prints what status prints and ends as it does', () => {
  const station = fitStation()
  const { status, stdout } = bayboard([], { station })
  expect(stdout).toContain('E6-1 Officer: Ada Varga (M-104)')
  expect(status).toBe(0)
})

describe('demo', () => {
  test('--no-open makes a station and prints its path, and that verifies', () => {
    const { status, stdout } = bayboard(['demo', '--no-open'], { env: { TMPDIR: newPlace() } })
    expect(status).toBe(0)
    const [path, ...more] = lines(stdout)
    expect(more).toEqual([])
    const verified = bayboard(['verify'], { station: path! })
    expect(verified.status).toBe(0)
    expect(verified.stdout).toMatch(/Seals in the folder seals: (\d+) of \1 hold\./)
  })

  test('its key comes along, so that a hand-over at it is sealed like any other', () => {
    const station = lines(bayboard(['demo', '--no-open'], { env: { TMPDIR: newPlace() } }).stdout)[0]!
    const handOver = { do: 'hand-over', by: 'M-901', to: 'M-912' }
    expect(bayboard(['record'], { station, input: `${JSON.stringify(handOver)}\n` })).toMatchObject({
      status: 0,
      stderr: '',
    })
  })

  test('refuses a folder that holds a station, and says why where it cannot make one', () => {
    const station = emptyStation()
    expect(bayboard(['demo', station, '--no-open'])).toMatchObject({ status: 1, stdout: '' })
    const file = join(newPlace(), 'a-file')
    writeFileSync(file, '')
    expect(bayboard(['demo', join(file, 'demo'), '--no-open'])).toMatchObject({ status: 3, stdout: '' })
  })
})
