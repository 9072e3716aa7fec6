// What an accepted entry survives, and that the journal stops when the disk says no.
import { describe, expect, it } from 'vitest'
import { realFiles, type Files } from '../../src/store/files.ts'
import { failingFiles, forgetfulFiles, type Fault } from './failing-files.ts'
import { draft, drafts, held, madeJournal, newFolder, open, readBack } from './station-folder.ts'

const ignore = () => undefined

describe('an accepted entry', () => {
  it('was written in one call and synced before it was called accepted', () => {
    const { files, calls } = failingFiles()
    const journal = madeJournal(newFolder(), drafts(1), files)
    calls.length = 0
    expect(journal.append(held, draft('one')).ok).toBe(true)
    const told = calls.filter((call) => call === 'write' || call === 'fdatasync' || call === 'syncFolder')
    expect(told).toEqual(['write', 'fdatasync'])
  })

  it('in a new journal has its name on disk as well, before its first byte', () => {
    const { files, calls } = failingFiles()
    madeJournal(newFolder(), drafts(1), files)
    expect(calls.indexOf('syncFolder')).toBeGreaterThan(calls.indexOf('open'))
    expect(calls.indexOf('syncFolder')).toBeLessThan(calls.indexOf('write'))
  })
})

/** Whether every entry that the store called accepted is still there after the power was lost. */
const isKeptThroughPowerLoss = (spoil: (files: Files) => Files): boolean => {
  const folder = newFolder()
  const { files, loseThePower } = forgetfulFiles(folder)
  const journal = open(folder, { make: true, files: spoil(files) })
  const accepted: string[] = []
  for (const text of ['one', 'two', 'three', 'four']) {
    const appended = journal.append(held, draft(text))
    if (appended.ok) accepted.push(JSON.stringify(appended.entry))
  }
  journal.close()
  loseThePower()
  const again = open(folder, { make: true })
  const found: string[] = []
  again.catchUp((entry) => found.push(JSON.stringify(entry)))
  again.close()
  return accepted.length === 4 && accepted.every((entry, i) => entry === found[i])
}

describe('after a power loss', () => {
  it('every accepted entry is there', () => {
    expect(isKeptThroughPowerLoss((files) => files)).toBe(true)
  })

  // Broken stores, to show that the check above can fail.
  it.each<[string, (files: Files) => Files]>([
    ['never syncs what it wrote', (files) => ({ ...files, fdatasync: ignore })],
    ['never syncs the folder of a new journal', (files) => ({ ...files, syncFolder: ignore })],
    [
      'overlooks a short write',
      (files) => ({
        ...files,
        write: (fd, bytes) => (realFiles.write(fd, bytes.subarray(0, 20)), bytes.length),
      }),
    ],
  ])('a store that %s would be found out', (_, spoil) => {
    expect(isKeptThroughPowerLoss(spoil)).toBe(false)
  })
})

const CODES = ['ENOSPC', 'EIO', 'EDQUOT', 'EFBIG', 'EROFS', 'EACCES']
const CALLS = ['open', 'write', 'fdatasync', 'fstat', 'stat'] as const
const refusals: [string, Fault][] = [
  ...CALLS.flatMap((call) => CODES.map((code): [string, Fault] => [`${code} at ${call}`, { call, code }])),
  ...[0, 1, 100].map((short): [string, Fault] => [`a write of ${short} bytes`, { call: 'write', short }]),
]

describe('when the disk says no', () => {
  it.each(refusals)('once, by %s, the journal stops for good and keeps what it had accepted', (_, fault) => {
    const folder = newFolder()
    madeJournal(folder, drafts(2)).close()
    let armed = false
    const failing = failingFiles(fault)
    // Opening and reading go through the real calls, so that the fault meets the append.
    const files = new Proxy(realFiles, {
      get: (real, name) => Reflect.get(armed ? failing.files : real, name),
    })
    const journal = open(folder, { files })
    journal.catchUp(ignore)
    armed = true
    const refused = journal.append(held, draft('not accepted'))
    expect(refused).toMatchObject({ ok: false, why: 'failed' })
    if (refused.ok) throw new Error('the append was accepted')
    expect(refused.sentence).toContain('What was accepted before is safe on disk.')
    expect(refused.sentence).toContain(fault.code ?? 'bytes were written')

    const callsSoFar = failing.calls.length
    expect(journal.append(held, draft('nor this'))).toEqual(refused)
    expect(failing.calls.length).toBe(callsSoFar)
    expect(journal.stopped).toBe(refused.sentence)
    journal.close()
    expect(readBack(folder).texts.slice(0, 2)).toEqual(['note 1', 'note 2'])
  })

  it('while reading, it is told apart from damage and reading can be tried again', () => {
    const folder = newFolder()
    madeJournal(folder, drafts(2)).close()
    // The first read looks at the first line while opening.
    const journal = open(folder, { files: failingFiles({ call: 'read', code: 'EIO', nth: 2 }).files })
    expect(journal.catchUp(ignore)).toMatchObject({
      kind: 'unreadable',
      sentence: expect.stringContaining('EIO'),
    })
    expect(journal.catchUp(ignore)).toEqual({ kind: 'whole', count: 2 })
  })
})
