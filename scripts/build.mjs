// Builds the program, dist/bayboard.js, or the same in a folder that is named. It must not fetch anything.
// What is heavy and seldom asked for is built beside it as a part of its own, so that opening the board never reads it.
import { chmod, copyFile, mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { relative, resolve } from 'node:path'
import { bundle } from './bundling.mjs'
import { startingQuickly } from './starting-quickly.mjs'

const [folder = 'dist'] = process.argv.slice(2)

/** Each part by the module that the program loads with `import()`; it becomes `dist/NAME.js`. */
const PARTS = {
  program: 'src/cli/program.ts',
  ink: 'src/tui/app.tsx',
  calendar: 'src/exports/calendar.ts',
  paper: 'src/paper/make-paper.ts',
  workbook: 'src/store/imports/workbook.ts',
  planner: 'src/planner/part.ts',
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
const isOfBoard = (name) => /^board-.*\.js$/.test(name)
for (const old of (await readdir(folder)).filter(isOfBoard)) await rm(`${folder}/${old}`)
const plugins = [partsApart, ...startingQuickly]
await bundle(PARTS, folder, { plugins })
// What only some openings ask for is split off, not wrapped within the one file: V8 would read every wrapped line twice.
await bundle({ bayboard: 'src/main.ts' }, folder, {
  plugins,
  splitting: true,
  chunkNames: 'board-[name]-[hash]',
})
// One letter beyond Latin-1 and Node keeps the whole file at twice its size; esbuild leaves those in expressions as they are.
const built = ['bayboard.js', ...Object.keys(PARTS).map((name) => `${name}.js`)]
for (const name of [...built, ...(await readdir(folder)).filter(isOfBoard)]) {
  const path = `${folder}/${name}`
  const text = await readFile(path, 'utf8')
  const byNumber = (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`
  await writeFile(path, text.replace(/[^\x00-\x7f]/g, byNumber))
}
// The solver's own machine code; its loader looks for it beside the planner.
await copyFile('node_modules/highs/build/highs.wasm', `${folder}/highs.wasm`)
await chmod(`${folder}/bayboard.js`, 0o755)
