// How the program is bundled; the measurements bundle their baselines in just the same way.
import { createHash } from 'node:crypto'
import { build } from 'esbuild'

// Ink reaches for its developer tools only when asked to; the bundle has none.
const withoutDeveloperTools = {
  name: 'without-developer-tools',
  setup(build) {
    build.onResolve({ filter: /^react-devtools-core$/ }, () => ({ path: 'none', namespace: 'none' }))
    build.onLoad({ filter: /^none$/, namespace: 'none' }, () => ({ contents: 'export default {}' }))
  },
}

/** Of the text of all that judging is made of: the rules, the policies, the libraries they use. */
const { outputFiles } = await build({
  entryPoints: ['src/domain/assess/kept.ts'],
  bundle: true,
  format: 'esm',
  minify: true,
  write: false,
})
const sumOfRules = createHash('sha256').update(outputFiles[0].contents).digest('hex').slice(0, 32)

const DEFINED = {
  SUM_OF_RULES: JSON.stringify(sumOfRules),
  'process.env.NODE_ENV': '"production"',
  'process.env.DEV': '"false"',
}

/** In place of an ES module, one expression: a function of what Node gives a CommonJS module, of where the program is, and of what loads its parts. */
export const asScript = {
  format: 'cjs',
  outExtension: { '.js': '.cjs' },
  define: { ...DEFINED, 'import.meta.url': 'here' },
  banner: { js: '(function (exports, require, module, here, load) {' },
  footer: { js: '})' },
}

/** Bundles each entry into `folder`, as ES modules that need nothing but Node. */
export const bundle = (entryPoints, folder, { plugins = [], ...more } = {}) =>
  build({
    entryPoints,
    outdir: folder,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    minify: true,
    legalComments: 'none',
    jsx: 'automatic',
    define: DEFINED,
    // CommonJS parts of the bundle expect `require`; an ES module has to make its own.
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
    },
    plugins: [withoutDeveloperTools, ...plugins],
    ...more,
  })
