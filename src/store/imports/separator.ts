// Finds what separates the columns of a file from its heading row; it must never look at the rows below.

export const SEPARATOR_NAMES: Readonly<Record<string, string>> = {
  ',': 'commas',
  ';': 'semicolons (;)',
  '\t': 'tabs',
  '|': 'bars (|)',
}

/** No heading row is longer. */
const LONGEST_HEAD = 100_000

/** `skip` is where the table begins: some spreadsheets write a first line `sep=;` for themselves. */
export function separatorOf(bytes: Buffer): { delimiter: string; skip: number } {
  const start = bytes.toString('utf8', 0, LONGEST_HEAD)
  const stated = /^"?sep=([,;\t|])"?(?=[\r\n])/.exec(start)
  if (stated) return { delimiter: stated[1]!, skip: stated[0].length }
  const head = /^(?:[^\S\r\n]*[\r\n])*([^\r\n]*)/.exec(start.replaceAll(/"(?:[^"]|"")*"/g, 'quoted'))![1]!
  const count = (mark: string): number => head.split(mark).length
  const delimiter = Object.keys(SEPARATOR_NAMES).reduce((best, mark) =>
    count(mark) > count(best) ? mark : best,
  )
  return { delimiter, skip: 0 }
}
