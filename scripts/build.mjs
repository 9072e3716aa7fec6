// Builds the program, dist/bayboard.js, or the same in a folder that is named. It must not fetch anything.
// What is heavy and seldom asked for is built beside it as a part of its own, so that opening the board never reads it. The
// board is one script and the subcommands are another, each with the code that V8 made of it: see run-script.mjs.
import { execFileSync } from 'node:child_process'
import { chmod, copyFile, mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { relative, resolve } from 'node:path'
import { asScript, bundle } from './bundling.mjs'
import { lighterLibraries } from './lighter-libraries.mjs'

const [folder = 'dist'] = process.argv.slice(2)

/** Each part by the module that the program loads with `import()`; it becomes `dist/NAME.js`. */
const PARTS = {
  ink: 'src/tui/app.tsx',
  calendar: 'src/exports/calendar.ts',
  paper: 'src/paper/make-paper.ts',
  workbook: 'src/store/imports/workbook.ts',
  planner: 'src/planner/part.ts',
  piece: 'src/store/piece-thread.ts',
  ahead: 'src/store/ahead-thread.ts',
}

/** For opening the board once, which takes a second; whoever builds must not wait for ever for what hangs. */
const MOST_MS = 120_000

/** Each script, `dist/NAME.cjs`, by its module, and what it hands to whoever loads it with `import()`. */
const SCRIPTS = {
  board: { from: 'src/cli/board.ts', gives: 'board, demo' },
  program: { from: 'src/cli/program.ts', gives: 'runProgram' },
}
const runs = (name, load) => `import { runScript } from './scripts/run-script.mjs'
export const { ${SCRIPTS[name].gives} } = runScript('${name}', import.meta.url, ${load}).exports`

/** `load` is what loads a part for a script: a script hands on what it was given itself. */
const apart = (load) => ({
  name: 'apart',
  setup(build) {
    build.onResolve({ filter: /^\.{1,2}\// }, ({ kind, path, resolveDir }) => {
      if (kind !== 'dynamic-import') return undefined
      const wanted = relative('.', resolve(resolveDir, path))
      const script = Object.keys(SCRIPTS).find((name) => SCRIPTS[name].from === wanted)
      if (script !== undefined) return { path: script, namespace: 'script' }
      const part = Object.keys(PARTS).find((name) => PARTS[name] === wanted)
      return part === undefined ? undefined : { path: `./${part}.js`, external: true }
    })
    build.onLoad({ filter: /./, namespace: 'script' }, ({ path }) => ({
      contents: runs(path, load),
      resolveDir: '.',
    }))
  },
})
const plugins = (load) => [apart(load), ...lighterLibraries]

await mkdir(folder, { recursive: true })
await bundle({ bayboard: 'src/main.ts', ...PARTS }, folder, {
  plugins: plugins('(part) => import(new URL(part, import.meta.url))'),
})
for (const [name, { from }] of Object.entries(SCRIPTS))
  await bundle({ [name]: from }, folder, { plugins: plugins('load'), ...asScript })
/** Only a module may say `import()`: one that is left would fail when it is first needed. */
function loads(text) {
  const made = text.replace(/\bimport\((?="\.\/\w+\.js"\))/g, 'load(')
  if (/\bimport\(/.test(made)) throw new Error('A script would import by itself.')
  return made
}
// One letter beyond Latin-1 and Node keeps the whole file at twice its size; esbuild leaves those in expressions as they are.
const namesOf = (parts, ending) => Object.keys(parts).map((name) => name + ending)
const made = ['bayboard.js', ...namesOf(PARTS, '.js'), ...namesOf(SCRIPTS, '.cjs')]
for (const name of made) {
  const path = `${folder}/${name}`
  const built = await readFile(path, 'utf8')
  const text = name.endsWith('.cjs') ? loads(built) : built
  const byNumber = (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`
  await writeFile(path, text.replace(/[^\x00-\x7f]/g, byNumber))
}
// The solver's own machine code; its loader looks for it beside the planner.
await copyFile('node_modules/highs/build/highs.wasm', `${folder}/highs.wasm`)
await chmod(`${folder}/bayboard.js`, 0o755)
// What an older build left here would be packed along.
for (const name of await readdir(folder))
  if (/\.(c?js|code)$/.test(name) && !made.includes(name)) await rm(`${folder}/${name}`)
const opened = `${folder}/.opened`
const removeOpened = () => rm(opened, { recursive: true, force: true })
await removeOpened()
try {
  // The subcommands are asked about the station that the board leaves.
  for (const name of Object.keys(SCRIPTS)) {
    const keeping = [`scripts/keep-code/${name}.mjs`, folder, `${opened}/station`]
    execFileSync(process.execPath, keeping, { stdio: 'inherit', timeout: MOST_MS, killSignal: 'SIGKILL' })
  }
} finally {
  await removeOpened()
}
