// What the board prints and exports into the station's own folder, through the real journal and the real printing.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { beforeAll, expect, test } from 'vitest'
import { exportApart } from '../../src/cli/export-apart.ts'
import { deskOf } from '../../src/cli/desk.ts'
import { openSession, type Session } from '../../src/session.ts'
import { openStation } from '../../src/store/station.ts'
import { readPdf, squeezed, wordsOf } from '../paper/read-pdf.ts'
import { PROGRAM } from './run.ts'
import { fitStation } from './two-seats.ts'

const DATA = new URL('../../data/', import.meta.url)
const PROGRAM_URL = pathToFileURL(PROGRAM)
let folder = ''
beforeAll(() => {
  folder = fitStation(
    { do: 'tag', by: 'M-104', element: 'H-1', reason: 'cracked shell', matter: 'safety' },
    { do: 'send-away', by: 'M-104', elements: ['C-2'], to: 'North Wash', for: 'advanced-cleaning' },
  )
})

async function withSession<T>(work: (session: Session) => Promise<T>): Promise<T> {
  const keeper = await openStation(folder)
  if ('sentence' in keeper) throw new Error(keeper.sentence)
  const session = openSession(keeper, Date.now)
  try {
    return await work(session)
  } finally {
    await session.close()
  }
}
const exported = (format: string) => withSession((session) => deskOf(session, folder, DATA).exportLog(format))

test.each([
  ['pdf', 'Readiness log of tour'],
  ['out-of-service-tag', 'cracked shell (safety)'],
  ['care-slip', 'to North Wash'],
])('%s is printed into the exports of the station', async (format, words) => {
  const made = await exported(format)
  const path = 'path' in made ? made.path : made.refused
  expect(path.startsWith(join(folder, 'exports'))).toBe(true)
  expect(wordsOf(await readPdf(readFileSync(path)))).toContain(squeezed(words))
  expect(existsSync(path.replace(/pdf$/, 'csv'))).toBe(format === 'care-slip')
})

test.each(['text', 'csv', 'json', 'pdf'] as const)(
  'a log as %s that the program makes beside the board is the one that the board makes',
  async (format) => {
    const made = await exported(format)
    const path = join(folder, 'apart', `log.${format}`)
    const tour = await withSession((session) => Promise.resolve(session.state.tour!.id))
    expect(await exportApart({ folder, tour, format, path }, PROGRAM_URL)).toEqual({ path })
    const told = async (file: string): Promise<string> =>
      format === 'pdf' ? wordsOf(await readPdf(readFileSync(file))) : readFileSync(file, 'utf8')
    // The minute of its making may be another one.
    const bare = (text: string): string => text.replaceAll(/\d\d:?\d\d(:\d\d(\.\d+)?)?/g, '')
    expect(bare(await told(path))).toBe(bare(await told('path' in made ? made.path : made.refused)))
  },
)

test('why no log was made beside the board is said in the words of export, and no file is left', async () => {
  const path = join(folder, 'apart', 'none.txt')
  const made = await exportApart({ folder, tour: 'T-0', format: 'text', path }, PROGRAM_URL)
  expect(made).toEqual({ refused: expect.stringMatching(/^There (is|was|has been) no tour T-0/) as string })
  expect(existsSync(path)).toBe(false)
})

test('where no program can be started the board makes the log itself', async () => {
  const path = join(folder, 'log.txt', 'below-a-file.txt')
  const { tour } = await withSession((session) => Promise.resolve(session.state.tour!)).then(({ id }) => ({
    tour: id,
  }))
  writeFileSync(join(folder, 'log.txt'), '')
  expect(await exportApart({ folder, tour, format: 'text', path }, PROGRAM_URL)).toBeUndefined()
})

test('where there is nothing to print it is said, and no file is made', async () => {
  const before = readdirSync(join(folder, 'exports')).length
  expect(await exported('bag-tag')).toEqual({
    refused: 'None of these elements is contaminated, wet or held, so there is no bag tag to make.',
  })
  expect(readdirSync(join(folder, 'exports'))).toHaveLength(before)
})
