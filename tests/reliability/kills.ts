// Real processes killed at each system call that touches the station: what was accepted is there, and the next start goes on.
import { spawnSync } from 'node:child_process'
import {
  appendFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { FACTS, MADE_AT } from './commands.ts'
import { store } from './store.ts'

export const hasStrace = spawnSync('strace', ['-V']).status === 0

type Point = { call: string; nth: number }

const CALLS = [
  'openat',
  'write',
  'pwrite64',
  'fdatasync',
  'fsync',
  'ftruncate',
  'rename',
  'mkdir',
  'rmdir',
  'unlink',
  'utimensat',
  'fstat',
  'statx',
  'close',
]

const trace = (how: string[], program: string, folder: string, mode: string) =>
  spawnSync('strace', ['-f', '-qq', ...how, process.execPath, program, folder, mode], { encoding: 'utf8' })

/** Every call of one run that names something in the folder, counted as strace counts: for each thread by itself. */
export function pointsOf(program: string, folder: string, mode: string): Point[] {
  const log = join(mkdtempSync(join(tmpdir(), 'bayboard-trace-')), 'log')
  trace(['-y', '-o', log, '-e', `trace=${CALLS.join()}`], program, folder, mode)
  const seen = new Map<string, number>()
  const points = new Map<string, Point>()
  for (const text of readFileSync(log, 'utf8').split('\n')) {
    const [, thread, call] = /^(\d+) +(\w+)\(/.exec(text) ?? []
    if (call === undefined) continue
    const nth = (seen.get(`${thread} ${call}`) ?? 0) + 1
    seen.set(`${thread} ${call}`, nth)
    if (text.includes(folder)) points.set(`${call} ${nth}`, { call, nth })
  }
  return [...points.values()]
}

/** Runs until the call and kills there, before it takes effect; what the program had said by then. */
function killedAt({ call, nth }: Point, program: string, folder: string, mode: string): string[] {
  const inject = `inject=${call}:signal=SIGKILL:when=${nth}`
  const ran = trace(['-o', '/dev/null', '-e', `trace=${call}`, '-e', inject], program, folder, mode)
  return ran.stdout.split('\n').filter((each) => each !== '')
}

/** Nobody who tests waits for ten seconds until a dead program's lock is stale. */
export function ageLock(folder: string): void {
  const lock = join(folder, 'journal.lock')
  const longAgo = new Date(Date.now() - 60_000)
  if (existsSync(lock)) utimesSync(lock, longAgo, longAgo)
}

export async function freshStation(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'bayboard-kill-'))
  const trouble = await store.makeStation(folder, FACTS, MADE_AT)
  if (trouble) throw new Error(trouble.sentence)
  return folder
}

const linesIn = (folder: string): number =>
  readFileSync(join(folder, 'journal.jsonl'), 'utf8').split('\n').length - 1

/** Kills a tour at the point and looks at what is left; what is wrong, or nothing. */
export async function tourKilledAt(point: Point, program: string): Promise<string | undefined> {
  const folder = await freshStation()
  const said = killedAt(point, program, folder, 'tour')
  const accepted = said.filter((each) => each.startsWith('accepted ')).length
  if (accepted !== said.length) return `it said: ${said.join('; ')}`
  const there = linesIn(folder) - 1
  if (there < accepted || there > accepted + 1) return `${accepted} were accepted and ${there} are there`
  ageLock(folder)
  const wrong = goesOn(folder, program)
  rmSync(folder, { recursive: true })
  return wrong
}

function goesOn(folder: string, program: string): string | undefined {
  const ran = spawnSync(process.execPath, [program, folder, 'notes', 'again', '1'], { encoding: 'utf8' })
  const isUnknown = ran.stdout.startsWith('There is no member')
  if (!ran.stdout.startsWith('accepted ') && !isUnknown)
    return `the next start said: ${ran.stdout}${ran.stderr}`
  const checked = store.checkJournal(folder)
  if (checked.kind !== 'verified' || checked.faults.length || checked.torn) return 'it does not verify'
  return checked.seals.every(({ holds }) => holds)
    ? undefined
    : `a seal does not hold: ${JSON.stringify(checked.seals)}`
}

const TORN = '{"seq":2,"at":"2026-11-24T07:02'

export async function tornStation(): Promise<string> {
  const folder = await freshStation()
  appendFileSync(join(folder, 'journal.jsonl'), TORN)
  return folder
}

/** A recovery killed at one point, the next one killed at another: the torn bytes are set aside all the same. */
export async function recoveryKilledAt(
  points: readonly Point[],
  program: string,
): Promise<string | undefined> {
  const folder = await tornStation()
  for (const point of points) {
    killedAt(point, program, folder, 'recover')
    ageLock(folder)
  }
  spawnSync(process.execPath, [program, folder, 'recover'])
  const aside = readdirSync(folder).filter((name) => name.startsWith('journal.torn-'))
  const isKept = aside.some((name) => readFileSync(join(folder, name), 'utf8') === TORN)
  const wrong = isKept ? goesOn(folder, program) : 'the torn bytes are not set aside'
  if (wrong === undefined) rmSync(folder, { recursive: true })
  return wrong
}
