// Puts off, in the libraries we bundle, what costs a start many milliseconds and is seldom or never asked for.
import { readFile } from 'node:fs/promises'

/** Each file, what stands in it, and what is built instead. A library that no longer says so fails the build. */
const CHANGES = [
  {
    // Most names are plain letters, whose width is their length.
    file: /node_modules[\\/]string-width[\\/]index\.js$/,
    from: 'const segmenter = new Intl.Segmenter();',
    to: 'let made; const segmenter = { segment: (text) => (made ??= new Intl.Segmenter()).segment(text) };',
  },
  {
    file: /node_modules[\\/]string-width[\\/]index\.js$/,
    from: 'const rgiEmojiRegex = /^\\p{RGI_Emoji}$/v;',
    to: String.raw`let emoji; const rgiEmojiRegex = { test: (text) => (emoji ??= /^\p{RGI_Emoji}$/v).test(text) };`,
    // An older one knows emoji by a list of its own.
    isOptional: true,
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
  {
    // Every refusal is in our own words; the errors of all the world's languages take longer to read than the first frame.
    file: /node_modules[\\/]zod[\\/]v4[\\/](core|classic)[\\/](index|external)\.js$/,
    from: 'export * as locales from "../locales/index.js";',
    to: '',
  },
]

const FILES = new Map(CHANGES.map(({ file }) => [String(file), file]))

export const startingQuickly = [...FILES.values()].map((file) => ({
  name: `starting-quickly-${file}`,
  setup(build) {
    build.onLoad({ filter: file }, async ({ path }) => {
      let contents = await readFile(path, 'utf8')
      for (const { from, to, after = '', isOptional } of CHANGES.filter(
        (each) => String(each.file) === String(file),
      )) {
        if (!contents.includes(from) && !isOptional) throw new Error(`${path} no longer holds: ${from}`)
        contents = contents.replace(from, () => to) + after
      }
      return { contents, loader: 'js' }
    })
  },
}))
