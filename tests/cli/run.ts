// Runs the real bundled program in a child process, as a user does; it must never call the program's own functions.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, vi } from 'vitest'
import { builtProgram } from '../built-program.ts'

const made: string[] = []
// Whole programs are started, on machines that may be busy.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 })
afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true, force: true })
})

/** A new empty folder that goes away with the tests of this file. */
export function newPlace(): string {
  const place = mkdtempSync(join(tmpdir(), 'bayboard-cli-'))
  made.push(place)
  return place
}

const home = newPlace()
export const PROGRAM = join(builtProgram(), 'dist', 'bayboard.js')

export interface Ran {
  status: number | null
  stdout: string
  stderr: string
}
interface How {
  station?: string
  input?: string
  /** A name here wins over the plain environment; the tests' own environment never gets in. */
  env?: Record<string, string>
}

/** What Node prints under an error nobody caught. */
const STACK = /^\s+at .*(?::\d+:\d+\)?|<anonymous>\)?)$/m

const environment = (env: How['env'] = {}): Record<string, string> => ({
  PATH: process.env['PATH'] ?? '',
  HOME: home,
  LANG: 'C.UTF-8',
  ...env,
})

/** Takes the result as it came, but a stack trace is never the user's to read. */
function checked({ status, stdout, stderr }: Ran): Ran {
  if (STACK.test(stderr) || STACK.test(stdout)) throw new Error(`A stack trace was printed:\n${stderr}`)
  return { status, stdout, stderr }
}

/** `bayboard ARGS`, without a terminal. */
export function bayboard(args: readonly string[], { station, input = '', env }: How = {}): Ran {
  const named = station === undefined ? [] : ['--station', station]
  const options = { input, encoding: 'utf8', env: environment(env), timeout: 60_000 } as const
  return checked(spawnSync(process.execPath, [PROGRAM, ...args, ...named], options))
}

/** A line of the shell in which `bayboard` is the program; its exit status is the last part's. */
export function shell(line: string, { env }: How = {}): Ran {
  const script = `bayboard() { "${process.execPath}" "${PROGRAM}" "$@"; }; ${line}`
  return checked(spawnSync('bash', ['-c', script], { encoding: 'utf8', env: environment(env) }))
}

export const lines = (text: string): string[] => text.split('\n').filter((line) => line !== '')
export const journalOf = (station: string): string => readFileSync(join(station, 'journal.jsonl'), 'utf8')

export type Told = { do: string; [member: string]: unknown }
export type Answer = { accepted: number[] } | { refused: string }
export const asLines = (commands: readonly Told[]): string =>
  commands.map((command) => `${JSON.stringify(command)}\n`).join('')

/** Records commands and gives every answer. */
export function record(
  station: string,
  commands: readonly Told[],
): { status: number | null; answers: Answer[] } {
  const { status, stdout } = bayboard(['record'], { station, input: asLines(commands) })
  return { status, answers: lines(stdout).map((line): Answer => JSON.parse(line)) }
}

/** Records commands that must all be taken. */
export function recorded(station: string, commands: readonly Told[]): void {
  const { answers } = record(station, commands)
  const refused = answers.filter((answer) => 'refused' in answer)
  if (refused.length || answers.length !== commands.length) throw new Error(JSON.stringify(refused))
}

/** A file in a folder of its own. */
export function fileWith(text: string, name = 'given.json'): string {
  const path = join(newPlace(), name)
  writeFileSync(path, text)
  return path
}
