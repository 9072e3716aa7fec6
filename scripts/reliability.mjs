// `npm run reliability`: bundles the campaign of tests/reliability and runs it. See tests/reliability/run.ts.
import { mkdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build } from 'esbuild'

// Beside the modules that it does not hold itself.
const place = join('node_modules', '.reliability')
mkdirSync(place, { recursive: true })
const outfile = join(place, 'run.mjs')
await build({
  entryPoints: ['tests/reliability/run.ts'],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  packages: 'external',
})
try {
  await import(pathToFileURL(outfile).href)
} finally {
  rmSync(place, { recursive: true, force: true })
}
