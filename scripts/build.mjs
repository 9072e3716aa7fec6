// Builds the program, dist/bayboard.js, or the same in a folder that is named. It must not fetch anything.
// What is heavy and seldom asked for is built beside it as a part of its own, so that opening the board never reads it.
import { chmod, mkdir } from 'node:fs/promises'
import { relative, resolve } from 'node:path'
import { build } from 'esbuild'

const [folder = 'dist'] = process.argv.slice(2)

/** Each part by the module that the program loads with `import()`; it becomes `dist/NAME.js`. */
const PARTS = {}

// Ink reaches for its developer tools only when asked to; the bundle has none.
const withoutDeveloperTools = {
  name: 'without-developer-tools',
  setup(build) {
    build.onResolve({ filter: /^react-devtools-core$/ }, () => ({ path: 'none', namespace: 'none' }))
    build.onLoad({ filter: /^none$/, namespace: 'none' }, () => ({ contents: 'export default {}' }))
  },
}

const partsApart = {
  name: 'parts-apart',
  setup(build) {
    build.onResolve({ filter: /^\.{1,2}\// }, ({ kind, path, resolveDir }) => {
      if (kind !== 'dynamic-import') return undefined
      const wanted = relative('.', resolve(resolveDir, path))
      const part = Object.keys(PARTS).find((name) => PARTS[name] === wanted)
      return part === undefined ? undefined : { path: `./${part}.js`, external: true }
    })
  },
}

await mkdir(folder, { recursive: true })
await build({
  entryPoints: { bayboard: 'src/main.ts', ...PARTS },
  outdir: folder,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  minify: true,
  legalComments: 'none',
  jsx: 'automatic',
  define: { 'process.env.NODE_ENV': '"production"', 'process.env.DEV': '"false"' },
  // CommonJS parts of the bundle expect `require`; an ES module has to make its own.
  banner: {
    js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
  },
  plugins: [withoutDeveloperTools, partsApart],
})
await chmod(`${folder}/bayboard.js`, 0o755)
