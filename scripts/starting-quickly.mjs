// Puts off, in the libraries we bundle, what costs a start many milliseconds and is seldom or never asked for.
import { readFile } from 'node:fs/promises'

/** Each file, what stands in it, and what is built instead. A library that no longer says so fails the build. */
const CHANGES = [
  {
    file: /node_modules[\\/]string-width[\\/]index\.js$/,
    from: 'const segmenter = new Intl.Segmenter();',
    // Most names are plain letters, whose width is their length.
    to: 'let made; const segmenter = { segment: (text) => (made ??= new Intl.Segmenter()).segment(text) };',
  },
  {
    file: /node_modules[\\/]ink[\\/]build[\\/]output\.js$/,
    from: 'caches = new OutputCaches();',
    // What a line looks like does not change from frame to frame. Some thousand lines are a long day at the board.
    to: 'caches = keptCaches();',
    after: `
let kept;
function keptCaches() {
  if (!kept || kept.styledChars.size > 5000 || kept.widths.size > 20000) kept = new OutputCaches();
  return kept;
}`,
  },
]

export const startingQuickly = CHANGES.map(({ file, from, to, after = '' }, at) => ({
  name: `starting-quickly-${at}`,
  setup(build) {
    build.onLoad({ filter: file }, async ({ path }) => {
      const text = await readFile(path, 'utf8')
      if (!text.includes(from)) throw new Error(`${path} no longer holds: ${from}`)
      return { contents: text.replace(from, to) + after, loader: 'js' }
    })
  },
}))
