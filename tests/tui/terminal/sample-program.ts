// Bundles a test program the way the product is bundled; it must never write inside the repository.
import { mkdtemp } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import type { Plugin } from 'esbuild'

/** The path of one bundled file, in a temporary folder of its own. */
export async function bundleSample(entry: string): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'board-sample-'))
  const outfile = join(folder, 'sample.mjs')
  await build({
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    jsx: 'automatic',
    define: { 'process.env.NODE_ENV': '"production"', 'process.env.DEV': '"false"' },
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
    },
    plugins: [withoutDeveloperTools],
  })
  return outfile
}

// Ink names its developer tools in an import that would have to resolve at start, though they are never used.
const withoutDeveloperTools: Plugin = {
  name: 'without-developer-tools',
  setup: (bundle) => {
    bundle.onResolve({ filter: /^react-devtools-core$/ }, () => ({ path: 'none', namespace: 'none' }))
    bundle.onLoad({ filter: /^none$/, namespace: 'none' }, () => ({ contents: 'export default {}' }))
  },
}
