// The journal tells of what another program appends to it, where the disk is this machine's own.
import { existsSync, mkdtempSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { expect, onTestFinished, test, vi } from 'vitest'
import { heedJournal } from '../../src/store/heed.ts'
import { JOURNAL_NAME } from '../../src/store/journal.ts'
import { draft, held, newFolder, open } from './station-folder.ts'

/** A disk that is surely this machine's own. */
const MEMORY = '/dev/shm'

function heeded(folder: string) {
  const changed = vi.fn<() => void>()
  const heeding = heedJournal(folder, changed)
  onTestFinished(() => heeding.stop())
  return { changed, heeding }
}

test.skipIf(!existsSync(MEMORY))('what another program appends is told', async () => {
  const folder = mkdtempSync(join(MEMORY, 'bayboard-heed-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  const journal = open(folder, { make: true })
  onTestFinished(() => journal.close())
  const { changed, heeding } = heeded(folder)
  expect(heeding.isTold()).toBe(true)
  journal.append(held, draft('seen'))
  await vi.waitFor(() => expect(changed).toHaveBeenCalled())
})

test.skipIf(!existsSync(MEMORY))(
  'a journal that is moved away is told of no more, so that it is looked for',
  async () => {
    const folder = mkdtempSync(join(MEMORY, 'bayboard-heed-'))
    onTestFinished(() => rmSync(folder, { recursive: true }))
    open(folder, { make: true }).close()
    const { heeding } = heeded(folder)
    renameSync(join(folder, JOURNAL_NAME), join(folder, 'elsewhere'))
    await vi.waitFor(() => expect(heeding.isTold()).toBe(false))
  },
)

test('where there is no journal to hear of, nothing is thrown and nothing is told', () => {
  const { heeding } = heeded(newFolder())
  expect(heeding.isTold()).toBe(false)
})
