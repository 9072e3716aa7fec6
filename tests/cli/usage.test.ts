// The command line as a whole: wrong usage, help, and an output that cannot be written.
import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { bayboard, shell } from './run.ts'
import { emptyStation } from './two-seats.ts'

const SUBCOMMANDS = [
  'board',
  'demo',
  'init',
  'status',
  'record',
  'verify',
  'export',
  'history',
  'import',
  'policy',
  'schema',
]

describe('wrong usage ends with 2 and one line', () => {
  test.each([
    [['statsu'], "There is no subcommand 'statsu'."],
    [['board', 'statsu'], "There is no subcommand 'statsu'."],
    [['--text', 'statsu'], "There is no subcommand 'statsu'."],
    [['status', '--text'], "Unknown option '--text'."],
    [['--wrong'], "Unknown option '--wrong'."],
    [['status', '--wrong'], "Unknown option '--wrong'."],
    [['policy', 'check', '--wrong'], "Unknown option '--wrong'."],
    [['status', 'extra'], "Too many arguments for 'status'. Expected 0 arguments but got 1."],
    [['status', '--at'], "Option '--at <instant>' argument missing."],
    [['history'], "Missing required argument 'id'."],
    [['policy', 'chekc'], "There is no 'chekc' here. Choose one of: show, check, adopt."],
    [['key', 'shwo'], "There is no 'shwo' here. Choose one of: show, make."],
    [['policy', 'adopt'], "Missing required argument 'file'."],
  ])('%j', (args, words) => {
    expect(bayboard(args)).toEqual({
      status: 2,
      stdout: '',
      stderr: `bayboard: ${words} See bayboard --help.\n`,
    })
  })
})

test.each(['--version', '-V'])('%s tells the version of the package, and needs no station', (option) => {
  const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string }
  expect(bayboard([option])).toEqual({ status: 0, stdout: `${version}\n`, stderr: '' })
})

test('a station whose name is empty is no station, and not the folder one happens to be in', () => {
  for (const args of [['status'], ['init', '--name', 'X', '--time-zone', 'UTC'], ['board'], []]) {
    expect(bayboard([...args, '--station', ''])).toEqual({
      status: 2,
      stdout: '',
      stderr: 'bayboard: --station is empty. Name the folder of a station, or leave the option out.\n',
    })
  }
})

test('without a HOME the default place is the account’s own, never below where one happens to be', () => {
  const { status, stderr } = bayboard(['status'], { env: { HOME: '' } })
  expect(status).toBe(3)
  expect(stderr).toMatch(/^bayboard: There is no station in \/.*\/bayboard\/station\. /)
})

test.each([
  [],
  ...SUBCOMMANDS.map((name) => [name]),
  ['policy', 'show'],
  ['policy', 'check'],
  ['policy', 'adopt'],
])('%s %s --help ends with 0 and shows how it is used', (...args: string[]) => {
  const { status, stdout, stderr } = bayboard([...args, '--help'])
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
  expect(stdout).toContain(['Usage: bayboard', ...args].join(' '))
})

test('the help names every subcommand and every exit status', () => {
  const { stdout } = bayboard(['--help'])
  for (const name of SUBCOMMANDS) expect(stdout).toMatch(new RegExp(`^  ${name} `, 'm'))
  expect(stdout).toMatch(/Exit status: 0 .*; 1 .*; 2 .*; 3 /)
})

test.runIf(existsSync('/dev/full'))(
  'an output on a full disk ends with 3 and says so, where there is /dev/full',
  () => {
    const { status, stderr } = shell(`bayboard status --station '${emptyStation()}' > /dev/full`)
    expect(stderr).toMatch(/^bayboard: The output cannot be written: the disk is full \(ENOSPC\)\. /)
    expect(status).toBe(3)
  },
)
