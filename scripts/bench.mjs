// `npm run bench`: bundles the program, its baselines and the measurements in one manner, then measures. See scripts/bench/run.ts.
import { execFileSync } from 'node:child_process'
import { mkdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { bundle } from './bundling.mjs'

const place = join(tmpdir(), 'bayboard-bench')
const built = join(place, 'built')
rmSync(built, { recursive: true, force: true })
mkdirSync(built, { recursive: true })
execFileSync(process.execPath, ['scripts/build.mjs', built])
await bundle(
  { hello: 'scripts/bench/hello.tsx', inside: 'scripts/bench/inside.ts', run: 'scripts/bench/run.ts' },
  built,
  { external: ['@lydell/node-pty'], nodePaths: ['node_modules'] },
)
const { runBench } = await import(pathToFileURL(join(built, 'run.js')).href)
process.exitCode = await runBench(process.argv.slice(2), { place, built, root: process.cwd() })
