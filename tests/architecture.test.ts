// Keeps the law of the house: which part may import which, and what the domain must never touch.
import { readdirSync, readFileSync } from 'node:fs'
import { posix } from 'node:path'
import { describe, expect, test } from 'vitest'

const ROOT = new URL('../', import.meta.url)

/** From the inside out; a part never imports what its row names. */
const NEVER_IMPORTS: Readonly<Record<string, readonly string[]>> = {
  domain: ['exports', 'paper', 'planner', 'session', 'store', 'tui', 'cli', 'main'],
  exports: ['paper', 'planner', 'session', 'store', 'tui', 'cli', 'main'],
  paper: ['planner', 'session', 'store', 'tui', 'cli', 'main'],
  planner: ['exports', 'paper', 'session', 'store', 'tui', 'cli', 'main'],
  demo: ['exports', 'paper', 'planner', 'session', 'store', 'tui', 'cli', 'main'],
  session: ['paper', 'planner', 'store', 'tui', 'cli', 'main'],
  store: ['paper', 'planner', 'tui', 'cli', 'main'],
  tui: ['paper', 'planner', 'store', 'cli', 'main'],
  cli: ['main'],
  main: [],
}
const OUTSIDE_DOMAIN = /^(zod|date-fns|@date-fns\/[a-z]+(?:\/[a-z]+)*)$/
const BARE_OF_DOMAIN = /^src\/tui\/(terminal|input)\//
const VAGUE_NAMES = ['utils', 'helpers', 'common', 'types', 'contexts', 'index']
const MOST_LINES = 220

const IMPURE: readonly [RegExp, string][] = [
  [/\bDate\.now\b/, 'Date.now'],
  [/\bnew (?:Date|UTCDateMini|TZDate)\(\s*\)/, 'new Date()'],
  [/\bnew (?:Date|UTCDateMini|TZDate)\b(?!\s*\()/, 'new Date'],
  [/\bMath\.random\b/, 'Math.random'],
  [/\brandomUUID\b|\bgetRandomValues\b/, 'randomness'],
  [/\bperformance\b/, 'performance'],
  [/\bprocess\b/, 'process'],
  [/\bconsole\b/, 'console'],
  [/['"]node:/, 'node:'],
  [/\basync\b/, 'async'],
  [/\bawait\b/, 'await'],
]
const UNWANTED: readonly [RegExp, string][] = [
  [/[:<|&]\s*any\b(?!\s*\()|\bas any\b|\bany\[\]|,\s*any\s*>/, 'any'],
  [/^\s*(?:export )?(?:declare )?(?:const )?enum\b/m, 'enum'],
  [/\bexport default\b|\bas default\b/, 'a default export'],
]

const withoutComments = (text: string): string => text.replace(/\/\*[^]*?\*\/|(?<![:'"\\])\/\/[^\n]*/g, '')

const IMPORT =
  /(?:^|\n)\s*(?:import|export)\b[^'";]*?\bfrom\s*['"]([^'"]+)['"]|(?:^|\n)\s*import\s*['"]([^'"]+)['"]|\b(?:import|require)\s*\(\s*['"]([^'"]+)['"]/g

const importsOf = (code: string): string[] =>
  [...code.matchAll(IMPORT)].map(([, from, bare, called]) => from ?? bare ?? called ?? '')

/** `src/tui/input/keys.ts` is of `tui`, `src/session.ts` of `session`. */
const partOf = (path: string): string => path.split('/')[1]?.replace(/\.tsx?$/, '') ?? ''

function importFaults(path: string, name: string): string[] {
  const isRelative = name.startsWith('.')
  const target = isRelative ? posix.join(posix.dirname(path), name) : name
  const from = partOf(path)
  if (isRelative && !/\.(tsx?|json)$/.test(name)) return [`imports ${name} without its extension`]
  if (from === 'domain') {
    const isAllowed = isRelative
      ? target.startsWith('src/domain/') || /^data\/.*\.json$/.test(target)
      : OUTSIDE_DOMAIN.test(name)
    return isAllowed ? [] : [`imports ${name}`]
  }
  if (!isRelative || !target.startsWith('src/')) return []
  const isForbidden =
    NEVER_IMPORTS[from]?.includes(partOf(target)) ||
    (BARE_OF_DOMAIN.test(path) && partOf(target) === 'domain')
  return isForbidden ? [`imports ${name}`] : []
}

/** What is against the law in one file, by its path from the top of the project. */
function faultsOf(path: string, text: string): string[] {
  const code = withoutComments(text)
  const base = posix.basename(path).replace(/\.tsx?$/, '')
  const lines = text.trimEnd().split('\n').length
  const faults = importsOf(code).flatMap((name) => importFaults(path, name))
  if (!(partOf(path) in NEVER_IMPORTS)) faults.push('belongs to no part')
  const unwanted = path.startsWith('src/domain/') ? [...IMPURE, ...UNWANTED] : UNWANTED
  for (const [pattern, what] of unwanted) if (pattern.test(code)) faults.push(`holds ${what}`)
  if (VAGUE_NAMES.includes(base)) faults.push(`is named ${base}`)
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(base)) faults.push('is not named in kebab-case')
  if (lines > MOST_LINES) faults.push(`has ${lines} lines`)
  return faults.map((fault) => `${path} ${fault}`)
}

const files = readdirSync(new URL('src/', ROOT), { recursive: true, encoding: 'utf8' })
  .map((name) => `src/${name.replaceAll('\\', '/')}`)
  .filter((name) => /\.tsx?$/.test(name))

test('every file of the program keeps the law', () => {
  expect(files).toContain('src/domain/decide.ts')
  expect(files.flatMap((path) => faultsOf(path, readFileSync(new URL(path, ROOT), 'utf8')))).toEqual([])
})

/** Names that a file lets out although no other file takes them; a name in another file's words counts as taken. */
function unwantedExports(texts: ReadonlyMap<string, string>): string[] {
  const wordsOf = (text: string): Set<string> => new Set(text.match(/\w+/g))
  const words = new Map([...texts].map(([path, text]) => [path, wordsOf(text)]))
  return [...texts].flatMap(([path, text]) =>
    Array.from(
      text.matchAll(/^export (?:async )?(?:const|let|function\*?|class|interface|type) (\w+)/gm),
      ([, name]) => name!,
    )
      .filter((name) => ![...words].some(([other, held]) => other !== path && held.has(name)))
      .map((name) => `${path} exports ${name}, which nobody imports`),
  )
}

test('what a file exports is imported somewhere', () => {
  const paths = ['src', 'tests', 'scripts'].flatMap((part) =>
    readdirSync(new URL(`${part}/`, ROOT), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(tsx?|mjs)$/.test(name))
      .map((name) => `${part}/${name}`),
  )
  const texts = new Map(paths.map((path) => [path, readFileSync(new URL(path, ROOT), 'utf8')]))
  expect(unwantedExports(texts)).toEqual([])
  const one = new Map([
    ['src/one.ts', 'export const wanted = 1\nexport type Lonely = 2'],
    ['src/two.ts', "import { wanted } from './one.ts'"],
  ])
  expect(unwantedExports(one)).toEqual(['src/one.ts exports Lonely, which nobody imports'])
})

describe('the check finds', () => {
  test.each([
    ['src/domain/time.ts', "import { x } from '../store/journal.ts'", 'imports ../store/journal.ts'],
    ['src/domain/time.ts', "import type { X } from '../session.ts'", 'imports ../session.ts'],
    ['src/domain/time.ts', "export * from '../tui/theme.ts'", 'imports ../tui/theme.ts'],
    ['src/domain/time.ts', "import {\n  a,\n  b,\n} from 'ink'", 'imports ink'],
    ['src/domain/time.ts', "import '../main.ts'", 'imports ../main.ts'],
    ['src/domain/time.ts', "const x = import('../cli/init.ts')", 'imports ../cli/init.ts'],
    [
      'src/domain/time.ts',
      "import x from '../../package.json' with { type: 'json' }",
      'imports ../../package.json',
    ],
    ['src/domain/time.ts', 'const x = Date.now()', 'holds Date.now'],
    ['src/domain/time.ts', 'const x = new Date( )', 'holds new Date()'],
    ['src/domain/time.ts', 'const x = new TZDate()', 'holds new Date()'],
    ['src/domain/time.ts', 'const x = new Date', 'holds new Date'],
    ['src/domain/time.ts', 'const x = Math.random()', 'holds Math.random'],
    ['src/domain/time.ts', 'const x = crypto.randomUUID()', 'holds randomness'],
    ['src/domain/time.ts', 'const { env } = process', 'holds process'],
    ['src/domain/time.ts', 'console.log(1)', 'holds console'],
    ['src/domain/time.ts', 'const x = await y', 'holds await'],
    ['src/domain/time.ts', 'const x = async () => 1', 'holds async'],
    ['src/exports/csv.ts', "import { x } from '../store/journal.ts'", 'imports ../store/journal.ts'],
    ['src/exports/csv.ts', "import { x } from '../tui/theme.ts'", 'imports ../tui/theme.ts'],
    ['src/exports/csv.ts', "import { x } from '../cli/init.ts'", 'imports ../cli/init.ts'],
    ['src/tui/app.tsx', "import { x } from '../paper/page.ts'", 'imports ../paper/page.ts'],
    ['src/planner/solve.ts', "import { x } from '../store/journal.ts'", 'imports ../store/journal.ts'],
    ['src/session.ts', "import { x } from './store/journal.ts'", 'imports ./store/journal.ts'],
    ['src/store/journal.ts', "import { x } from '../tui/theme.ts'", 'imports ../tui/theme.ts'],
    ['src/store/journal.ts', "import { x } from '../cli/init.ts'", 'imports ../cli/init.ts'],
    ['src/tui/app.tsx', "import { x } from '../store/journal.ts'", 'imports ../store/journal.ts'],
    ['src/tui/app.tsx', "import { x } from '../cli/init.ts'", 'imports ../cli/init.ts'],
    ['src/tui/input/keys.ts', "import { x } from '../../domain/time.ts'", 'imports ../../domain/time.ts'],
    ['src/tui/terminal/glass.ts', "import { x } from '../../domain/time.ts'", 'imports ../../domain/time.ts'],
    ['src/cli/init.ts', "import { x } from '../main.ts'", 'imports ../main.ts'],
    ['src/cli/init.ts', "import { x } from './world'", 'imports ./world without its extension'],
    ['src/cli/init.ts', 'const x: any = 1', 'holds any'],
    ['src/cli/init.ts', 'const x = y as any', 'holds any'],
    ['src/cli/init.ts', 'const x: Map<string, any> = y', 'holds any'],
    ['src/cli/init.ts', 'export enum X { A }', 'holds enum'],
    ['src/cli/init.ts', 'export const enum X { A }', 'holds enum'],
    ['src/cli/init.ts', 'export default 1', 'holds a default export'],
    ['src/cli/utils.ts', '', 'is named utils'],
    ['src/tui/index.tsx', '', 'is named index'],
    ['src/tui/TheApp.tsx', '', 'is not named in kebab-case'],
    ['src/extras/x.ts', '', 'belongs to no part'],
    ['src/cli/init.ts', 'x\n'.repeat(221), 'has 221 lines'],
  ])('in %s: %j', (path, text, fault) => {
    expect(faultsOf(path, text)).toEqual([`${path} ${fault}`])
  })
})

describe('the check leaves alone', () => {
  test.each([
    [
      'src/domain/time.ts',
      "import * as z from 'zod'\nimport { TZDate } from '@date-fns/tz'\nimport { add } from 'date-fns'",
    ],
    [
      'src/domain/policy/in-force.ts',
      "import x from '../../../data/policies/nfpa-1851-2020.json' with { type: 'json' }",
    ],
    ['src/domain/time.ts', '// awaits no process, reads no Date.now()\nconst x = new Date(2026, 1)'],
    ['src/domain/time.ts', '/* import { x } from "../store/journal.ts" */'],
    ['src/exports/csv.ts', "import { x } from '../domain/time.ts'"],
    ['src/store/station.ts', "import type { Keeper } from '../session.ts'"],
    ['src/tui/app.tsx', "import { x } from '../session.ts'\nimport { y } from '../domain/time.ts'"],
    ['src/cli/init.ts', "import { x } from '../store/station.ts'\nconst words = 'is there any: yes'"],
    ['src/cli/init.ts', 'const x = y && any(z)'],
    ['src/main.ts', "import { x } from './cli/init.ts'"],
    ['src/cli/init.ts', 'x\n'.repeat(220)],
  ])('%s: %j', (path, text) => {
    expect(faultsOf(path, text)).toEqual([])
  })
})
