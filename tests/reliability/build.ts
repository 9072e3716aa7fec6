// Builds the store, whole or with a change of its text, into a folder and loads it; it must never write into the program.
import { readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build, type Plugin } from 'esbuild'
import type { Store } from './store.ts'
import type { Variant } from './variants.ts'

const ROOT = process.cwd()
let built = 0

function changed(changes: Variant['changes']): Plugin {
  const left = new Set(changes)
  return {
    name: 'changed',
    setup(building) {
      building.onLoad({ filter: /\.ts$/ }, ({ path }) => {
        let contents = readFileSync(path, 'utf8')
        for (const change of changes) {
          if (change.file !== relative(ROOT, path)) continue
          if (!contents.includes(change.from))
            throw new Error(`${change.file} no longer holds: ${change.from}`)
          contents = contents.replace(change.from, () => change.to)
          left.delete(change)
        }
        return { contents, loader: 'ts' }
      })
      building.onEnd(() => {
        const [missed] = left
        if (missed) throw new Error(`${missed.file} is no part of what was built`)
      })
    },
  }
}

export async function buildInto(
  folder: string,
  entry: string,
  changes: Variant['changes'] = [],
): Promise<string> {
  const outfile = join(folder, `part-${++built}.mjs`)
  await build({
    absWorkingDir: ROOT,
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'silent',
    banner: { js: "import { createRequire as m } from 'node:module'; const require = m(import.meta.url);" },
    plugins: [changed(changes)],
  })
  return outfile
}

export async function builtStore(folder: string, changes: Variant['changes'] = []): Promise<Store> {
  const file = await buildInto(folder, 'tests/reliability/store.ts', changes)
  return ((await import(pathToFileURL(file).href)) as { store: Store }).store
}
