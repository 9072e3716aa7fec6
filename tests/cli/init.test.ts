// `bayboard init`: makes an empty station once, and never touches a folder that holds one.
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { bayboard, journalOf, lines, newPlace } from './run.ts'

const GOOD = ['--name', 'Station 6', '--time-zone', 'America/New_York']
const init = (station: string, ...args: string[]) => bayboard(['init', ...args], { station })

test('makes the folder, the parents it needs and one event that says what the station is', () => {
  const station = join(newPlace(), 'county', 'station-6')
  const { status, stdout, stderr } = init(station, ...GOOD, '--rotation', '48/96', '--starts', '08:30')
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
  expect(stdout).toContain(`Made Station 6 in ${station}.`)
  const [first, ...more] = lines(journalOf(station))
  expect(more).toEqual([])
  expect(JSON.parse(first!)).toMatchObject({
    seq: 1,
    by: 'setup',
    type: 'station-made',
    data: {
      format: 1,
      name: 'Station 6',
      timeZone: 'America/New_York',
      rotation: '48/96',
      starts: '08:30',
      policy: 'nfpa-1851-2020',
    },
    prev: '0'.repeat(64),
  })
})

test('keeps a name clean of what could drive a terminal', () => {
  const station = join(newPlace(), 'station')
  init(station, '--name', 'Six\u001b[2J\u202e', '--time-zone', 'UTC')
  expect(JSON.parse(journalOf(station))).toMatchObject({ data: { name: 'Six' } })
})

test.each([
  ['without a name', ['--time-zone', 'UTC'], /'--name <name>'/],
  ['with an empty name', ['--name', ' \t', '--time-zone', 'UTC'], /^bayboard: The station needs a name/],
  ['without a time zone', ['--name', 'X'], /'--time-zone <zone>'/],
  ['with a time zone there is not', ['--name', 'X', '--time-zone', 'America/Nowhere'], /is not a time zone/],
  ['with a rotation there is not', [...GOOD, '--rotation', '25/47'], /no rotation 25\/47.*24\/48/],
  ['with 24:00 as its start', [...GOOD, '--starts', '24:00'], /24:00 is not a time of day/],
  ['with 7:00 as its start', [...GOOD, '--starts', '7:00'], /7:00 is not a time of day/],
  ['with a policy there is not', [...GOOD, '--policy', 'mine'], /no policy mine.*nfpa-1851-2020/],
  ['with an argument too many', [...GOOD, 'extra'], /Too many arguments/],
])('%s it is wrong usage, in one line, and nothing is made', (_, args, words) => {
  const station = join(newPlace(), 'station')
  const { status, stdout, stderr } = init(station, ...args)
  expect({ status, stdout }).toEqual({ status: 2, stdout: '' })
  expect(stderr).toMatch(words)
  expect(lines(stderr)).toHaveLength(1)
  expect(existsSync(station)).toBe(false)
})

test.each(['00:00', '23:59'])('a tour may start at %s', (starts) => {
  expect(init(join(newPlace(), 'station'), ...GOOD, '--starts', starts).status).toBe(0)
})

test('refuses a folder that holds a station and leaves every file of it alone', () => {
  const station = join(newPlace(), 'station')
  init(station, ...GOOD)
  const before = readdirSync(station).map((name) => [name, readFileSync(join(station, name), 'utf8')])
  const { status, stderr } = init(station, ...GOOD)
  expect(status).toBe(1)
  expect(stderr).toBe(
    `bayboard: There is already a station in ${station}. Nothing was changed. Name another folder.\n`,
  )
  expect(readdirSync(station).map((name) => [name, readFileSync(join(station, name), 'utf8')])).toEqual(
    before,
  )
})

test('where the folder cannot be made it says why and ends with 3', () => {
  const file = join(newPlace(), 'a-file')
  writeFileSync(file, 'kept')
  const { status, stderr } = init(join(file, 'station'), ...GOOD)
  expect(status).toBe(3)
  expect(stderr).toMatch(
    /^bayboard: A station cannot be made in .*: part of the path is not a folder \(ENOTDIR\)/,
  )
  expect(readFileSync(file, 'utf8')).toBe('kept')
})

describe('where the demonstration stands', () => {
  const original = join(newPlace(), 'station')
  beforeAll(() => {
    expect(bayboard(['demo', original, '--no-open'])).toEqual({
      status: 0,
      stdout: `${original}\n`,
      stderr: '',
    })
  })
  const made = (): string => {
    const place = join(newPlace(), 'station')
    cpSync(original, place, { recursive: true })
    return place
  }

  test('refuses, says how to go on, and changes nothing', () => {
    const place = made()
    const before = journalOf(place)
    const { status, stderr } = init(place, ...GOOD)
    expect(status).toBe(1)
    expect(stderr).toContain(`${place} holds the demonstration station. Nothing was changed.`)
    expect(stderr).toContain('--set-demonstration-aside')
    expect(journalOf(place)).toBe(before)
  })

  test('with --set-demonstration-aside it is moved, whole, and the folder is the new station’s', () => {
    const place = made()
    const before = journalOf(place)
    const { status, stdout } = init(place, ...GOOD, '--set-demonstration-aside')
    expect(status).toBe(0)
    const aside = /^The demonstration station is now in (.*)\.$/m.exec(stdout)![1]!
    expect(journalOf(aside)).toBe(before)
    expect(bayboard(['verify'], { station: aside }).status).toBe(0)
    expect(JSON.parse(journalOf(place))).toMatchObject({ data: { name: 'Station 6' } })
  })

  test('--set-demonstration-aside never moves a station of one’s own', () => {
    const station = join(newPlace(), 'station')
    init(station, ...GOOD)
    const before = journalOf(station)
    expect(init(station, ...GOOD, '--set-demonstration-aside').status).toBe(1)
    expect(journalOf(station)).toBe(before)
  })
})

describe('a folder that has lost its journal', () => {
  const lostHouse = (): string => {
    const station = newPlace()
    init(station, ...GOOD)
    mkdirSync(join(station, 'seals'))
    return station
  }

  test.each([
    ['emptied', (path: string) => writeFileSync(path, '')],
    ['gone', (path: string) => rmSync(path)],
  ])('with its journal %s is not called a folder without a station, and gets no new one', (_, lose) => {
    const station = lostHouse()
    lose(join(station, 'journal.jsonl'))
    const told = [
      init(station, ...GOOD),
      bayboard(['status'], { station }),
      bayboard(['verify'], { station }),
    ]
    for (const { status, stderr } of told) {
      expect(status).toBe(3)
      expect(stderr).toContain('its seals are still here')
      expect(stderr).toContain('Bring back a copy of journal.jsonl')
    }
  })

  test('a folder without keys and seals is made a station as ever', () => {
    const station = newPlace()
    writeFileSync(join(station, 'journal.jsonl'), '')
    expect(init(station, ...GOOD).status).toBe(0)
  })
})

test.each(['init', 'demo'])(
  '%s in a place where nothing can be made says so in one sentence, at once',
  (name) => {
    const file = join(newPlace(), 'file')
    writeFileSync(file, '')
    const places = [join(file, 'station'), ...(existsSync('/proc/self') ? ['/proc/station'] : [])]
    for (const place of places) {
      const { status, stderr } =
        name === 'init' ? init(place, ...GOOD) : bayboard(['demo', place, '--no-open'], {})
      expect(status).toBe(3)
      expect(stderr.trimEnd().split('\n')).toHaveLength(1)
      expect(stderr).toContain(`A station cannot be made in ${place}: `)
    }
  },
)
