// What the board prints and exports into the station's own folder, through the real journal and the real printing.
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { deskOf } from '../../src/cli/desk.ts'
import { openSession, type Session } from '../../src/session.ts'
import { openStation } from '../../src/store/station.ts'
import { readPdf, squeezed, wordsOf } from '../paper/read-pdf.ts'
import { fitStation } from './two-seats.ts'

const DATA = new URL('../../data/', import.meta.url)
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

test('where there is nothing to print it is said, and no file is made', async () => {
  const before = readdirSync(join(folder, 'exports')).length
  expect(await exported('bag-tag')).toEqual({
    refused: 'None of these elements is contaminated, wet or held, so there is no bag tag to make.',
  })
  expect(readdirSync(join(folder, 'exports'))).toHaveLength(before)
})
