// Takes from the libraries we bundle what costs a start or a key many milliseconds: put off, left out, or not done again. What they answer stays the same.
import { readFile } from 'node:fs/promises'

const INK = (name) => new RegExp(`node_modules[\\\\/]ink[\\\\/]build[\\\\/]${name}\\.js$`)

/** Some thousand lines are a long day at the board. */
const keptBy = (answer) => `
let answers = new Map();
function kept(text) {
  let answer = answers.get(text);
  if (answer === undefined) {
    if (answers.size > 5000) answers = new Map();
    answers.set(text, (answer = ${answer}(text)));
  }
  return answer;
}`

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
    file: INK('output'),
    from: 'caches = new OutputCaches();',
    // What a line looks like does not change from frame to frame.
    to: 'caches = keptCaches();',
    after: `
let kept;
function keptCaches() {
  if (!kept || kept.rows.size > 5000 || kept.styledChars.size > 5000 || kept.widths.size > 20000) {
    kept = new OutputCaches();
    kept.rows = new Map();
  }
  return kept;
}
// The frame where each row is written at most once, by a line from its first cell on: then rows have nothing to do with
// each other, and one seen before is not made of cells again. Undefined where it is written in another way.
function keptRows({ operations, width, height, caches }) {
  const rows = Array(height).fill('');
  const isWritten = new Uint8Array(height);
  for (const { type, x, y, text, transformers } of operations) {
    if (type !== 'write' || x !== 0 || !(y >= 0 && y < height) || isWritten[y] || text.includes('\\n')) return undefined;
    isWritten[y] = 1;
    const line = transformers.reduce((told, transform) => transform(told, 0), text);
    const key = width + ' ' + line;
    let row = caches.rows.get(key);
    if (row === undefined) {
      const one = new Output({ width, height: 1 });
      one.operations.push({ type: 'write', x, y: 0, text: line, transformers: [] });
      row = one.cells().output;
      caches.rows.set(key, row);
      // Its cells are a hundred times the row.
      caches.styledChars.delete(line);
    }
    rows[y] = row;
  }
  return { output: rows.join('\\n'), height };
}`,
  },
  {
    file: INK('output'),
    from: '    get() {',
    to: '    get() {\n        return keptRows(this) ?? this.cells();\n    }\n    cells() {',
  },
  {
    // Each line is read letter by letter for codes that no line of ours holds.
    file: INK('squash-text-nodes'),
    from: 'return sanitizeAnsi(text);',
    to: 'return kept(text);',
    after: keptBy('sanitizeAnsi'),
  },
  {
    file: INK('render-node-to-output'),
    from: 'widestLine(text)',
    to: 'kept(text)',
    after: keptBy('widestLine'),
  },
  {
    // Every refusal is in our own words; the errors of all the world's languages take longer to read than the first frame.
    file: /node_modules[\\/]zod[\\/]v4[\\/](core|classic)[\\/](index|external)\.js$/,
    from: 'export * as locales from "../locales/index.js";',
    to: '',
  },
]

const FILES = new Map(CHANGES.map(({ file }) => [String(file), file]))

export const lighterLibraries = [...FILES.values()].map((file) => ({
  name: `lighter-${file}`,
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
