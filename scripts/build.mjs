// Builds the one bundled program, dist/bayboard.js, or the same in a folder that is named. It must not fetch anything.
import { chmod, mkdir } from 'node:fs/promises'
import { build } from 'esbuild'

const [folder = 'dist'] = process.argv.slice(2)

// Ink reaches for its developer tools only when asked to; the bundle has none.
const withoutDeveloperTools = {
  name: 'without-developer-tools',
  setup(build) {
    build.onResolve({ filter: /^react-devtools-core$/ }, () => ({ path: 'none', namespace: 'none' }))
    build.onLoad({ filter: /^none$/, namespace: 'none' }, () => ({ contents: 'export default {}' }))
  },
}

await mkdir(folder, { recursive: true })
await build({
  entryPoints: { bayboard: 'src/main.ts' },
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
  plugins: [withoutDeveloperTools],
})
await chmod(`${folder}/bayboard.js`, 0o755)
