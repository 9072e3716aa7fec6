// The bundled program as the sources stand, built once for all the tests of a run and for the next; it must never be one of other sources.
import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
} from 'node:fs'
import { tmpdir, userInfo } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const TOP = fileURLToPath(new URL('../', import.meta.url))
/** All that a build is made from. */
const SOURCES = ['src', 'data', 'scripts', 'package.json', 'package-lock.json']
const DAY_MS = 86_400_000

function filesIn(path: string): string[] {
  if (!statSync(join(TOP, path)).isDirectory()) return [path]
  return readdirSync(join(TOP, path))
    .toSorted()
    .flatMap((name) => filesIn(join(path, name)))
}

function sumOfSources(): string {
  const sum = createHash('sha256').update(TOP)
  for (const file of SOURCES.flatMap(filesIn)) {
    const bytes = readFileSync(join(TOP, file))
    sum.update(`${file} ${bytes.length}\n`).update(bytes)
  }
  return sum.digest('hex').slice(0, 32)
}

/**
 * The folder that the program is installed in. It stands away from this one's node_modules, so that a bundle that lacks
 * a part fails. Two that build at once both build, and the first one's stays.
 */
export function builtProgram(): string {
  const prefix = `bayboard-built-${userInfo().uid}-`
  const place = join(tmpdir(), prefix + sumOfSources())
  if (existsSync(place)) return place
  for (const name of readdirSync(tmpdir()).filter((each) => each.startsWith(prefix))) {
    const old = statSync(join(tmpdir(), name), { throwIfNoEntry: false })
    if (old && Date.now() - old.mtimeMs > DAY_MS)
      rmSync(join(tmpdir(), name), { recursive: true, force: true })
  }
  const own = mkdtempSync(join(tmpdir(), prefix))
  execFileSync(process.execPath, ['scripts/build.mjs', join(own, 'dist')], { cwd: TOP })
  symlinkSync(join(TOP, 'data'), join(own, 'data'))
  try {
    renameSync(own, place)
  } catch {
    rmSync(own, { recursive: true, force: true })
  }
  return place
}
