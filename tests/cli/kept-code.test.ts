// The board and the subcommands start from what V8 made of them at the building; where that is missing or of another make they start all the same.
import { execFileSync, spawnSync } from 'node:child_process'
import { cpSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { describe, expect, test } from 'vitest'
import { newPlace, PROGRAM } from './run.ts'
import { fitStation } from './two-seats.ts'

const station = fitStation()
const run = (program: string, args: readonly string[], flags: readonly string[] = []) => {
  const options = { encoding: 'utf8', env: { PATH: '', HOME: newPlace() }, timeout: 60_000 } as const
  const { status, stdout, stderr } = spawnSync(process.execPath, [...flags, program, ...args], options)
  return { status, stdout: stdout.replaceAll(/\d\d:\d\d/g, ''), stderr }
}
const opened = run(PROGRAM, ['--station', station])

/** What each script is asked here, and what it answers. */
const ASKED = { board: ['--station', station], program: ['status', '--station', station] }
const SCRIPTS = Object.keys(ASKED) as (keyof typeof ASKED)[]
const answered = { board: opened, program: run(PROGRAM, ASKED.program) }

/** The program as it is installed, in a place of its own. */
function installed(): { dist: string; program: string } {
  const place = newPlace()
  const dist = join(place, 'dist')
  cpSync(dirname(PROGRAM), dist, { recursive: true })
  symlinkSync(join(import.meta.dirname, '../../data'), join(place, 'data'))
  return { dist, program: join(dist, 'bayboard.js') }
}

const runner = pathToFileURL(join(import.meta.dirname, '../../scripts/run-script.mjs'))

/** Whether V8 takes the code that is kept; undefined where it was not even offered. */
function isTaken(dist: string, name = 'board', flags: readonly string[] = []): unknown {
  const here = pathToFileURL(join(dist, 'bayboard.js'))
  const asked = `import(${JSON.stringify(runner)}).then(({ runScript }) => {
    const { cachedDataRejected } = runScript('${name}', ${JSON.stringify(here)}).script
    process.stdout.write(JSON.stringify({ taken: cachedDataRejected === undefined ? null : !cachedDataRejected }))
  })`
  const { stdout } = spawnSync(process.execPath, [...flags, '-e', asked], { encoding: 'utf8' })
  return JSON.parse(stdout).taken
}

test.each(SCRIPTS)('the build keeps code of the %s that this Node takes, wherever it is put', (name) => {
  expect(answered[name]).toMatchObject({ status: 0, stderr: '' })
  expect(answered[name].stdout).toMatch(/E6-1 +Officer: Ada Varga \(M-104\)/)
  const { dist, program } = installed()
  expect(isTaken(dist, name)).toBe(true)
  expect(run(program, ASKED[name])).toEqual(answered[name])
})

describe.each(SCRIPTS)('without a word the %s answers as ever where the kept code', (name) => {
  const change: Record<string, (code: Buffer) => Buffer | undefined> = {
    'is missing': () => undefined,
    'is empty': () => Buffer.alloc(0),
    'is something else': () => Buffer.from('not code at all\n'.repeat(9_999)),
    'is cut short': (code) => code.subarray(0, -64),
    'has one bit turned': (code) => {
      const other = Buffer.from(code)
      other[code.length >> 1]! ^= 1
      return other
    },
  }
  test.each(Object.keys(change))('%s', (how) => {
    const { dist, program } = installed()
    const path = join(dist, `${name}.code`)
    const changed = change[how]!(readFileSync(path))
    rmSync(path)
    if (changed) writeFileSync(path, changed)
    expect(isTaken(dist, name)).toBe(null)
    expect(run(program, ASKED[name])).toEqual(answered[name])
  })

  test('is of a Node with other settings', () => {
    const flags = ['--no-opt']
    expect(isTaken(dirname(PROGRAM), name, flags)).toBe(false)
    expect(run(PROGRAM, ASKED[name], flags)).toEqual(answered[name])
  })
})

test.each([
  [true, process.version, process.arch],
  [null, 'v20.0.0', process.arch],
  [null, process.version, 'riscv64'],
])('code is offered to V8 (%s) where it was made by Node %s for %s', async (taken, version, arch) => {
  const { dist } = installed()
  const { sumOf } = await import(runner.href)
  const code = readFileSync(join(dist, 'board.code')).subarray(sumOf('', '').length)
  const sum = sumOf(readFileSync(join(dist, 'board.cjs')), code, `${version} ${process.platform} ${arch}\n`)
  writeFileSync(join(dist, 'board.code'), Buffer.concat([sum, code]))
  expect(isTaken(dist)).toBe(taken)
})

test('code of an older script of the very same length is never run in place of a newer one', () => {
  const { dist, program } = installed()
  const path = join(dist, 'board.cjs')
  const script = readFileSync(path, 'latin1')
  const [older, newer] = ['There is no station in', 'There is NO station in']
  expect(script).toContain(older)
  writeFileSync(path, script.replaceAll(older, newer), 'latin1')
  expect(isTaken(dist)).toBe(null)
  expect(run(program, ['--station', newPlace()]).stderr).toContain(newer)
})

test('a program that lacks its script says so in one line, without a stack', () => {
  const { dist, program } = installed()
  rmSync(join(dist, 'board.cjs'))
  const { status, stderr } = run(program, ['--station', station])
  expect(status).toBe(3)
  expect(stderr).toContain('board.cjs')
  expect(stderr).not.toMatch(/^\s+at /m)
})

test('a folder built anew holds nothing of an older build, nor of the board that was opened for its code', () => {
  const folder = newPlace()
  for (const old of ['board-chunk-2XOGLIOC.js', 'gone.cjs', 'gone.code']) writeFileSync(join(folder, old), '')
  execFileSync(process.execPath, ['scripts/build.mjs', folder], { cwd: join(import.meta.dirname, '../..') })
  expect(readdirSync(folder).toSorted()).toEqual(readdirSync(dirname(PROGRAM)).toSorted())
})
