// `npm run bench`: bundles the program, its baselines and the measurements in one manner, then measures. See scripts/bench/run.ts.
import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { bundle } from './bundling.mjs'

const place = join(tmpdir(), 'bayboard-bench')
mkdirSync(place, { recursive: true })
// Its own folder: another run may be measuring other sources just now.
const own = mkdtempSync(join(place, 'run-'))
process.on('exit', () => rmSync(own, { recursive: true, force: true }))
for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, () => process.exit(1))
const built = join(own, 'built')
execFileSync(process.execPath, ['scripts/build.mjs', built])
await bundle(
  { hello: 'scripts/bench/hello.tsx', inside: 'scripts/bench/inside.ts', run: 'scripts/bench/run.ts' },
  built,
  { external: ['@lydell/node-pty'], nodePaths: ['node_modules'] },
)
const { runBench } = await import(pathToFileURL(join(built, 'run.js')).href)
process.exitCode = await runBench(process.argv.slice(2), { place, own, built, root: process.cwd() })
